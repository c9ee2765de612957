// The tags in the text of a template (Mustache), with their places. Only what templates of letters may have:
// variables, sections, inverted sections, comments and partials.

#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "engine/result.h"

namespace cli {

/// A piece of a template: text as it stands, or a tag.
struct TemplatePiece {
  char sigil = 0;  ///< 0: text; `v`: variable; `#`, `^`, `/`, `>`, `!`; `{`, `&`, `=`, which are not allowed.
  std::string text;  ///< The text, or the name in the tag.
  engine::Place place;
  bool is_alone = false;  ///< A tag that is no variable, alone on its line: the line is gone with it.
};

/// Cuts `text` into pieces. A tag that is not closed becomes an error in `errors` and ends the reading. A
/// comment or partial that stands alone on its line takes the line with it.
std::vector<TemplatePiece> scan_template(std::string_view text, const std::string& source,
                                         engine::Errors& errors);

}  // namespace cli
