// dueward rulesets show: one ruleset as a page.

#include <CLI/CLI.hpp>
#include <iostream>
#include <memory>

#include "report/caution.h"
#include "rulesets/commands.h"
#include "rulesets/page.h"
#include "rulesets_folder.h"

namespace cli {

namespace {

struct ShowOptions : RulesetsOptions {
  std::string format = "text";
};

ExitCode show(const ShowOptions& options) {
  const auto folder = rulesets_folder(options);
  for (const std::string& id : options.ids) {
    const auto ruleset = read_ruleset(folder, id).ruleset;
    if (options.format == "markdown") {
      std::cout << markdown_page(*ruleset);
    } else if (options.format == "html") {
      std::cout << html_page(*ruleset);
    } else {
      std::cout << text_page(*ruleset) << caution << '\n';
    }
  }
  return ExitCode::done;
}

}  // namespace

void add_rulesets_show(CLI::App& group, Run& run) {
  const auto options = std::make_shared<ShowOptions>();
  CLI::App* command = group.add_subcommand(
      "show", "Definitions and tables as a person reads them, with the source of each row");
  add_ids(*command, *options);
  command->get_option("id")->required();
  command->add_option("--format", options->format, "How it is written")
      ->check(CLI::IsMember({"text", "markdown", "html"}))
      ->type_name("text|markdown|html");
  when_asked(*command, run, [options] { return show(*options); });
}

}  // namespace cli
