// Where the tree and the built program lie. One file knows (places.cpp), so that the others compile to the
// same bytes wherever the tree is checked out.

#pragma once

#include <string>

namespace support {

/// A path inside the tree: `source("rulesets")`.
std::string source(const std::string& path = "");

/// The `dueward` that was built with the tests.
const char* program();

}  // namespace support
