// The two outcomes of anything that can fail on input: a value, or every fault that was found.
//
// A fault inside a FEEL expression is not an Error: it is FEEL null with a Diagnostic (diagnostic.h).
// A fault of input or machine is an Error. An assertion is for our own mistakes only.

#pragma once

#include <cassert>
#include <cstdint>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

namespace engine {

/// Where a fault stands. Either a point in a text (line > 0), or a path into a document (`path`), or both empty.
struct Place {
  std::string source;        ///< File name, `standard input`, or what the caller calls the text. May be empty.
  std::string path;          ///< JSON path such as `exam.lesions[1].size_mm`. Empty for plain text.
  std::uint32_t line = 0;    ///< From 1; 0 when not known.
  std::uint32_t column = 0;  ///< From 1, in code points.
  std::uint32_t length = 0;  ///< Code points the fault covers; 0 and 1 both draw one caret.
  std::string excerpt;       ///< The line of text itself, without its end. Empty when not known.
};

/// One fault, in the words of the person who wrote the input: lower case, no full stop, their words in backquotes.
struct Error {
  std::string code;     ///< Stable, snake_case, for programs: `unknown_key`.
  std::string message;  ///< What was read and what was expected.
  Place place;
  std::string help;  ///< What to do, or `did you mean ...`. May be empty.
};

using Errors = std::vector<Error>;

/// A value, or at least one Error. Never both.
template <class T>
class [[nodiscard]] Result {
 public:
  Result(T value) : state_(std::in_place_index<0>, std::move(value)) {}  // NOLINT: implicit by design
  Result(Error error) : state_(std::in_place_index<1>, Errors{std::move(error)}) {}  // NOLINT
  Result(Errors errors) : state_(std::in_place_index<1>, std::move(errors)) {  // NOLINT
    assert(!std::get<1>(state_).empty());
  }

  explicit operator bool() const { return state_.index() == 0; }
  T& operator*() & { return std::get<0>(state_); }
  const T& operator*() const& { return std::get<0>(state_); }
  T&& operator*() && { return std::get<0>(std::move(state_)); }
  T* operator->() { return &std::get<0>(state_); }
  const T* operator->() const { return &std::get<0>(state_); }
  const Errors& errors() const { return std::get<1>(state_); }

 private:
  std::variant<T, Errors> state_;
};

/// For operations that give no value.
struct Done {};

/// The error as a person reads it, on several lines, ending in a line feed:
///   surveillance.dmn:41:26: error: a lesion has no `size`
///      41 |     <text>largest lesion.size >= 10</text>
///         |                          ^^^^
///     help: did you mean `size_mm`?
std::string text_of(const Error& error);

/// The candidate that `word` was probably meant to be, or empty when none is near. A candidate whose first word it is
/// comes first (`size` of `size_mm`), then the one with the least edit distance, at most a third of the length, then
/// one that begins alike. Capitals do not count.
std::string nearest(std::string_view word, const std::vector<std::string_view>& candidates);

}  // namespace engine
