// DMN as XML: opened safely, and read without caring for prefixes.
// Source: DMN 1.5 chapter 14 (XML serialisation); the namespaces of DMN 1.1 to 1.6.

#pragma once

#include <memory>
#include <pugixml.hpp>
#include <string>
#include <string_view>
#include <vector>

#include "engine/result.h"

namespace engine {

/// A DMN file in memory. Keeps a copy of the text.
class DmnXml {
 public:
  /// Refuses DTDs, text larger than 64 MiB, nesting deeper than 200, and what is not DMN 1.1 to 1.6.
  static Result<std::unique_ptr<DmnXml>> open(std::string_view xml, std::string_view source);

  pugi::xml_node definitions() const { return root_; }
  /// Where the text of `node` starts, and in it the place that FEEL's parser named.
  Place place(pugi::xml_node node) const;
  Place place(pugi::xml_node node, const Place& within) const;
  const std::string& source() const { return source_; }

 private:
  std::string source_;
  std::string text_;
  pugi::xml_document document_;
  pugi::xml_node root_;
};

/// The element's name without its prefix.
std::string_view local_name(pugi::xml_node node);
/// The first child element called `name`, whatever its prefix; null node when there is none.
pugi::xml_node child(pugi::xml_node parent, std::string_view name);
std::vector<pugi::xml_node> children(pugi::xml_node parent, std::string_view name);
/// The text in the child `text`, without white space around it.
std::string text_in(pugi::xml_node parent);
std::string attribute(pugi::xml_node node, const char* name);

}  // namespace engine
