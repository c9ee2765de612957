#include "ledger/checkpoint.h"

#include <charconv>

#include "digest_text.h"

namespace ledger {

namespace {

constexpr std::string_view white = " \t\r\n";

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

}  // namespace

std::string text_of(const Checkpoint& checkpoint) {
  return std::to_string(checkpoint.size) + " " + text_of(checkpoint.head);
}

engine::Result<Checkpoint> parse_checkpoint(std::string_view line) {
  const std::string_view text = trimmed(line);
  const auto space = text.find(' ');
  if (space == std::string_view::npos) return bad(text);
  Checkpoint checkpoint;
  const auto [end, fault] = std::from_chars(text.data(), text.data() + space, checkpoint.size);
  if (fault != std::errc{} || end != text.data() + space) return bad(text);
  const auto head = digest_of(text.substr(space + 1));
  if (!head) return bad(text);
  checkpoint.head = *head;
  return checkpoint;
}

}  // namespace ledger
