#include "engine/canonical.h"

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>
#include <utility>
#include <vector>

#include "canonical/canonical_parts.h"

namespace engine {

namespace {

using nlohmann::json;

void append_value(std::string& out, const json& value);

void append_object(std::string& out, const json& object) {
  // The map orders keys by bytes. That is the order of UTF-16 code units except beyond U+DFFF.
  std::vector<std::pair<std::string_view, const json*>> members;
  members.reserve(object.size());
  for (const auto& [key, value] : object.items()) members.emplace_back(key, &value);
  std::sort(members.begin(), members.end(),
            [](const auto& a, const auto& b) { return key_before(a.first, b.first); });
  char joint = '{';
  for (const auto& [key, value] : members) {
    out += joint;
    joint = ',';
    append_json_string(out, key);
    out += ':';
    append_value(out, *value);
  }
  out += members.empty() ? "{}" : "}";
}

void append_array(std::string& out, const json& array) {
  char joint = '[';
  for (const json& item : array) {
    out += joint;
    joint = ',';
    append_value(out, item);
  }
  out += array.empty() ? "[]" : "]";
}

void append_value(std::string& out, const json& value) {
  switch (value.type()) {
    case json::value_t::object:
      return append_object(out, value);
    case json::value_t::array:
      return append_array(out, value);
    case json::value_t::string:
      return append_json_string(out, value.get_ref<const std::string&>());
    case json::value_t::boolean:
      out += value.get<bool>() ? "true" : "false";
      return;
    case json::value_t::number_integer:
      return append_json_number(out, value.get<std::int64_t>());
    case json::value_t::number_unsigned:
      return append_json_number(out, value.get<std::uint64_t>());
    case json::value_t::number_float:
      // JSON has no infinities: ECMAScript's JSON.stringify gives null too.
      if (const double number = value.get<double>(); std::isfinite(number))
        return append_json_number(out, number);
      [[fallthrough]];
    default:
      out += "null";
  }
}

}  // namespace

std::string canonical_json(const json& value) {
  std::string out;
  append_value(out, value);
  return out;
}

}  // namespace engine
