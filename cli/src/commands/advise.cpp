// dueward advise: what a guideline says about one record or many. Needs no ledger and keeps nothing.

#include <CLI/CLI.hpp>
#include <iostream>
#include <memory>
#include <string>
#include <vector>

#include "commands/commands.h"
#include "engine/advice.h"
#include "failure.h"
#include "report/answers.h"
#include "rulesets_folder.h"
#include "system/record_stream.h"

namespace cli {

namespace {

struct AdviseOptions : CommonOptions {
  std::vector<std::string> files;
  std::vector<std::string> ruleset_ids;
  std::vector<std::string> settings;
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

// All rulesets of the command line, ready to answer one record after the other.
class Advisers {
 public:
  explicit Advisers(const AdviseOptions& options) : settings_(options.settings), today_(today_of(options)) {
    const auto folder = rulesets_folder(options);
    for (const std::string& id : options.ruleset_ids) {
      advisers_.push_back(std::make_unique<engine::Adviser>(read_ruleset(folder, id).ruleset));
    }
  }

  std::vector<engine::Advice> answer(std::string_view text, const std::string& source) {
    const std::string id = engine::caller_id(text);
    engine::Result<engine::Record> record = engine::read_record(text, source);
    std::vector<engine::Advice> answers;
    if (!record) {
      answers.push_back(engine::refused(id, record.errors()));
      return answers;
    }
    for (const std::string& setting : settings_)
      require(engine::apply_setting(*record, setting), ExitCode::wrong_usage);
    for (const auto& adviser : advisers_) answers.push_back(adviser->advise(*record, today_, id));
    return answers;
  }

 private:
  std::vector<std::unique_ptr<engine::Adviser>> advisers_;
  std::vector<std::string> settings_;
  engine::Date today_;
};

bool any_refused(const std::vector<engine::Advice>& answers) {
  for (const engine::Advice& answer : answers) {
    if (answer.state == engine::AdviceState::refused) return true;
  }
  return false;
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
      const std::vector<engine::Advice> answers = advisers.answer(record->text, source);
      if (any_refused(answers)) code = ExitCode::needs_a_person;
      if (options.json) {
        std::cout << json_of(answers) << '\n';
      } else {
        std::cout << (first ? "" : "\n") << text_of(answers, source);
      }
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
  command
      ->add_option("--ruleset", options->ruleset_ids,
                   "Id of a ruleset; with several the earliest answer leads")
      ->required()
      ->type_name("ID")
      ->expected(1)
      ->take_all();
  command->add_option("--setting", options->settings, "A setting of the unit: screening_from_age=50")
      ->type_name("KEY=VALUE")
      ->expected(1)
      ->take_all();
  add_today_option(*command, *options);
  add_rulesets_option(*command, *options);
  add_json_option(*command, *options);
  when_asked(*command, run, [options] { return advise_all(*options); });
}

}  // namespace cli
