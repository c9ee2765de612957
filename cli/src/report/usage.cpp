#include "report/usage.h"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <cctype>
#include <string>
#include <string_view>
#include <vector>

#include "report/caution.h"

namespace cli {

namespace {

// The subcommand that was reached, so that help points to its own page.
const CLI::App& innermost(const CLI::App& program) {
  const CLI::App* reached = &program;
  for (auto chosen = reached->get_subcommands(); !chosen.empty(); chosen = reached->get_subcommands()) {
    reached = chosen.back();
  }
  return *reached;
}

std::string full_name(const CLI::App& command) {
  const CLI::App* parent = command.get_parent();
  return parent == nullptr ? "dueward" : full_name(*parent) + " " + command.get_name();
}

std::vector<std::string> words_of(const CLI::App& command) {
  std::vector<std::string> words;
  for (const CLI::App* child : command.get_subcommands([](const CLI::App*) { return true; })) {
    words.push_back(child->get_name());
  }
  for (const CLI::Option* option : command.get_options()) words.push_back(option->get_name());
  return words;
}

std::string nearest_word(const CLI::App& command, const std::string& word) {
  const std::vector<std::string> words = words_of(command);
  return engine::nearest(word, {words.begin(), words.end()});
}

std::string lower_first(std::string text) {
  if (text.size() > 1 && std::isupper(static_cast<unsigned char>(text[0])) &&
      !std::isupper(static_cast<unsigned char>(text[1]))) {
    text[0] = static_cast<char>(std::tolower(static_cast<unsigned char>(text[0])));
  }
  while (text.ends_with('.') || text.ends_with('\n')) text.pop_back();
  return text;
}

}  // namespace

void describe_program(CLI::App& program) {
  program.name("dueward");
  program.description(
      "After a colonoscopy: the right next step for every patient, on time, and no one lost.\n"
      "`dueward demo` shows it at work with invented patients.");
  program.footer(std::string("Exit codes: 0 done; 1 done, and something needs a person; 2 wrong usage;\n"
                             "3 input cannot be read; 4 ledger fault.\n\n") +
                 std::string(caution));
  program.set_version_flag("--version", "dueward " DUEWARD_VERSION);
  program.require_subcommand(1);
  program.get_formatter()->column_width(34);
}

engine::Error usage_error(const CLI::App& program, const CLI::ParseError& error) {
  const CLI::App& command = innermost(program);
  const std::string see_help = "run `" + full_name(command) + " --help`";
  const std::vector<std::string> extras = command.remaining();
  if (!extras.empty()) {
    const std::string near = nearest_word(command, extras.front());
    return {"unexpected_word",
            "`" + full_name(command) + "` does not know `" + extras.front() + "`",
            {},
            near.empty() ? see_help : "did you mean `" + near + "`?"};
  }
  if (&command == &program && command.get_subcommands().empty()) {
    return {"no_command", "what shall be done is not said", {}, see_help + " for the list of commands"};
  }
  return {"wrong_usage", "`" + full_name(command) + "`: " + lower_first(error.what()), {}, see_help};
}

}  // namespace cli
