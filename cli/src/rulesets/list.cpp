// dueward rulesets list: every ruleset of the folder on a line.

#include <CLI/CLI.hpp>
#include <iostream>
#include <memory>
#include <nlohmann/json.hpp>

#include "engine/canonical.h"
#include "failure.h"
#include "report/layout.h"
#include "rulesets/commands.h"
#include "rulesets_folder.h"
#include "system/files.h"

namespace cli {

namespace {

std::size_t count_cases(const std::filesystem::path& folder, const std::string& id) {
  const auto text = read_file((folder / id / "guideline.cases.jsonl").string());
  std::size_t count = 0, from = 0;
  while (text && from < text->size()) {
    const std::size_t end = std::min(text->find('\n', from), text->size());
    if (text->find_first_not_of(" \t\r", from) < end) ++count;
    from = end + 1;
  }
  return count;
}

std::string joined(const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& word : words) text += (text.empty() ? "" : ", ") + word;
  return text;
}

std::string json_line(const engine::Ruleset& ruleset, std::size_t cases) {
  const engine::RulesetAbout& about = ruleset.about;
  return engine::canonical_json({{"id", about.id},
                                 {"edition", about.edition},
                                 {"title", about.title},
                                 {"publisher", about.publisher},
                                 {"published", about.published},
                                 {"doi", about.doi},
                                 {"state", about.state},
                                 {"supersedes", about.supersedes},
                                 {"superseded_by", about.superseded_by.value_or("")},
                                 {"digest", ruleset.digest},
                                 {"rows", ruleset.rows.size()},
                                 {"cases", cases}});
}

ExitCode list(const CommonOptions& options) {
  constexpr std::size_t shortened = 12;
  const auto folder = rulesets_folder(options);
  Columns columns({"id", "edition", "state", "supersedes", "digest", "rows", "cases", "title"});
  std::string lines;
  engine::Errors errors;
  for (const std::string& id : ruleset_ids(folder)) {
    const auto file = load_ruleset_file(folder, id);
    if (!file) {
      errors.insert(errors.end(), file.errors().begin(), file.errors().end());
      continue;
    }
    const engine::Ruleset& ruleset = *file->ruleset;
    const std::size_t cases = count_cases(folder, id);
    lines += json_line(ruleset, cases) + "\n";
    columns.add({id, ruleset.about.edition, ruleset.about.state, joined(ruleset.about.supersedes),
                 ruleset.digest.substr(std::string("sha256:").size(), shortened),
                 std::to_string(ruleset.rows.size()), std::to_string(cases), ruleset.about.title});
  }
  std::cout << (options.json ? lines : columns.text());
  if (!errors.empty()) throw Failure{ExitCode::unreadable_input, std::move(errors)};
  return ExitCode::done;
}

}  // namespace

void add_rulesets_list(CLI::App& group, Run& run) {
  const auto options = std::make_shared<CommonOptions>();
  CLI::App* command = group.add_subcommand("list", "Every ruleset with its edition, state and digest");
  add_rulesets_option(*command, *options);
  add_json_option(*command, *options);
  when_asked(*command, run, [options] { return list(*options); });
}

}  // namespace cli
