#include "ruleset/diagnostic_errors.h"

#include <algorithm>

namespace engine {

namespace {

/// `text` without its line breaks and indentation.
std::string on_one_line(std::string_view text) {
  std::string line;
  for (const char c : text) {
    const bool blank = c == ' ' || c == '\n' || c == '\r' || c == '\t';
    if (!blank) line += c;
    if (blank && !line.empty() && line.back() != ' ') line += ' ';
  }
  if (!line.empty() && line.back() == ' ') line.pop_back();
  return line;
}

Error error_of(const Diagnostic& diagnostic) {
  const std::string rule = diagnostic.rule < 0 ? "" : ", rule " + std::to_string(diagnostic.rule + 1);
  Error error;
  error.code = diagnostic.code;
  error.message = diagnostic.element.empty()
                      ? diagnostic.message
                      : "`" + diagnostic.element + "`" + rule + ": " + diagnostic.message;
  error.place.path = diagnostic.element + rule;
  if (!diagnostic.text.empty()) error.help = "the expression is `" + on_one_line(diagnostic.text) + "`";
  return error;
}

}  // namespace

void add_errors(const Diagnostics& diagnostics, Errors& errors) {
  constexpr std::size_t most = 20;
  for (const Diagnostic& diagnostic : diagnostics) {
    if (diagnostic.severity != Severity::error || errors.size() >= most) continue;
    Error error = error_of(diagnostic);
    const auto is_same = [&](const Error& other) {
      return other.code == error.code && other.message == error.message && other.help == error.help;
    };
    if (std::none_of(errors.begin(), errors.end(), is_same)) errors.push_back(std::move(error));
  }
}

}  // namespace engine
