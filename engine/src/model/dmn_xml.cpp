#include "model/dmn_xml.h"

#include <algorithm>
#include <array>

#include "syntax/unicode.h"

namespace engine {

namespace {

constexpr std::size_t largest_file = 64u << 20;
constexpr int deepest_nesting = 200;

constexpr std::array<std::string_view, 6> model_namespaces = {
    "http://www.omg.org/spec/DMN/20151101/dmn.xsd",     "http://www.omg.org/spec/DMN/20180521/MODEL/",
    "https://www.omg.org/spec/DMN/20191111/MODEL/",     "https://www.omg.org/spec/DMN/20211108/MODEL/",
    "https://www.omg.org/spec/DMN/20230324/MODEL/",     "https://www.omg.org/spec/DMN/20240513/MODEL/"};

// pugixml reads iteratively, but walking a document recurses: count before parsing. Comments, CDATA and quoted
// attribute values may hold `<`; counting those too only makes the limit stricter for hostile files.
bool nested_too_deep(std::string_view xml) {
  int depth = 0;
  for (std::size_t at = xml.find('<'); at != std::string_view::npos; at = xml.find('<', at + 1)) {
    const char next = at + 1 < xml.size() ? xml[at + 1] : '\0';
    if (next == '!' || next == '?') continue;
    const std::size_t end = xml.find('>', at);
    if (end == std::string_view::npos) return false;
    if (next == '/') {
      --depth;
    } else if (xml[end - 1] != '/') {
      if (++depth > deepest_nesting) return true;
    }
  }
  return false;
}

std::uint32_t line_at(std::string_view text, std::size_t offset) {
  return 1 + static_cast<std::uint32_t>(
                 std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(std::min(offset, text.size())), '\n'));
}

std::string namespace_of(pugi::xml_node node) {
  const std::string_view name = node.name();
  const std::size_t colon = name.find(':');
  const std::string key = colon == std::string_view::npos ? "xmlns" : "xmlns:" + std::string(name.substr(0, colon));
  return node.attribute(key.c_str()).value();
}

std::string_view line_text(std::string_view text, std::uint32_t line) {
  std::size_t start = 0;
  for (std::uint32_t i = 1; i < line; ++i) {
    start = text.find('\n', start);
    if (start == std::string_view::npos) return {};
    ++start;
  }
  std::size_t end = text.find('\n', start);
  if (end == std::string_view::npos) end = text.size();
  return text.substr(start, end - start);
}

}  // namespace

Result<std::unique_ptr<DmnXml>> DmnXml::open(std::string_view xml, std::string_view source) {
  const auto refuse = [&](std::string code, std::string message, std::string help = {}) {
    Place place;
    place.source = std::string(source);
    return Error{std::move(code), std::move(message), std::move(place), std::move(help)};
  };
  if (xml.size() > largest_file) return refuse("too_large", "the file is larger than 64 MiB");
  if (xml.find("<!DOCTYPE") != std::string_view::npos || xml.find("<!ENTITY") != std::string_view::npos) {
    return refuse("dtd", "the file has a document type declaration", "DMN needs none: remove it");
  }
  if (nested_too_deep(xml)) return refuse("too_deep", "elements are nested more than 200 deep");
  auto file = std::make_unique<DmnXml>();
  file->source_ = std::string(source);
  file->text_ = std::string(xml);
  const pugi::xml_parse_result parsed = file->document_.load_buffer(
      file->text_.data(), file->text_.size(), pugi::parse_default | pugi::parse_ws_pcdata_single, pugi::encoding_utf8);
  if (!parsed) {
    Error error = refuse("broken_xml", "the XML is broken: " + std::string(parsed.description()));
    error.place.line = line_at(xml, static_cast<std::size_t>(std::max<std::ptrdiff_t>(parsed.offset, 0)));
    error.place.column = 1;
    error.place.excerpt = std::string(line_text(xml, error.place.line));
    return error;
  }
  file->root_ = file->document_.document_element();
  const std::string space = namespace_of(file->root_);
  if (local_name(file->root_) != "definitions" ||
      std::find(model_namespaces.begin(), model_namespaces.end(), space) == model_namespaces.end()) {
    return refuse("not_dmn", "this is no DMN file: the root element is `" + std::string(file->root_.name()) +
                                 "` in the namespace `" + space + "`",
                  "expected `definitions` in a model namespace of DMN 1.1 to 1.6");
  }
  return file;
}

Place DmnXml::place(pugi::xml_node node) const {
  Place place;
  place.source = source_;
  const std::ptrdiff_t offset = node.offset_debug();
  if (offset < 0) return place;
  place.line = line_at(text_, static_cast<std::size_t>(offset));
  place.excerpt = std::string(line_text(text_, place.line));
  const std::string_view text(text_);
  const std::size_t line_start = text.rfind('\n', static_cast<std::size_t>(offset));
  const std::size_t from = line_start == std::string_view::npos ? 0 : line_start + 1;
  place.column = 1 + columns(text.substr(from, static_cast<std::size_t>(offset) - from));
  place.length = columns(node.name());
  return place;
}

Place DmnXml::place(pugi::xml_node node, const Place& within) const {
  Place place = this->place(node);
  if (place.line == 0) return place;
  // The expression may begin on a later line than its element does.
  const std::string_view wanted = within.excerpt;
  for (std::uint32_t line = place.line; line < place.line + within.line + 2; ++line) {
    const std::string_view raw = line_text(text_, line);
    const std::size_t at = wanted.empty() ? std::string_view::npos : raw.find(wanted);
    if (at == std::string_view::npos) continue;
    place.line = line;
    place.excerpt = std::string(raw);
    place.column = columns(raw.substr(0, at)) + within.column;
    place.length = within.length;
    return place;
  }
  // Written with entities (`&lt;`): show the expression as it is read.
  place.excerpt = within.excerpt;
  place.column = within.column;
  place.length = within.length;
  return place;
}

std::string_view local_name(pugi::xml_node node) {
  const std::string_view name = node.name();
  const std::size_t colon = name.find(':');
  return colon == std::string_view::npos ? name : name.substr(colon + 1);
}

pugi::xml_node child(pugi::xml_node parent, std::string_view name) {
  for (pugi::xml_node c = parent.first_child(); c; c = c.next_sibling()) {
    if (c.type() == pugi::node_element && local_name(c) == name) return c;
  }
  return {};
}

std::vector<pugi::xml_node> children(pugi::xml_node parent, std::string_view name) {
  std::vector<pugi::xml_node> all;
  for (pugi::xml_node c = parent.first_child(); c; c = c.next_sibling()) {
    if (c.type() == pugi::node_element && local_name(c) == name) all.push_back(c);
  }
  return all;
}

std::string text_in(pugi::xml_node parent) {
  std::string text;
  for (pugi::xml_node part = child(parent, "text").first_child(); part; part = part.next_sibling()) text += part.value();
  const std::size_t first = text.find_first_not_of(" \t\r\n");
  if (first == std::string::npos) return {};
  return text.substr(first, text.find_last_not_of(" \t\r\n") - first + 1);
}

std::string attribute(pugi::xml_node node, const char* name) { return node.attribute(name).value(); }

}  // namespace engine
