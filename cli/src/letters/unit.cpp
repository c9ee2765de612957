#include "letters/unit.h"

#include <algorithm>
#include <nlohmann/json.hpp>
#include <string_view>

#include "system/files.h"

namespace cli {

using engine::Errors;
using engine::Result;
using nlohmann::json;

namespace {

constexpr const char* help = "docs/letters.md has an example of a unit file";

struct Text {
  const char* key;
  std::string UnitDetails::*member;
  bool needed;
};

constexpr Text texts[] = {{"name", &UnitDetails::name, true},
                          {"telephone", &UnitDetails::telephone, true},
                          {"hours", &UnitDetails::hours, false},
                          {"email", &UnitDetails::email, false},
                          {"urgent", &UnitDetails::urgent, false}};

class UnitReader {
 public:
  explicit UnitReader(const std::string& path) : path_(path) {}

  Result<UnitDetails> read(const std::string& bytes) {
    const json given = json::parse(bytes, nullptr, false);
    if (!given.is_object()) {
      fault("", "expected a JSON object with the unit's `name` and `telephone`");
      return errors_;
    }
    for (const Text& text : texts) read_text(given, text);
    read_address(given);
    read_blood_thinners(given);
    for (const auto& [key, value] : given.items()) check_known(key);
    if (!errors_.empty()) return errors_;
    return unit_;
  }

 private:
  void fault(const std::string& key, const std::string& message) {
    engine::Error error{"malformed_unit", message, {}, help};
    error.place.source = path_;
    error.place.path = key;
    errors_.push_back(std::move(error));
  }

  static bool says_something(const json& value) {
    return value.is_string() &&
           value.get_ref<const std::string&>().find_first_not_of(" \t\n") != std::string::npos;
  }

  void read_text(const json& given, const Text& text) {
    const auto found = given.find(text.key);
    if (found == given.end()) {
      if (text.needed) fault(text.key, std::string("a unit file needs the unit's `") + text.key + "`");
      return;
    }
    if (!says_something(*found)) return fault(text.key, "expected a text, read `" + found->dump() + "`");
    unit_.*text.member = found->get<std::string>();
  }

  void read_address(const json& given) {
    const auto found = given.find("address");
    if (found == given.end()) return;
    if (!found->is_array()) return fault("address", "expected a list of lines, read `" + found->dump() + "`");
    for (const json& line : *found) {
      if (!says_something(line))
        return fault("address", "expected a line of text, read `" + line.dump() + "`");
      unit_.address.push_back(line.get<std::string>());
    }
  }

  static bool is_blank(char c) { return c == ' ' || c == '\t' || c == '\n'; }

  /// A shorter word would stand in many others, and one with blanks around it in none.
  static bool is_a_name(const json& value) {
    constexpr std::size_t least = 4;
    if (!says_something(value)) return false;
    const std::string& name = value.get_ref<const std::string&>();
    return name.size() >= least && !is_blank(name.front()) && !is_blank(name.back());
  }

  void read_blood_thinners(const json& given) {
    const auto found = given.find("blood_thinners");
    if (found == given.end()) return;
    if (!found->is_array())
      return fault("blood_thinners", "expected a list of names of medicines, read `" + found->dump() + "`");
    for (std::size_t i = 0; i < found->size(); ++i) {
      const json& name = (*found)[i];
      if (is_a_name(name)) {
        unit_.blood_thinners.push_back(name.get<std::string>());
      } else {
        fault("blood_thinners[" + std::to_string(i) + "]",
              "expected the name of a medicine, at least 4 letters, without blanks around it, read `" +
                  name.dump() + "`");
      }
    }
  }

  void check_known(const std::string& key) {
    std::vector<std::string_view> known = {"address", "blood_thinners"};
    for (const Text& text : texts) known.emplace_back(text.key);
    if (std::find(known.begin(), known.end(), key) != known.end()) return;
    const std::string near = engine::nearest(key, known);
    fault(key, "a unit file has no `" + key + "`" + (near.empty() ? "" : "; did you mean `" + near + "`?"));
  }

  const std::string& path_;
  UnitDetails unit_;
  Errors errors_;
};

}  // namespace

Result<UnitDetails> read_unit(const std::string& path) {
  const auto bytes = read_file(path);
  if (!bytes) return bytes.errors();
  return UnitReader(path).read(*bytes);
}

}  // namespace cli
