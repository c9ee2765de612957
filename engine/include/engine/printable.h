// Text of unknown origin, made fit to be shown.

#pragma once

#include <string>
#include <string_view>

namespace engine {

/// Control characters, and bytes that are no UTF-8, each become U+FFFD; a tab becomes a space. The number of
/// code points stays the same, so that columns hold.
std::string printable(std::string_view text);

}  // namespace engine
