// Errors and diagnostics for people (text) and for programs (JSON).

#pragma once

#include <string>
#include <string_view>

#include "engine/diagnostic.h"
#include "engine/result.h"

namespace cli {

/// All errors as engine::text_of shows them, one below the other.
std::string text_of(const engine::Errors& errors);

/// `{"errors":[{"code":..,"message":..,"source":..,"path":..,"line":..,"column":..,"help":..}]}`, one line
/// with its line feed. Keys without a value are left out.
std::string json_of(const engine::Errors& errors);

/// The same for what is a warning or a note only: it says so instead of `error`.
std::string text_of(const engine::Error& error, engine::Severity severity);

/// What an evaluation noted, placed in the expression's own text.
engine::Error error_of(const engine::Diagnostic& diagnostic, std::string_view source);

}  // namespace cli
