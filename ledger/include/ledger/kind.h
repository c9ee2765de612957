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
  person_death_reversed,
  person_moved_away,
  person_moved_back,
  person_merged,          ///< Two numbers are one person. Both histories are kept.
  person_merge_reversed,  ///< They are not: each has its own again.
  person_told_apart,      ///< Two that look alike are two people.
  examination_recorded,
  examination_amended,
  specimen_sent,
  histology_entered,
  histology_amended,
  histology_withdrawn,  ///< The laboratory took its report back: awaited again.
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
  letter_issued,
  ruleset_installed,
  protocol_adopted,
  account_named,
  account_withdrawn,
  input_refused,
  input_unmatched,
  input_settled,
  backup,
  checkpoint,
  letter_withheld  ///< It will not be sent, for a reason.
};

/// Which derived tables an entry writes.
enum class Topic : std::uint8_t { person, examination, advice, recall, letter, governance, input };
Topic topic_of(Kind kind);

/// `person registered`, `advice given`, ...: the name with spaces.
std::string_view text_of(Kind kind);
std::optional<Kind> kind_of(std::string_view text);

}  // namespace ledger
