// What an entry tells: every kind, and its text in the ledger. Source: docs/ledger-format.md.

#pragma once

#include <cstdint>
#include <optional>
#include <string_view>

namespace ledger {

enum class Kind : std::uint8_t {
  person_registered,
  person_amended,
  person_died,
  person_moved_away,
  examination_recorded,
  examination_amended,
  specimen_sent,
  histology_entered,
  histology_amended,
  advice_given,
  advice_signed,
  advice_overridden,
  advice_superseded,
  recall_opened,
  recall_vetted,
  recall_redated,
  recall_not_ready,
  recall_invited,
  recall_booked,
  recall_cancelled,
  recall_did_not_attend,
  recall_attended,
  recall_handed_over,
  recall_taken_back,
  recall_answered,
  recall_closed,
  recall_reopened,
  ruleset_installed,
  input_refused,
  input_unmatched,
  input_settled,
  checkpoint
};

/// `person registered`, `advice given`, ...: the name with spaces.
std::string_view text_of(Kind kind);
std::optional<Kind> kind_of(std::string_view text);

}  // namespace ledger
