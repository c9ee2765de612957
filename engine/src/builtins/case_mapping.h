// Capital and small letters of every script, without a locale. Source: Unicode, full case mappings.

#pragma once

#include <string>
#include <string_view>

namespace engine {

/// `ß` becomes `SS`. Letters are mapped one by one: a Greek sigma at the end of a word becomes `σ`, not `ς`.
std::string upper_case(std::string_view text);
std::string lower_case(std::string_view text);

}  // namespace engine
