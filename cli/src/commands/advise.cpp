// dueward advise: what a guideline says about one record or many. Needs no ledger and keeps nothing.

#include <CLI/CLI.hpp>
#include <iostream>
#include <memory>
#include <string>
#include <vector>

#include "commands/commands.h"
#include "engine/advice.h"
#include "failure.h"
#include "guidelines.h"
#include "report/answers.h"
#include "report/side_by_side.h"
#include "system/record_stream.h"

namespace cli {

namespace {

struct AdviseOptions : GuidelineOptions {
  std::vector<std::string> files;
  std::vector<std::string> settings;
  bool compare = false;
  bool changes = false;
};

// The settings are tried before any record is read: a wrong one is a fault of the command line, not of a
// record.
void check_settings(const std::vector<std::string>& settings) {
  engine::Record nobody;
  nobody.canonical = "{}";
  for (const std::string& setting : settings) {
    require(engine::apply_setting(nobody, setting), ExitCode::wrong_usage);
  }
}

bool states(const engine::Setting& setting, std::string_view key) {
  if (key == "nation") return setting.nation.has_value();
  if (key == "screening_from_age") return setting.screening_from_age.has_value();
  if (key == "organised_screening") return setting.organised_screening.has_value();
  return setting.adenoma_detection_adequate.has_value();
}

// A setting of the protocol, where the record has none of its own.
void apply_default(engine::Record& record, const std::string& setting) {
  if (states(record.setting, std::string_view(setting).substr(0, setting.find('=')))) return;
  require(engine::apply_setting(record, setting), ExitCode::wrong_usage);
}

// All rulesets of the command line, ready to answer one record after the other.
class Advisers {
 public:
  explicit Advisers(const AdviseOptions& options) : settings_(options.settings), today_(today_of(options)),
        with_changes_(options.changes || (!options.json && !options.compare)) {
    Guidelines guidelines = named_guidelines(options);
    if (guidelines.rulesets.empty()) fail_without_guideline();
    defaults_ = std::move(guidelines.settings);
    for (RulesetFile& file : guidelines.rulesets) {
      advisers_.push_back(std::make_unique<engine::Adviser>(file.ruleset));
      rulesets_.push_back(std::move(file.ruleset));
    }
    if (options.compare && rulesets_.size() < 2) {
      fail(ExitCode::wrong_usage, {"one_ruleset",
                                   "`--compare` needs two rulesets at least",
                                   {},
                                   "name them with `--ruleset ID ID` or `--protocol ID`"});
    }
  }

  const std::vector<std::shared_ptr<const engine::Ruleset>>& rulesets() const { return rulesets_; }

  std::vector<engine::Advice> answer(std::string_view text, const std::string& source) {
    const std::string id = engine::caller_id(text);
    engine::Result<engine::Record> record = engine::read_record(text, source);
    std::vector<engine::Advice> answers;
    if (!record) {
      answers.push_back(engine::refused(id, record.errors()));
      return answers;
    }
    for (const std::string& setting : defaults_) apply_default(*record, setting);
    for (const std::string& setting : settings_)
      require(engine::apply_setting(*record, setting), ExitCode::wrong_usage);
    for (const auto& adviser : advisers_) {
      answers.push_back(adviser->advise(*record, today_, id));
      if (with_changes_) adviser->add_changes(answers.back(), *record, today_);
    }
    return answers;
  }

 private:
  std::vector<std::unique_ptr<engine::Adviser>> advisers_;
  std::vector<std::shared_ptr<const engine::Ruleset>> rulesets_;
  std::vector<std::string> settings_, defaults_;
  engine::Date today_;
  bool with_changes_;
};

bool any_refused(const std::vector<engine::Advice>& answers) {
  for (const engine::Advice& answer : answers) {
    if (answer.state == engine::AdviceState::refused) return true;
  }
  return false;
}

std::vector<Answered> with_rulesets(const Advisers& advisers, std::vector<engine::Advice> answers) {
  std::vector<Answered> answered;
  for (std::size_t i = 0; i < answers.size(); ++i)
    answered.push_back({advisers.rulesets()[i], std::move(answers[i])});
  return answered;
}

// A record that could not be read has one answer, and nothing to compare.
std::string report(const AdviseOptions& options, const Advisers& advisers,
                   std::vector<engine::Advice> answers, const std::string& source) {
  if (!options.compare || answers.front().ruleset.empty())
    return options.json ? json_of(answers) + "\n" : text_of(answers, source);
  const std::vector<Answered> answered = with_rulesets(advisers, std::move(answers));
  return options.json ? side_by_side_json(answered) + "\n" : side_by_side(answered, source);
}

ExitCode advise_all(const AdviseOptions& options) {
  check_settings(options.settings);
  Advisers advisers(options);
  ExitCode code = ExitCode::done;
  bool first = true;
  for (const std::string& file : options.files) {
    RecordStream stream = require(RecordStream::open(file), ExitCode::unreadable_input);
    while (const auto record = require(stream.next(), ExitCode::unreadable_input)) {
      const std::string source = source_of(file, record->line);
      std::vector<engine::Advice> answers = advisers.answer(record->text, source);
      if (any_refused(answers)) code = ExitCode::needs_a_person;
      if (!options.json && !first) std::cout << '\n';
      std::cout << report(options, advisers, std::move(answers), source);
      first = false;
      if (stream.is_drained()) std::cout.flush();
    }
  }
  if (first) fail(ExitCode::unreadable_input, {"no_record", "there is no record to answer", {}, {}});
  return code;
}

}  // namespace

void add_advise(CLI::App& program, Run& run) {
  const auto options = std::make_shared<AdviseOptions>();
  options->files = {"-"};
  CLI::App* command =
      program.add_subcommand("advise", "The next step for a record, by the rulesets that are named");
  command->add_option("file", options->files, "Records as JSON, one a line; - is standard input")
      ->type_name("FILE");
  add_guideline_options(*command, *options);
  command->add_option("--setting", options->settings, "A setting of the unit: screening_from_age=50")
      ->type_name("KEY=VALUE")
      ->expected(1)
      ->allow_extra_args(false)
      ->take_all();
  command->add_flag("--changes", options->changes,
                    "With --json: also what would change a settled answer, as the text always says");
  command->add_flag("--compare", options->compare,
                    "The answers beside each other, and what makes them differ");
  add_today_option(*command, *options);
  add_json_option(*command, *options);
  when_asked(*command, run, [options] { return advise_all(*options); });
}

}  // namespace cli
