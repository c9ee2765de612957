// The text of a record, parsed: simdjson for speed, and for a broken text a second look that says where it
// breaks.

#pragma once

#include <simdjson.h>

#include <string_view>

#include "engine/result.h"

namespace engine {

/// Parses `text`. Strict JSON in UTF-8; a byte order mark in front is passed over.
///
/// Fails with `empty_text`, `text_too_large` or `not_json`, the last with line, column and excerpt. The
/// element lives in `parser`, until its next use.
Result<simdjson::dom::element> parse_json(std::string_view text, std::string_view source,
                                          simdjson::dom::parser& parser);

/// A parser that is kept for this thread: making one anew for each of a million records costs more than
/// parsing.
simdjson::dom::parser& parser_of_this_thread();

/// Why `text`, which is not JSON, is not.
Error broken_json(std::string_view text, std::string_view source);

}  // namespace engine
