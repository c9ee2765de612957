#include "conformance/kit_case.h"

#include <fstream>
#include <pugixml.hpp>
#include <sstream>

namespace kit {

namespace {

using engine::Arena;
using engine::Decimal;
using engine::Kind;
using engine::Value;

std::string_view local(pugi::xml_node node) {
  const std::string_view name = node.name();
  const std::size_t colon = name.find(':');
  return colon == std::string_view::npos ? name : name.substr(colon + 1);
}

pugi::xml_node child(pugi::xml_node parent, std::string_view name) {
  for (pugi::xml_node c : parent.children()) {
    if (local(c) == name) return c;
  }
  return {};
}

std::string attribute(pugi::xml_node node, std::string_view name) {
  for (pugi::xml_attribute a : node.attributes()) {
    const std::string_view full = a.name();
    const std::size_t colon = full.find(':');
    if ((colon == std::string_view::npos ? full : full.substr(colon + 1)) == name) return a.value();
  }
  return {};
}

Value simple(pugi::xml_node node, Arena& arena) {
  if (attribute(node, "nil") == "true") return {};
  const std::string text = node.text().get();
  std::string type = attribute(node, "type");
  type = type.substr(type.find(':') == std::string::npos ? 0 : type.find(':') + 1);
  if (type == "decimal" || type == "double" || type == "integer") {
    const auto number = Decimal::parse(text);
    return number ? Value::number(*number, arena) : Value::string("not a number: " + text, arena);
  }
  if (type == "boolean") return Value::of(text == "true");
  if (type == "date") {
    if (const auto date = engine::parse_date(text)) return Value::of(*date);
  }
  if (type == "time") {
    if (const auto time = engine::parse_time(text)) return Value::of(*time, arena);
  }
  if (type == "dateTime") {
    if (const auto date_time = engine::parse_date_time(text)) return Value::of(*date_time, arena);
  }
  if (type == "duration") {
    if (const auto duration = engine::parse_duration(text)) {
      return std::visit([](const auto& d) { return Value::of(d); }, *duration);
    }
  }
  return Value::string(text, arena);
}

// A node holds `value`, `list` or `component`s.
Value value_of(pugi::xml_node node, Arena& arena) {
  std::vector<std::string_view> keys;
  std::vector<Value> values;
  for (pugi::xml_node c : node.children()) {
    if (local(c) == "value") return simple(c, arena);
    if (local(c) == "list") {
      if (attribute(c, "nil") == "true") return {};
      for (pugi::xml_node item : c.children()) {
        if (item.type() == pugi::node_element) values.push_back(value_of(item, arena));
      }
      const auto kept = arena.keep(std::span<const Value>(values));
      return Value::list(kept);
    }
    if (local(c) == "component") {
      keys.push_back(arena.keep(attribute(c, "name")));
      values.push_back(value_of(c, arena));
    }
  }
  if (keys.empty()) return {};
  return engine::make_context(arena.keep(std::span<const std::string_view>(keys)),
                              arena.keep(std::span<const Value>(values)), arena);
}

std::size_t significant_digits(const std::string& text) {
  std::size_t digits = 0;
  for (const char c : text) digits += (c >= '1' && c <= '9') || (c == '0' && digits > 0);
  return digits;
}

// Exact, unless the result itself runs on: 1/3 or a logarithm agree within one unit of the last digit that the kit
// prints, and within 1e-12 where it prints 15 digits or more: those were made in binary arithmetic, whose powers
// are off by about 1e-13 (the kit's own runners allow 1e-8).
bool numbers_agree(const Decimal& expected, const Decimal& actual) {
  if (expected == actual) return true;
  const std::string printed = expected.text();
  const std::size_t point = printed.find('.');
  if (significant_digits(actual.text()) <= 15 || point == std::string::npos) return false;
  const auto places = static_cast<int>(printed.size() - point - 1);
  const auto difference = subtract(expected, actual);
  const bool binary = significant_digits(printed) >= 15;
  const auto slack = binary ? multiply(expected.magnitude(), Decimal::of(1, -12)) : Decimal::of(1, -places);
  return difference && slack && difference->magnitude() <= *slack;
}

}  // namespace

std::string read_text(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

TestFile read_test_file(const std::filesystem::path& path, Arena& arena) {
  TestFile result;
  const std::string text = read_text(path);
  pugi::xml_document document;
  document.load_buffer(text.data(), text.size(), pugi::parse_default | pugi::parse_ws_pcdata);
  const pugi::xml_node root = document.document_element();
  result.model = path.parent_path() / child(root, "modelName").text().get();
  for (pugi::xml_node node : root.children()) {
    if (local(node) != "testCase") continue;
    Case& c = result.cases.emplace_back();
    c.id = attribute(node, "id");
    c.kind = attribute(node, "type").empty() ? "decision" : attribute(node, "type");
    c.invocable = attribute(node, "invocableName");
    for (pugi::xml_node part : node.children()) {
      if (local(part) == "inputNode") {
        c.inputs.push_back({attribute(part, "name"), attribute(part, "namespace"), value_of(part, arena)});
      } else if (local(part) == "resultNode") {
        const pugi::xml_node expected = child(part, "expected");
        c.expected.push_back({attribute(part, "name"), expected ? value_of(expected, arena) : Value(),
                              attribute(part, "errorResult") == "true"});
      }
    }
  }
  return result;
}

bool agrees(const Value& expected, const Value& actual) {
  if (expected.kind() != actual.kind()) return false;
  switch (expected.kind()) {
    case Kind::null: return true;
    case Kind::boolean: return expected.boolean() == actual.boolean();
    case Kind::number: return numbers_agree(expected.number(), actual.number());
    case Kind::string: return expected.string() == actual.string();
    case Kind::date: return expected.date() == actual.date();
    case Kind::time: return same_fields(expected.time(), actual.time());
    case Kind::date_time: return same_fields(expected.date_time(), actual.date_time());
    case Kind::years_and_months: return expected.months() == actual.months();
    case Kind::days_and_time: return expected.duration() == actual.duration();
    case Kind::list: {
      if (expected.list().size() != actual.list().size()) return false;
      for (std::size_t i = 0; i < expected.list().size(); ++i) {
        if (!agrees(expected.list()[i], actual.list()[i])) return false;
      }
      return true;
    }
    case Kind::context: {
      const engine::Context& e = expected.context();
      const engine::Context& a = actual.context();
      if (e.size != a.size) return false;
      for (std::uint32_t i = 0; i < e.size; ++i) {
        const std::uint32_t at = a.position(e.keys[i]);
        if (at == a.size || !agrees(e.values[i], a.values[at])) return false;
      }
      return true;
    }
    default: return false;
  }
}

}  // namespace kit
