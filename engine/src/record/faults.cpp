#include "record/faults.h"

#include <utility>

#include "text/printable.h"

namespace engine {

void Faults::add(std::string_view code, const Path& path, std::string message, std::string help) {
  if (errors_.size() > most) return;
  Error error{std::string(code), std::move(message), {}, std::move(help)};
  error.place.path = printable(text_of(path));
  if (errors_.size() == most) {
    error.code = "too_many_faults";
    error.message = "there are more faults than these " + std::to_string(most);
    error.place.path.clear();
    error.help = "mend these first, then read the record again";
  }
  error.place.source = source_;
  errors_.push_back(std::move(error));
}

std::string quoted(std::string_view words) {
  constexpr std::size_t longest = 80;
  return "`" + printable(words, longest) + "`";
}

}  // namespace engine
