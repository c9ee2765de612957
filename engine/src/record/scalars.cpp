#include "record/scalars.h"

#include <cmath>
#include <utility>
#include <vector>

#include "canonical/canonical_parts.h"

namespace engine {

namespace {

using simdjson::dom::element;
using simdjson::dom::element_type;

constexpr Date earliest{1900, 1, 1};
constexpr Date latest{2200, 12, 31};

/// What was read, as a message shows it.
std::string shown(element value) {
  std::string number;
  switch (value.type()) {
    case element_type::OBJECT:
      return "an object";
    case element_type::ARRAY:
      return "a list";
    case element_type::STRING:
      return "the text " + quoted(value.get_string().value_unsafe());
    case element_type::BOOL:
      return value.get_bool().value_unsafe() ? "`true`" : "`false`";
    case element_type::NULL_VALUE:
      return "`null`";
    case element_type::INT64:
      append_json_number(number, value.get_int64().value_unsafe());
      break;
    case element_type::UINT64:
      append_json_number(number, value.get_uint64().value_unsafe());
      break;
    case element_type::DOUBLE:
      append_json_number(number, value.get_double().value_unsafe());
      break;
  }
  return "`" + number + "`";
}

std::string millimetres(Millimetres length) {
  std::string out;
  append_json_number(out, length.tenths / 10.0);
  return out;
}

std::string expected_whole(Whole rule) {
  return "a whole number from " + std::to_string(rule.least) + " to " + std::to_string(rule.most);
}

std::string expected_length(Length rule) {
  return "millimetres, more than 0 and at most " + millimetres(rule.most);
}

const std::string& expected_date() {
  static const std::string text =
      "a date from " + text_of(earliest) + " to " + text_of(latest) + ", as year-month-day";
  return text;
}

// In numbers that a person typed as text, the quotation marks are the fault.
std::string help_without_quotes(element value) {
  std::string_view text;
  if (value.get_string().get(text) != simdjson::SUCCESS || text.empty()) return {};
  if (text.find_first_not_of("0123456789.") != std::string_view::npos) return {};
  if (text.find('.') != text.rfind('.')) return {};
  return "write " + quoted(text) + " without quotation marks";
}

bool is_blank(std::string_view text) {
  return text.find_first_not_of(" \t\r\n") == std::string_view::npos;
}

std::vector<std::string_view> as_vector(std::span<const std::string_view> terms) {
  return {terms.begin(), terms.end()};
}

std::string did_you_mean(std::string_view word, std::span<const std::string_view> terms) {
  const std::string near = nearest(word, as_vector(terms));
  return near.empty() ? std::string() : "did you mean `" + near + "`?";
}

/// `2009`, `2009-05` or `2009-05-17`, and a month or day that exists.
bool is_partial_date(std::string_view text) {
  constexpr std::string_view completion = "-01-01";
  if (text.size() != 4 && text.size() != 7 && text.size() != 10) return false;
  std::string whole(text);
  if (text.size() < 10) whole += completion.substr(text.size() - 4);
  const auto date = parse_date(whole);
  return date && *date >= earliest && *date <= latest;
}

}  // namespace

bool Scalars::fault(std::string_view code, const Path& path, std::string message, std::string help) {
  faults_.add(code, path, std::move(message), std::move(help));
  return false;
}

bool Scalars::wrong_type(element value, const Path& path, std::string_view expected) {
  return fault("wrong_type", path, shown(value) + " was read, expected " + std::string(expected),
               help_without_quotes(value));
}

void Scalars::unknown_key(std::string_view key, const Path& path, std::string_view object,
                          std::span<const std::string_view> keys, std::string_view note) {
  std::string help = did_you_mean(key, keys);
  if (!help.empty()) help += ' ';
  help.append(object).append(" has ").append(alternatives(keys, "and"));
  if (!note.empty()) help.append("; ").append(note);
  fault("unknown_key", path, std::string(object) + " has no " + quoted(key), std::move(help));
}

bool Scalars::read(element value, const Path& path, bool& into, ByType) {
  return value.get_bool().get(into) == simdjson::SUCCESS || wrong_type(value, path, "`true` or `false`");
}

bool Scalars::read(element value, const Path& path, Date& into, ByType) {
  std::string_view text;
  if (value.get_string().get(text) != simdjson::SUCCESS) return wrong_type(value, path, expected_date());
  const auto date = text.size() == 10 ? parse_date(text) : std::nullopt;
  if (!date) {
    return fault("impossible_date", path,
                 quoted(text) + " is no date that exists, expected " + expected_date());
  }
  if (*date < earliest || *date > latest) {
    return fault("out_of_bounds", path, quoted(text) + " is out of bounds, expected " + expected_date());
  }
  into = *date;
  return true;
}

bool Scalars::read(element value, const Path& path, std::int32_t& into, Whole rule) {
  double number = 0;
  if (value.get_double().get(number) != simdjson::SUCCESS)
    return wrong_type(value, path, expected_whole(rule));
  if (number != std::floor(number) || number < rule.least || number > rule.most) {
    return fault("out_of_bounds", path, shown(value) + " is out of bounds, expected " + expected_whole(rule));
  }
  into = static_cast<std::int32_t>(number);
  return true;
}

bool Scalars::read(element value, const Path& path, Millimetres& into, Length rule) {
  double number = 0;
  if (value.get_double().get(number) != simdjson::SUCCESS)
    return wrong_type(value, path, expected_length(rule));
  if (!(number > 0) || number * 10 > rule.most.tenths) {
    return fault("out_of_bounds", path,
                 shown(value) + " is out of bounds, expected " + expected_length(rule));
  }
  const double tenths = std::round(number * 10);
  // A decimal with one place and the quotient here are rounded to the same double.
  if (tenths / 10 != number) {
    return fault("too_precise", path,
                 shown(value) + " has more than one decimal, expected tenths of a millimetre");
  }
  into.tenths = static_cast<std::int32_t>(tenths);
  return true;
}

std::optional<std::string_view> Scalars::words(element value, const Path& path, std::string_view expected) {
  std::string_view text;
  if (value.get_string().get(text) != simdjson::SUCCESS) {
    wrong_type(value, path, expected);
    return std::nullopt;
  }
  if (is_blank(text)) {
    fault("blank_text", path, "the text is blank, expected " + std::string(expected),
          "leave the key out when it is not known");
    return std::nullopt;
  }
  return text;
}

bool Scalars::read(element value, const Path& path, std::string& into, Words) {
  const auto text = words(value, path, "text");
  if (text) into = *text;
  return text.has_value();
}

bool Scalars::read(element value, const Path& path, std::string& into, OneOf rule) {
  const auto position = term(value, path, rule.terms);
  if (position) into = rule.terms[*position];
  return position.has_value();
}

bool Scalars::read(element value, const Path& path, std::string& into, NearNone rule) {
  const auto text = words(value, path, "a name");
  if (!text) return false;
  if (!position_of(*text, rule.terms) && !nearest(*text, as_vector(rule.terms)).empty()) {
    return not_a_term(*text, path, rule.terms);
  }
  into = *text;
  return true;
}

bool Scalars::read(element value, const Path& path, std::string& into, PartialDate) {
  constexpr std::string_view expected = "a year such as `2009`, a month such as `2009-05`, or a full date";
  const auto text = words(value, path, expected);
  if (!text) return false;
  if (!is_partial_date(*text)) {
    return fault("impossible_date", path,
                 quoted(*text) + " is no date that exists, expected " + std::string(expected));
  }
  into = *text;
  return true;
}

std::optional<std::size_t> Scalars::term(element value, const Path& path,
                                         std::span<const std::string_view> terms) {
  std::string_view text;
  if (value.get_string().get(text) != simdjson::SUCCESS) {
    wrong_type(value, path, alternatives(terms));
    return std::nullopt;
  }
  const auto position = position_of(text, terms);
  if (!position) not_a_term(text, path, terms);
  return position;
}

bool Scalars::not_a_term(std::string_view read, const Path& path, std::span<const std::string_view> terms) {
  return fault("unknown_term", path, quoted(read) + " is no term for this, expected " + alternatives(terms),
               did_you_mean(read, terms));
}

void Scalars::no_options(const Path& path) {
  fault("no_options", path, "an empty list was read, expected the terms that it may be",
        "leave the key out when it is not known");
}

void Scalars::repeated_option(element option, const Path& path) {
  fault("repeated_option", path, shown(option) + " stands twice in the list of what it may be");
}

void Scalars::check_ends(bool has_from, bool has_to, const Path& path) {
  const auto missing = [&](std::string_view key) {
    fault("missing_key", path.member(key), "a value within bounds needs `" + std::string(key) + "`",
          R"(give both ends, such as {"from":8,"to":12})");
  };
  if (!has_from) missing("from");
  if (!has_to) missing("to");
}

void Scalars::ends_reversed(element bounds, const Path& path) {
  const element from = bounds.at_key("from").value_unsafe();
  const element to = bounds.at_key("to").value_unsafe();
  fault("contradiction", path, "`from` " + shown(from) + " is more than `to` " + shown(to));
}

}  // namespace engine
