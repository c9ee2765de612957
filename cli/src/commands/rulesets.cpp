// dueward rulesets: what is there, what it says, whether it answers its guideline's own cases.

#include <CLI/CLI.hpp>
#include <filesystem>
#include <iostream>
#include <memory>
#include <vector>

#include "commands/commands.h"
#include "failure.h"
#include "report/caution.h"
#include "report/layout.h"
#include "report/tables.h"
#include "rulesets_folder.h"
#include "system/files.h"
#include "worked_cases.h"

namespace cli {

namespace {

namespace fs = std::filesystem;

struct RulesetsOptions : CommonOptions {
  std::vector<std::string> ids;  ///< Empty: all.
};

std::vector<std::string> chosen(const RulesetsOptions& options, const fs::path& folder) {
  return options.ids.empty() ? ruleset_ids(folder) : options.ids;
}

ExitCode list(const RulesetsOptions& options) {
  const fs::path folder = rulesets_folder(options);
  Columns columns({"id", "edition", "state", "published", "rows", "title"});
  for (const std::string& id : ruleset_ids(folder)) {
    const auto ruleset = read_ruleset(folder, id).ruleset;
    columns.add({id, ruleset->about.edition, ruleset->about.state, ruleset->about.published,
                 std::to_string(ruleset->rows.size()), ruleset->about.title});
  }
  std::cout << columns.text();
  return ExitCode::done;
}

ExitCode show(const RulesetsOptions& options) {
  const fs::path folder = rulesets_folder(options);
  for (const std::string& id : options.ids) {
    const auto ruleset = read_ruleset(folder, id).ruleset;
    std::cout << text_of(*ruleset) << '\n';
    for (const engine::TableView& table : ruleset->model->tables()) std::cout << text_of(table) << '\n';
  }
  std::cout << caution << '\n';
  return ExitCode::done;
}

void print(const std::string& id, const CaseRun& run) {
  std::cout << id << ": " << run.total - run.failed.size() << " of " << run.total
            << " cases as the guideline answers\n";
  for (const FailedCase& failed : run.failed) {
    std::cout << "  " << failed.id << "\n"
              << wrapped("    expected  " + failed.expected, 14)
              << wrapped("    answered  " + failed.answered, 14);
    if (!failed.why.empty()) std::cout << wrapped("    because   " + failed.why, 14);
  }
  if (run.unreached.empty()) return;
  std::string rows;
  for (const std::string& row : run.unreached) rows += (rows.empty() ? "" : ", ") + row;
  std::cout << wrapped("  rows that no case reaches: " + rows, 4);
}

ExitCode check(const RulesetsOptions& options) {
  const fs::path folder = rulesets_folder(options);
  ExitCode code = ExitCode::done;
  for (const std::string& id : chosen(options, folder)) {
    const auto ruleset = read_ruleset(folder, id).ruleset;
    const std::string path = (folder / id / "guideline.cases.jsonl").string();
    const std::string cases = require(read_file(path), ExitCode::unreadable_input);
    const CaseRun run = require(run_cases(ruleset, cases, path), ExitCode::unreadable_input);
    print(id, run);
    if (!run.failed.empty() || run.total == 0) code = ExitCode::needs_a_person;
  }
  return code;
}

ExitCode verify(const RulesetsOptions& options) {
  const fs::path folder = rulesets_folder(options);
  for (const std::string& id : chosen(options, folder)) {
    const auto ruleset = read_ruleset(folder, id).ruleset;
    std::cout << ruleset->digest << "  " << id << " " << ruleset->about.edition << '\n';
  }
  return ExitCode::done;
}

void add(CLI::App& parent, Run& run, const std::string& name, const std::string& purpose,
         ExitCode (*action)(const RulesetsOptions&), bool needs_ids) {
  const auto options = std::make_shared<RulesetsOptions>();
  CLI::App* command = parent.add_subcommand(name, purpose);
  if (name != "list") {
    CLI::Option* ids = command->add_option("id", options->ids, "Ids of rulesets")->type_name("ID");
    if (needs_ids) ids->required();
  }
  add_rulesets_option(*command, *options);
  when_asked(*command, run, [options, action] { return action(*options); });
}

}  // namespace

void add_rulesets(CLI::App& program, Run& run) {
  CLI::App* command =
      program.add_subcommand("rulesets", "The guidelines that can be asked, and their checks");
  command->require_subcommand(1);
  add(*command, run, "list", "Every ruleset with its edition and state", list, false);
  add(*command, run, "show", "The tables as a person reads them, with the source of each row", show, true);
  add(*command, run, "check", "Answers the worked cases of each guideline; 1 when one comes out wrong", check,
      false);
  add(*command, run, "verify", "Reads and checks each file, and prints its digest", verify, false);
}

}  // namespace cli
