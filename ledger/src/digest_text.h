// `sha256:` and 64 hexadecimal digits, read back.

#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "engine/canonical.h"

namespace ledger {

/// The digest that `text` writes as `sha256:` and 64 lower-case hexadecimal digits; nothing for any other
/// text.
std::optional<engine::Digest> digest_of(std::string_view text);

/// As digests stand in entries, checkpoints and exports.
inline std::string text_of(const engine::Digest& digest) {
  return "sha256:" + engine::hexadecimal(digest);
}

}  // namespace ledger
