// The command line's own help and errors.

#pragma once

#include "engine/result.h"

namespace CLI {
class App;
class ParseError;
}  // namespace CLI

namespace cli {

/// Name, purpose, version and closing words of the help.
void describe_program(CLI::App& program);

/// A fault of the command line in our form, with the nearest word or the help to ask for.
engine::Error usage_error(const CLI::App& program, const CLI::ParseError& error);

}  // namespace cli
