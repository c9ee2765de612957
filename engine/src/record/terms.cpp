#include "record/terms.h"

namespace engine {

std::optional<std::size_t> position_of(std::string_view text, std::span<const std::string_view> terms) {
  for (std::size_t i = 0; i < terms.size(); ++i) {
    if (terms[i] == text) return i;
  }
  return std::nullopt;
}

std::string alternatives(std::span<const std::string_view> terms, std::string_view last_joint) {
  std::string out;
  for (std::size_t i = 0; i < terms.size(); ++i) {
    if (i > 0 && i + 1 == terms.size()) {
      out.append(" ").append(last_joint).append(" ");
    } else if (i > 0) {
      out += ", ";
    }
    out.append("`").append(terms[i]).append("`");
  }
  return out;
}

}  // namespace engine
