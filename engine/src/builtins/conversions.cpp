// Built-ins that make a number or text of something, and two on any values. Source: DMN 1.5, tables 73, 74
// and 81 (conversion, boolean and miscellaneous functions).

#include <cctype>

#include "builtins/arguments.h"
#include "builtins/range_text.h"
#include "value/value_copy.h"

namespace engine {

namespace {

// A separator of `number`: one of `allowed`, or none when null. No value when it is something else.
std::optional<char> separator(const Value& value, std::string_view allowed) {
  if (value.is_null()) return '\0';
  if (!value.is(Kind::string) || value.string().size() != 1) return std::nullopt;
  const char c = value.string()[0];
  return allowed.find(c) == std::string_view::npos ? std::nullopt : std::optional(c);
}

bool is_digit_at(std::string_view text, std::size_t i) {
  return i < text.size() && std::isdigit(static_cast<unsigned char>(text[i])) != 0;
}

// The digits as FEEL writes them. Grouping may stand between two digits, in front of the decimal separator
// only; what does not belong is kept, so that no number can be read from it.
std::string without_grouping(std::string_view text, char grouping, char point) {
  std::string digits;
  bool whole_part = true;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    const bool between_digits = i > 0 && is_digit_at(text, i - 1) && is_digit_at(text, i + 1);
    if (c == point) {
      whole_part = false;
      digits += '.';
    } else if (grouping != '\0' && c == grouping && whole_part && between_digits) {
      continue;
    } else {
      digits += c == '.' ? '?' : c;
    }
  }
  return digits;
}

Value number(const BuiltinCall& call) {
  if (const auto fault = misfit(call, {Kind::string})) return *fault;
  char grouping = '\0';
  char point = '.';
  if (call.count() == 3) {
    const auto given_grouping = separator(call[1], " ,.");
    const auto given_point = separator(call[2], ",.");
    if (!given_grouping) return call.bad("a grouping separator is a space, a comma or a point");
    if (!given_point) return call.bad("a decimal separator is a comma or a point");
    grouping = *given_grouping;
    if (*given_point != '\0') point = *given_point;
    if (grouping == point) return call.bad("the two separators are the same");
  }
  const auto result = Decimal::parse(without_grouping(call[0].string(), grouping, point));
  if (!result) return call.bad("`" + std::string(call[0].string()) + "` is no number");
  return Value::number(*result, call.arena());
}

Value string(const BuiltinCall& call) {
  if (call[0].is_null() || call[0].is(Kind::string)) return call[0];
  if (!call[0].is(Kind::list) && !call[0].is(Kind::context)) return new_string(call, text_of(call[0]));
  // Open facts in it are read as what they are taken to be.
  State& state = call.state;
  return new_string(call,
                    text_of(copy(call[0], call.arena(), [&](const Value& v) { return state.settled(v); })));
}

Value negation(const BuiltinCall& call) {
  if (call[0].is_null()) return {};
  if (const auto fault = misfit(call, {Kind::boolean})) return *fault;
  return Value::of(!call[0].boolean());
}

// A value that is not given counts as null.
Value is_identical(const BuiltinCall& call) {
  if (call.count() == 0) return call.bad("needs two values");
  return Value::of(identical(call.state, call[0], call.count() > 1 ? call[1] : Value()));
}

}  // namespace

void add_conversion_builtins(std::vector<Builtin>& all) {
  using Result = Type::Kind;
  const std::vector<Builtin> own = {
      {"number",
       number,
       {{{"from"}, 1}, {{"from", "grouping separator", "decimal separator"}, 3}},
       Result::number},
      {"string", string, {{{"from"}, 1}}, Result::string},
      {"range", range_from_text, {{{"from"}, 1}}, Result::range},
      {"not", negation, {{{"negand"}, 1}}, Result::boolean},
      {"is", is_identical, {{{"value1", "value2"}, 0}}, Result::boolean},
  };
  all.insert(all.end(), own.begin(), own.end());
}

}  // namespace engine
