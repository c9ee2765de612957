// What one entry holds. Entries are the truth; every other table follows from them.
// Source: docs/ledger-format.md.

#pragma once

#include <cstdint>
#include <string>

#include "engine/canonical.h"

namespace ledger {

struct Entry {
  std::uint64_t sequence = 0;  ///< 1, 2, 3 ... without gaps.
  std::string at;              ///< UTC, `2026-03-10T09:15:00.000Z`.
  std::string actor;
  std::string kind;  ///< Text of a Kind. Kept as read, so that a falsified one can be shown.
  std::string
      subject;       ///< `person:P1`, `examination:E-17`, `recall:R9`, `ruleset:uk-2020`, `input:sha256:...`.
  std::string body;  ///< A JSON object, RFC 8785 form.
  engine::Digest previous{};  ///< Hash of the entry before; 32 zero bytes for the first.
  engine::Digest hash{};
};

/// The entry in one line for a person: `advice signed by Dr Rao: surveillance colonoscopy, due 2029-03-10`.
std::string summary_of(const Entry& entry);

}  // namespace ledger
