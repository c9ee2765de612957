// How a command gives up: thrown by the command, reported and turned into the exit code by main() alone.

#pragma once

#include <string>
#include <utility>

#include "engine/result.h"
#include "exit_code.h"

namespace cli {

struct Failure {
  ExitCode code;
  engine::Errors errors;
};

[[noreturn]] inline void fail(ExitCode code, engine::Error error) {
  throw Failure{code, {std::move(error)}};
}

/// The value, or the end of the command with `code`.
template <class T>
T require(engine::Result<T> result, ExitCode code) {
  if (!result) throw Failure{code, result.errors()};
  return std::move(*result);
}

}  // namespace cli
