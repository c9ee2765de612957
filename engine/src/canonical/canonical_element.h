// RFC 8785 straight from a parsed text, for the reader of records: no second tree is built.

#pragma once

#include <simdjson.h>

#include <string>

namespace engine {

/// Appends what canonical_json() would give for the same text. Keys of one object differ.
void append_canonical(std::string& out, simdjson::dom::element value);

}  // namespace engine
