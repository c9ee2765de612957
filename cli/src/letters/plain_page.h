// A letter as text: lines that fit the paper, and no gaps where something was left out.

#pragma once

#include <cstddef>
#include <string>

namespace cli {

/// Lines of a letter as text are at most so wide.
inline constexpr std::size_t letter_width = 78;

/// Each line broken between words, and within a word that is wider than the page; lines of a list hang below
/// its first word. At most one empty line between two others.
std::string laid_out(const std::string& text);

}  // namespace cli
