// Size and head hash of a ledger, as one line to keep elsewhere. Only a checkpoint shows that the end of a
// ledger was cut off: the shorter chain is sound in itself.

#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "engine/canonical.h"
#include "engine/result.h"

namespace ledger {

struct Checkpoint {
  std::uint64_t size = 0;  ///< Number of the last entry; 0 for an empty ledger.
  engine::Digest head{};   ///< Its hash; 32 zero bytes for an empty ledger.
  friend bool operator==(const Checkpoint&, const Checkpoint&) = default;
};

/// `1234 sha256:` and 64 lower-case hexadecimal digits. No line feed.
std::string text_of(const Checkpoint& checkpoint);

/// Reads that line back; white space around it is ignored. Fails with `bad_checkpoint`.
engine::Result<Checkpoint> parse_checkpoint(std::string_view line);

}  // namespace ledger
