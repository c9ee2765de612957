// A page as a list of parts, before it is written in one of the formats.

#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "engine/ruleset.h"

namespace cli {

struct PagePart {
  enum class Kind : std::uint8_t { heading, subheading, paragraph, table, code };
  Kind kind{};
  std::string text;  ///< Of all but tables.
  std::vector<std::string> headings;
  std::vector<std::vector<std::string>> rows;
};

/// Title first; the same parts for every format.
std::vector<PagePart> page_parts(const engine::Ruleset& ruleset);

}  // namespace cli
