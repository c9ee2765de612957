#include "digest_text.h"

namespace ledger {

namespace {

int digit_of(char c) {
  if (c >= '0' && c <= '9') return c - '0';
  if (c >= 'a' && c <= 'f') return c - 'a' + 10;
  return -1;
}

}  // namespace

std::optional<engine::Digest> digest_of(std::string_view text) {
  constexpr std::string_view marker = "sha256:";
  engine::Digest digest{};
  if (!text.starts_with(marker)) return std::nullopt;
  text.remove_prefix(marker.size());
  if (text.size() != 2 * digest.size()) return std::nullopt;
  for (std::size_t i = 0; i < digest.size(); ++i) {
    const int high = digit_of(text[2 * i]);
    const int low = digit_of(text[2 * i + 1]);
    if (high < 0 || low < 0) return std::nullopt;
    digest[i] = static_cast<std::uint8_t>(high * 16 + low);
  }
  return digest;
}

}  // namespace ledger
