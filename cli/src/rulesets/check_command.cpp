// dueward rulesets check: every fault of every ruleset that was asked for. One that is broken does not hide
// the others.

#include <CLI/CLI.hpp>
#include <algorithm>
#include <filesystem>
#include <iostream>
#include <memory>

#include "failure.h"
#include "protocols.h"
#include "report/errors.h"
#include "report/layout.h"
#include "rulesets/check.h"
#include "rulesets/commands.h"
#include "rulesets/proofs.h"
#include "rulesets_folder.h"
#include "system/files.h"
#include "worked_cases.h"

namespace cli {

namespace {

namespace fs = std::filesystem;
using engine::Errors;

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

struct CheckOptions : RulesetsOptions {
  std::uint32_t budget = 2000;  ///< Runs for each law and shape of records.
};

class Checker {
 public:
  Checker(fs::path folder, std::uint32_t budget)
      : folder_(std::move(folder)), budget_(budget), known_(ruleset_ids(folder_)) {}

  void check(const std::string& id) {
    const auto file = load_ruleset_file(folder_, id);
    if (!file) return report(id, file.errors(), ExitCode::unreadable_input);
    const std::string path = (folder_ / id / "ruleset.dmn").string();
    report(id, faulty_words(*file->ruleset, known_, path), ExitCode::needs_a_person);
    answer_cases(id, file->ruleset);
    answer_made_records(id, file->ruleset, path);
    show_proofs(id, file->ruleset, path);
  }

  void report(const std::string& id, const Errors& errors, ExitCode code) {
    if (errors.empty()) return;
    if (!id.empty())
      std::cout << id << ": " << errors.size() << (errors.size() == 1 ? " fault\n" : " faults\n");
    errors_.insert(errors_.end(), errors.begin(), errors.end());
    code_ = std::max(code_, code);
  }

  ExitCode end() {
    if (!errors_.empty()) throw Failure{code_, std::move(errors_)};
    return code_;
  }

 private:
  void answer_cases(const std::string& id, const std::shared_ptr<const engine::Ruleset>& ruleset) {
    const std::string path = (folder_ / id / "guideline.cases.jsonl").string();
    const auto cases = read_file(path);
    if (!cases) return report(id, cases.errors(), ExitCode::unreadable_input);
    const auto run = run_cases(ruleset, *cases, path);
    if (!run) return report(id, run.errors(), ExitCode::unreadable_input);
    print(id, *run);
    if (!run->failed.empty() || run->total == 0) code_ = std::max(code_, ExitCode::needs_a_person);
    for (const std::string& other : run->ask_instead) {
      if (std::find(known_.begin(), known_.end(), other) == known_.end())
        report(id, {unknown_ask_instead(other, known_, path, "answers")}, ExitCode::needs_a_person);
    }
  }

  void answer_made_records(const std::string& id, const std::shared_ptr<const engine::Ruleset>& ruleset,
                           const std::string& path) {
    const Trial trial = try_records(ruleset, path);
    if (trial.refused.empty())
      std::cout << id << ": " << trial.records << " made records answered, none refused\n";
    report(id, trial.refused, ExitCode::needs_a_person);
  }

  void show_proofs(const std::string& id, const std::shared_ptr<const engine::Ruleset>& ruleset,
                   const std::string& path) {
    const auto sources = read_file((folder_ / id / "SOURCES.md").string());
    const Proofs proofs = prove(ruleset, path, sources ? *sources : "", budget_);
    std::cout << id << ": " << proofs.text << '\n';
    report(id, proofs.faults, ExitCode::needs_a_person);
  }

  fs::path folder_;
  std::uint32_t budget_;
  std::vector<std::string> known_;
  Errors errors_;
  ExitCode code_ = ExitCode::done;
};

ExitCode check(const CheckOptions& options) {
  const fs::path folder = rulesets_folder(options);
  for (const std::string& id : options.ids) require_known(folder, id);
  Checker checker(folder, options.budget);
  checker.report("", duplicate_ids(folder), ExitCode::needs_a_person);
  for (const std::string& id : chosen_ids(options)) checker.check(id);
  for (const std::string& id : options.ids.empty() ? protocol_ids(folder) : std::vector<std::string>()) {
    const auto protocol = read_protocol(folder, id);
    if (!protocol) checker.report("protocol " + id, protocol.errors(), ExitCode::unreadable_input);
  }
  return checker.end();
}

}  // namespace

void add_rulesets_check(CLI::App& group, Run& run) {
  const auto options = std::make_shared<CheckOptions>();
  CLI::App* command = group.add_subcommand(
      "check", "Faults of each ruleset, and its guideline's worked cases; 1 when one comes out wrong");
  add_ids(*command, *options);
  command->add_option("--budget", options->budget, "Runs for each law and shape of records")
      ->check(CLI::Range(1, 100'000'000))
      ->type_name("NUMBER");
  add_json_option(*command, *options);
  when_asked(*command, run, [options] { return check(*options); });
}

}  // namespace cli
