// A ruleset as a page that a person reads: what it is, its rows with their sources, its definitions, its
// tables.

#pragma once

#include <string>

#include "engine/ruleset.h"

namespace cli {

/// For a terminal, at most 100 characters wide.
std::string text_page(const engine::Ruleset& ruleset);

/// For docs/rulesets/ID.md, which is this byte for byte.
std::string markdown_page(const engine::Ruleset& ruleset);

/// One HTML file that needs no other.
std::string html_page(const engine::Ruleset& ruleset);

}  // namespace cli
