// One part of the setting, from `key=value` as a person types it on a command line.

#include <nlohmann/json.hpp>
#include <string>
#include <string_view>

#include "engine/canonical.h"
#include "engine/record.h"
#include "record/faults.h"
#include "record/field_reader.h"
#include "record/fields.h"
#include "record/json_text.h"

namespace engine {

namespace {

using nlohmann::json;

constexpr std::string_view source = "--setting";

/// `50`, `true` or text: what the person means is what it looks like.
json value_of(std::string_view text) {
  if (text == "true" || text == "false") return text == "true";
  const bool is_number = !text.empty() && text.find_first_not_of("0123456789.-") == std::string_view::npos;
  const json number = is_number ? json::parse(text, nullptr, false) : json();
  return number.is_number() ? number : json(std::string(text));
}

Error not_an_assignment(std::string_view text) {
  Error error{"not_an_assignment", quoted(text) + " was read, expected `key=value`", {}, {}};
  error.place.source = source;
  error.help = "a setting has " + alternatives(keys_of<Setting>, "and") + ", such as `nation=Scotland`";
  return error;
}

// `setting` is the last key of a canonical record, and no other key of a record is called so. Text cannot
// look like it either: quotation marks inside a string are escaped.
void put_into_canonical(std::string& canonical, const std::string& key, const json& value) {
  constexpr std::string_view setting_key = "\"setting\":";
  const std::size_t at = canonical.rfind(setting_key);
  json setting = json::object();
  if (at == std::string::npos) {
    canonical.pop_back();
    if (canonical.size() > 1) canonical += ',';
  } else {
    const std::string_view old = std::string_view(canonical).substr(at + setting_key.size());
    setting = json::parse(old.substr(0, old.size() - 1));
    canonical.resize(at);
  }
  setting[key] = value;
  canonical.append(setting_key).append(canonical_json(setting)).append("}");
}

}  // namespace

Result<Done> apply_setting(Record& record, std::string_view assignment) {
  const std::size_t equals = assignment.find('=');
  if (equals == std::string_view::npos || equals == 0) return not_an_assignment(assignment);
  const std::string key(assignment.substr(0, equals));
  const json value = value_of(assignment.substr(equals + 1));
  // Read by the reader of records, so that it is as strict; on a copy, so that a refused value changes
  // nothing.
  const auto given = parse_json("{" + json(key).dump(-1, ' ', false, json::error_handler_t::replace) + ":" +
                                    value.dump(-1, ' ', false, json::error_handler_t::replace) + "}",
                                source, parser_of_this_thread());
  if (!given) return given.errors();
  Faults faults(source);
  Setting setting = record.setting;
  FieldReader(faults).object<Setting>(*given, Path().member("setting"), setting);
  if (!faults.empty()) return faults.take();
  record.setting = std::move(setting);
  put_into_canonical(record.canonical, key, value);
  record.digest = digest_text(record.canonical);
  return Done{};
}

}  // namespace engine
