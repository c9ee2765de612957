// The documents that an entry names: bytes that are kept under their digest.

#pragma once

#include <string>
#include <vector>

#include <nlohmann/json.hpp>

namespace ledger {

/// The input, ruleset or letter that an entry with this body is about, then the files that a ruleset imports.
/// Throws nlohmann::json::exception when the body does not name them as text.
std::vector<std::string> documents_named_in(const nlohmann::json& body);

}  // namespace ledger
