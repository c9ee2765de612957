// The one byte form of JSON that is hashed and compared: RFC 8785 (JSON Canonicalization Scheme), and SHA-256.

#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <string>
#include <string_view>

#include <nlohmann/json_fwd.hpp>

namespace engine {

using Digest = std::array<std::uint8_t, 32>;

/// SHA-256 (FIPS 180-4).
Digest sha256(std::string_view bytes);

/// 64 lower-case hexadecimal digits.
std::string hexadecimal(const Digest& digest);

/// `sha256:` and the hexadecimal digest: how digests stand in records, rulesets and advice.
std::string digest_text(std::string_view bytes);

/// RFC 8785: keys sorted by UTF-16 code units, no white space, shortest escapes, numbers as ECMAScript prints them.
std::string canonical_json(const nlohmann::json& value);

/// Appends `text` as a JSON string, quotes included, escaped as RFC 8785 asks.
void append_json_string(std::string& out, std::string_view text);

}  // namespace engine
