// RFC 8785 straight from a parsed text, for the reader of records: no second tree is built.

#pragma once

#include <simdjson.h>

#include <span>
#include <string>
#include <string_view>
#include <utility>

namespace engine {

/// Appends what canonical_json() would give for the same text. Keys of one object differ.
void append_canonical(std::string& out, simdjson::dom::element value);

/// The same for an object of these members.
void append_canonical(std::string& out,
                      std::span<const std::pair<std::string_view, simdjson::dom::element>> members);

}  // namespace engine
