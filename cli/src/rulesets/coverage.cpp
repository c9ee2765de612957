// dueward rulesets coverage: which worked cases reach which row.

#include <CLI/CLI.hpp>
#include <filesystem>
#include <iostream>
#include <map>
#include <memory>
#include <nlohmann/json.hpp>

#include "engine/canonical.h"
#include "failure.h"
#include "report/layout.h"
#include "rulesets/commands.h"
#include "rulesets_folder.h"
#include "system/files.h"
#include "worked_cases.h"

namespace cli {

namespace {

namespace fs = std::filesystem;

struct Coverage {
  std::shared_ptr<const engine::Ruleset> ruleset;
  CaseRun run;

  std::vector<std::string> cases_of(const std::string& row) const {
    const auto found = run.reached_by.find(row);
    return found == run.reached_by.end() ? std::vector<std::string>() : found->second;
  }
};

Coverage coverage_of(const fs::path& folder, const std::string& id) {
  const auto ruleset = read_ruleset(folder, id).ruleset;
  const std::string path = (folder / id / "guideline.cases.jsonl").string();
  const std::string cases = require(read_file(path), ExitCode::unreadable_input);
  return {ruleset, require(run_cases(ruleset, cases, path), ExitCode::unreadable_input)};
}

std::string first_of(const std::vector<std::string>& ids) {
  constexpr std::size_t most = 4;
  std::string text;
  for (std::size_t i = 0; i < ids.size() && i < most; ++i) text += (i == 0 ? "" : ", ") + ids[i];
  return ids.size() > most ? text + ", ..." : text;
}

// `guideline 40 of 41, memory 3 of 3`.
std::string by_evidence(const Coverage& coverage) {
  std::map<std::string, std::pair<std::size_t, std::size_t>> counts;
  for (const engine::RulesetRow& row : coverage.ruleset->rows) {
    auto& [reached, all] = counts[row.evidence];
    ++all;
    if (!coverage.cases_of(row.id).empty()) ++reached;
  }
  std::string text;
  for (const auto& [evidence, count] : counts) {
    text += (text.empty() ? "" : ", ") + evidence + " " + std::to_string(count.first) + " of " +
            std::to_string(count.second);
  }
  return text;
}

std::string text_of(const std::string& id, const Coverage& coverage) {
  Columns columns({"row", "evidence", "cases", "reached by"});
  for (const engine::RulesetRow& row : coverage.ruleset->rows) {
    const auto cases = coverage.cases_of(row.id);
    columns.add(
        {row.id, row.evidence, std::to_string(cases.size()), cases.empty() ? "no case" : first_of(cases)});
  }
  const std::size_t rows = coverage.ruleset->rows.size();
  return wrapped(id + ": " + std::to_string(coverage.run.total) + " cases reach " +
                 std::to_string(rows - coverage.run.unreached.size()) + " of " + std::to_string(rows) +
                 " rows (by evidence: " + by_evidence(coverage) + ")") +
         columns.text();
}

std::string json_of(const std::string& id, const Coverage& coverage) {
  nlohmann::json rows = nlohmann::json::array();
  for (const engine::RulesetRow& row : coverage.ruleset->rows)
    rows.push_back({{"row", row.id}, {"evidence", row.evidence}, {"cases", coverage.cases_of(row.id)}});
  return engine::canonical_json({{"id", id},
                                 {"cases", coverage.run.total},
                                 {"rows", std::move(rows)},
                                 {"unreached", coverage.run.unreached}}) +
         "\n";
}

ExitCode cover(const RulesetsOptions& options) {
  const fs::path folder = rulesets_folder(options);
  ExitCode code = ExitCode::done;
  bool first = true;
  for (const std::string& id : chosen_ids(options)) {
    const Coverage coverage = coverage_of(folder, id);
    if (!coverage.run.unreached.empty()) code = ExitCode::needs_a_person;
    if (!options.json && !first) std::cout << '\n';
    std::cout << (options.json ? json_of(id, coverage) : text_of(id, coverage));
    first = false;
  }
  return code;
}

}  // namespace

void add_rulesets_coverage(CLI::App& group, Run& run) {
  const auto options = std::make_shared<RulesetsOptions>();
  CLI::App* command =
      group.add_subcommand("coverage", "Which worked cases reach which row; 1 when none reaches one");
  add_ids(*command, *options);
  add_json_option(*command, *options);
  when_asked(*command, run, [options] { return cover(*options); });
}

}  // namespace cli
