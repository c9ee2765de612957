// Parse, dispatch, exit. Whatever goes wrong is shown here and nowhere else.

#include <CLI/CLI.hpp>
#include <algorithm>
#include <exception>
#include <iostream>
#include <string>
#include <string_view>
#include <vector>

#include "command.h"
#include "failure.h"
#include "report/errors.h"
#include "report/usage.h"
#include "ruleset_words.h"

namespace {

using cli::ExitCode;
using cli::Failure;

// Asked of the words themselves: the command line may be the very thing that is wrong.
bool wants_json(int count, char** words) {
  return std::any_of(words, words + count,
                     [](const char* word) { return std::string_view(word) == "--json"; });
}

void report(const engine::Errors& errors, bool as_json) {
  std::cerr << (as_json ? cli::json_of(errors) : cli::text_of(errors));
}

// As CLI11 takes them: without the program's name, the last word first.
std::vector<std::string> words_to_parse(int count, char** words) {
  std::vector<std::string> given = cli::with_each_ruleset_named({words + (count > 0 ? 1 : 0), words + count});
  std::reverse(given.begin(), given.end());
  return given;
}

ExitCode run(int count, char** words) {
  CLI::App program;
  cli::Run chosen;
  cli::describe_program(program);
  cli::add_commands(program, chosen);
  try {
    program.parse(words_to_parse(count, words));
  } catch (const CLI::Success& asked_for_help) {
    program.exit(asked_for_help);
    return ExitCode::done;
  } catch (const CLI::ParseError& error) {
    throw Failure{ExitCode::wrong_usage, {cli::usage_error(program, error)}};
  }
  const ExitCode code = chosen();
  std::cout.flush();
  if (!std::cout) {
    cli::fail(ExitCode::unreadable_input, {"unwritable_output", "standard output cannot be written", {}, {}});
  }
  return code;
}

}  // namespace

int main(int count, char** words) {
  std::ios::sync_with_stdio(false);
  const bool as_json = wants_json(count, words);
  try {
    return static_cast<int>(run(count, words));
  } catch (const Failure& failure) {
    std::cout.flush();
    report(failure.errors, as_json);
    return static_cast<int>(failure.code);
  } catch (const std::exception& fault) {
    std::cout.flush();
    report({{"fault",
             std::string("the program met a fault of its own: ") + fault.what(),
             {},
             "nothing was half-written; please report it with the command line"}},
           as_json);
    return static_cast<int>(ExitCode::ledger_fault);
  }
}
