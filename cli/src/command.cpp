#include "command.h"

#include <CLI/CLI.hpp>
#include <utility>

#include "commands/commands.h"
#include "failure.h"
#include "system/clock.h"

namespace cli {

void add_ledger_option(CLI::App& command, CommonOptions& options) {
  command.add_option("--ledger", options.ledger, "The ledger's file")
      ->envname("DUEWARD_LEDGER")
      ->type_name("FILE");
}

void add_rulesets_option(CLI::App& command, CommonOptions& options) {
  command.add_option("--rulesets", options.rulesets, "Folder of the rulesets")
      ->envname("DUEWARD_RULESETS")
      ->type_name("DIR");
}

void add_today_option(CLI::App& command, CommonOptions& options) {
  command.add_option("--today", options.today, "Answer as of this day")->type_name("YYYY-MM-DD");
}

void add_json_option(CLI::App& command, CommonOptions& options) {
  command.add_flag("--json", options.json, "Answers and errors as JSON, one line each");
}

engine::Date date_of(const std::string& option, const std::string& text) {
  if (const auto date = engine::parse_date(text)) return *date;
  fail(ExitCode::wrong_usage, {"no_date",
                               option + ": `" + text + "` is no date",
                               {},
                               "write a day that exists as YYYY-MM-DD, for example `2026-03-10`"});
}

engine::Date today_of(const CommonOptions& options) {
  return options.today.empty() ? local_today() : date_of("--today", options.today);
}

void when_asked(CLI::App& command, Run& run, Run action) {
  command.callback([&run, action = std::move(action)] { run = action; });
}

void add_commands(CLI::App& program, Run& run) {
  add_demo(program, run);
  add_advise(program, run);
  add_rulesets(program, run);
  add_record(program, run);
  add_result(program, run);
  add_withdraw(program, run);
  add_advice(program, run);
  add_recall(program, run);
  add_lists(program, run);
  add_forecast(program, run);
  add_revet(program, run);
  add_patient(program, run);
  add_people(program, run);
  add_letter(program, run);
  add_accounts(program, run);
  add_protocol(program, run);
  add_audit(program, run);
  add_backup(program, run);
  add_restore(program, run);
  add_export(program, run);
  add_import(program, run);
  add_serve(program, run);
  add_feel(program, run);
  add_dmn(program, run);
}

}  // namespace cli
