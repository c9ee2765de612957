#include "ledger/checkpoint.h"

#include <charconv>

namespace ledger {

namespace {

constexpr std::string_view white = " \t\r\n";
constexpr std::string_view marker = " sha256:";

std::string_view trimmed(std::string_view text) {
  const auto first = text.find_first_not_of(white);
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(white) - first + 1);
}

engine::Error bad(std::string_view line) {
  return {"bad_checkpoint",
          "`" + std::string(line) + "` is not a checkpoint",
          {},
          "a checkpoint is the number of entries, a space, `sha256:` and 64 lower-case hexadecimal digits"};
}

int digit_of(char c) {
  if (c >= '0' && c <= '9') return c - '0';
  if (c >= 'a' && c <= 'f') return c - 'a' + 10;
  return -1;
}

bool read_digest(std::string_view text, engine::Digest& digest) {
  if (text.size() != 2 * digest.size()) return false;
  for (std::size_t i = 0; i < digest.size(); ++i) {
    const int high = digit_of(text[2 * i]);
    const int low = digit_of(text[2 * i + 1]);
    if (high < 0 || low < 0) return false;
    digest[i] = static_cast<std::uint8_t>(high * 16 + low);
  }
  return true;
}

}  // namespace

std::string text_of(const Checkpoint& checkpoint) {
  return std::to_string(checkpoint.size) + std::string(marker) + engine::hexadecimal(checkpoint.head);
}

engine::Result<Checkpoint> parse_checkpoint(std::string_view line) {
  const std::string_view text = trimmed(line);
  const auto space = text.find(' ');
  if (space == std::string_view::npos || text.substr(space, marker.size()) != marker) return bad(text);
  Checkpoint checkpoint;
  const auto [end, fault] = std::from_chars(text.data(), text.data() + space, checkpoint.size);
  if (fault != std::errc{} || end != text.data() + space) return bad(text);
  if (!read_digest(text.substr(space + marker.size()), checkpoint.head)) return bad(text);
  return checkpoint;
}

}  // namespace ledger
