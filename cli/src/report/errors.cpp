#include "report/errors.h"

#include <nlohmann/json.hpp>

#include "engine/canonical.h"

namespace cli {

namespace {

nlohmann::json json_of(const engine::Error& error) {
  nlohmann::json object{{"code", error.code}, {"message", error.message}};
  if (!error.place.source.empty()) object["source"] = error.place.source;
  if (!error.place.path.empty()) object["path"] = error.place.path;
  if (error.place.line > 0) {
    object["line"] = error.place.line;
    object["column"] = error.place.column;
  }
  if (!error.help.empty()) object["help"] = error.help;
  return object;
}

// The bytes at which the code point with that index begins; the text's end when there are fewer.
std::size_t byte_of(std::string_view text, std::size_t code_point) {
  std::size_t byte = 0;
  for (std::size_t seen = 0; byte < text.size(); ++byte) {
    const bool begins = (static_cast<unsigned char>(text[byte]) & 0xC0) != 0x80;
    if (begins && seen++ == code_point) break;
  }
  return byte;
}

std::uint32_t code_points(std::string_view text) {
  std::uint32_t count = 0;
  for (const char byte : text) count += (static_cast<unsigned char>(byte) & 0xC0) != 0x80 ? 1U : 0U;
  return count;
}

}  // namespace

std::string text_of(const engine::Errors& errors) {
  std::string text;
  for (const engine::Error& error : errors) text += engine::text_of(error);
  return text;
}

std::string text_of(const engine::Error& error, engine::Severity severity) {
  std::string text = engine::text_of(error);
  if (severity == engine::Severity::error) return text;
  constexpr std::string_view label = "error: ";
  const std::size_t at = text.find(label);  // before it stands only the place
  if (at != std::string::npos) {
    text.replace(at, label.size(), severity == engine::Severity::warning ? "warning: " : "note: ");
  }
  return text;
}

std::string json_of(const engine::Errors& errors) {
  nlohmann::json list = nlohmann::json::array();
  for (const engine::Error& error : errors) list.push_back(json_of(error));
  return engine::canonical_json({{"errors", std::move(list)}}) + "\n";
}

engine::Error error_of(const engine::Diagnostic& diagnostic, std::string_view source) {
  engine::Error error{std::string(diagnostic.code), diagnostic.message, {}, {}};
  error.place.source = source;
  if (!diagnostic.element.empty()) error.place.source += " `" + diagnostic.element + "`";
  if (diagnostic.rule >= 0) error.place.source += " rule " + std::to_string(diagnostic.rule + 1);
  if (diagnostic.text.empty()) return error;

  const std::string_view text = diagnostic.text;
  const std::size_t at = byte_of(text, diagnostic.offset);
  const std::size_t line_break = text.substr(0, at).rfind('\n');
  const std::size_t begin = line_break == std::string_view::npos ? 0 : line_break + 1;
  error.place.excerpt = text.substr(begin, text.substr(begin).find('\n'));
  error.place.line = 1;
  for (const char byte : text.substr(0, at)) error.place.line += byte == '\n' ? 1U : 0U;
  error.place.column = code_points(text.substr(begin, at - begin)) + 1;
  error.place.length = diagnostic.length;
  return error;
}

}  // namespace cli
