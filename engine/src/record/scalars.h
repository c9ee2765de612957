// Reads single values of a record: numbers, terms, dates, text. What is wrong is noted with what was read and
// what was expected; `read` is then false and the member left as it is.

#pragma once

#include <simdjson.h>

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <type_traits>

#include "record/faults.h"
#include "record/fields.h"
#include "record/path.h"
#include "record/terms.h"

namespace engine {

class Scalars {
  using element = simdjson::dom::element;

 public:
  explicit Scalars(Faults& faults) : faults_(faults) {}

  template <class Term>
  requires std::is_enum_v<Term>
  bool read(element value, const Path& path, Term& into, ByType) {
    const auto position = term(value, path, vocabulary<Term>);
    if (position) into = static_cast<Term>(*position);
    return position.has_value();
  }
  bool read(element value, const Path& path, bool& into, ByType);
  bool read(element value, const Path& path, Date& into, ByType);
  bool read(element value, const Path& path, std::int32_t& into, Whole rule);
  bool read(element value, const Path& path, Millimetres& into, Length rule);
  bool read(element value, const Path& path, std::string& into, Words);
  bool read(element value, const Path& path, std::string& into, OneOf rule);
  bool read(element value, const Path& path, std::string& into, NearNone rule);
  bool read(element value, const Path& path, std::string& into, PartialDate);

  bool wrong_type(element value, const Path& path, std::string_view expected);  ///< False, always.
  void unknown_key(std::string_view key, const Path& path, std::string_view object,
                   std::span<const std::string_view> keys, std::string_view note = {});

  void no_options(const Path& path);
  void repeated_option(element option, const Path& path);
  /// `{"from": .., "to": ..}`: both ends are needed.
  void check_ends(bool has_from, bool has_to, const Path& path);
  void ends_reversed(element bounds, const Path& path);

 private:
  bool fault(std::string_view code, const Path& path, std::string message, std::string help = {});
  std::optional<std::size_t> term(element value, const Path& path, std::span<const std::string_view> terms);
  std::optional<std::string_view> words(element value, const Path& path, std::string_view expected);
  bool not_a_term(std::string_view read, const Path& path, std::span<const std::string_view> terms);

  Faults& faults_;
};

}  // namespace engine
