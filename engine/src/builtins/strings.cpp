// Built-ins on strings, but for patterns. Positions and lengths count code points.
// Source: DMN 1.5, table 75 (string functions).

#include "builtins/arguments.h"
#include "builtins/case_mapping.h"
#include "syntax/unicode.h"

namespace engine {

namespace {

// Code points from a length; 0 when it is below 1, as many as there are when it does not fit.
std::uint64_t length_of(const Decimal& length) {
  if (length < Decimal(1)) return 0;
  const auto whole = length.truncated_to_int64();
  return whole ? static_cast<std::uint64_t>(*whole) : UINT64_MAX;
}

// Policy: a start outside the string, and a length below 1, have no result; a length beyond the end takes
// what there is, as in XPath.
Value substring(const BuiltinCall& call) {
  if (const auto fault = misfit(call, {Kind::string, Kind::number, Kind::number})) return *fault;
  const std::string_view text = call[0].string();
  const auto start = place_of(call[1].number(), count_code_points(text));
  if (!start) return call.bad("there is no position " + call[1].number().text() + " in the string");
  const std::string_view rest = text.substr(byte_offset(text, *start));
  if (call.count() == 2) return Value::string(rest);
  const std::uint64_t length = length_of(call[2].number());
  if (length == 0) return call.bad("the length must be at least 1");
  return Value::string(rest.substr(0, byte_offset(rest, length)));
}

Value string_length(const BuiltinCall& call) {
  if (const auto fault = misfit(call, {Kind::string})) return *fault;
  return Value::number(static_cast<std::int64_t>(count_code_points(call[0].string())));
}

template <std::string (*change)(std::string_view)>
Value changed(const BuiltinCall& call) {
  if (const auto fault = misfit(call, {Kind::string})) return *fault;
  return new_string(call, change(call[0].string()));
}

Value substring_before(const BuiltinCall& call) {
  if (const auto fault = misfit(call, {Kind::string, Kind::string})) return *fault;
  const std::string_view text = call[0].string();
  const std::size_t found = text.find(call[1].string());
  return Value::string(found == std::string_view::npos ? std::string_view() : text.substr(0, found));
}

Value substring_after(const BuiltinCall& call) {
  if (const auto fault = misfit(call, {Kind::string, Kind::string})) return *fault;
  const std::string_view text = call[0].string();
  const std::string_view match = call[1].string();
  const std::size_t found = text.find(match);
  return Value::string(found == std::string_view::npos ? std::string_view()
                                                       : text.substr(found + match.size()));
}

bool contains_text(std::string_view text, std::string_view match) {
  return text.find(match) != std::string_view::npos;
}
bool starts_with(std::string_view text, std::string_view match) {
  return text.starts_with(match);
}
bool ends_with(std::string_view text, std::string_view match) {
  return text.ends_with(match);
}

template <bool (*test)(std::string_view, std::string_view)>
Value tested(const BuiltinCall& call) {
  if (const auto fault = misfit(call, {Kind::string, Kind::string})) return *fault;
  return Value::of(test(call[0].string(), call[1].string()));
}

// Null items are passed over; a delimiter that is null is the empty one.
Value string_join(const BuiltinCall& call) {
  const auto items = items_of(call);
  if (!items) return {};
  std::string_view delimiter;
  if (call.count() == 2 && !call[1].is_null()) {
    if (!call[1].is(Kind::string)) return call.wrong(1, "string");
    delimiter = call[1].string();
  }
  std::string text;
  bool first = true;
  for (const Value& item : *items) {
    if (item.is_null()) continue;
    if (!item.is(Kind::string))
      return call.bad("a " + std::string(type_name(item.kind())) + " cannot be joined");
    if (!first) text += delimiter;
    first = false;
    text += item.string();
    if (text.size() > call.state.budget.string_length) break;  // new_string() says so
  }
  return new_string(call, text);
}

}  // namespace

void add_string_builtins(std::vector<Builtin>& all) {
  using Result = Type::Kind;
  const std::vector<Signature> string = {{{"string"}, 1}};
  const std::vector<Signature> string_and_match = {{{"string", "match"}, 2}};
  const std::vector<Builtin> own = {
      {"substring", substring, {{{"string", "start position", "length"}, 2}}, Result::string},
      {"string length", string_length, string, Result::number},
      {"upper case", changed<upper_case>, string, Result::string},
      {"lower case", changed<lower_case>, string, Result::string},
      {"substring before", substring_before, string_and_match, Result::string},
      {"substring after", substring_after, string_and_match, Result::string},
      {"contains", tested<contains_text>, string_and_match, Result::boolean},
      {"starts with", tested<starts_with>, string_and_match, Result::boolean},
      {"ends with", tested<ends_with>, string_and_match, Result::boolean},
      {"string join", string_join, {{{"list", "delimiter"}, 1}}, Result::string},
  };
  all.insert(all.end(), own.begin(), own.end());
}

}  // namespace engine
