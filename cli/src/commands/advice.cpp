// dueward advice: a clinician signs the computed answer, or decides otherwise with a reason.

#include <CLI/CLI.hpp>
#include <iostream>
#include <memory>

#include "commands/advice_again.h"
#include "commands/advice_batch.h"
#include "commands/commands.h"
#include "ledger/signing.h"
#include "ledger_access.h"
#include "report/caution.h"
#include "report/layout.h"

namespace cli {

namespace {

struct SigningOptions : LedgerOptions {
  std::string exam;
  std::string clinician;
  std::uint64_t advice = 0;
  std::string action, from, to, reason;  // of a decision
};

void print(const ledger::Signed& signed_advice, const std::string& did, const std::string& clinician) {
  std::cout << signed_advice.exam << ": " << did << " by " << clinician << ", entry " << signed_advice.entry;
  if (!signed_advice.recall.empty()) std::cout << ", recall " << signed_advice.recall;
  std::cout << '\n';
  for (const std::string& note : signed_advice.notes) std::cout << wrapped("  " + note, 2);
  std::cout << caution << '\n';
}

ExitCode sign(const SigningOptions& options) {
  ledger::Ledger ledger = open_ledger(options, ledger::Ledger::Access::write);
  const UnitClock clock = clock_of(options);
  const ledger::Author author = author_of(options, clock);
  print(from_ledger(ledger::sign(ledger, author, options.exam, options.clinician, options.advice)), "signed",
        options.clinician);
  return ExitCode::done;
}

ledger::Decision decision_of(const SigningOptions& options) {
  const auto action = engine::action_of(options.action);
  if (!action) {
    fail(ExitCode::wrong_usage, {"unknown_action",
                                 "--action: there is no action `" + options.action + "`",
                                 {},
                                 "`surveillance colonoscopy`, `site check`, `repeat examination`, `no "
                                 "surveillance`, `return to screening`, "
                                 "`refer` or `individualise`"});
  }
  ledger::Decision decision{*action, {}, options.reason};
  if (!options.from.empty()) {
    const engine::Date from = date_of("--from", options.from);
    decision.due = engine::Window{from, options.to.empty() ? from : date_of("--to", options.to)};
  }
  return decision;
}

ExitCode override_advice(const SigningOptions& options) {
  const ledger::Decision decision = decision_of(options);
  ledger::Ledger ledger = open_ledger(options, ledger::Ledger::Access::write);
  const UnitClock clock = clock_of(options);
  const ledger::Author author = author_of(options, clock);
  print(from_ledger(ledger::override_advice(ledger, author, options.exam, options.clinician, decision,
                                            options.advice)),
        "decided otherwise", options.clinician);
  return ExitCode::done;
}

std::shared_ptr<SigningOptions> add_common(CLI::App& command) {
  const auto options = std::make_shared<SigningOptions>();
  command.add_option("exam", options->exam, "The examination's id")->required()->type_name("EXAM");
  command.add_option("--by", options->clinician, "The clinician who answers for it")
      ->required()
      ->type_name("NAME");
  command
      .add_option("--advice", options->advice,
                  "Number of the advice that was seen: refused if another came since")
      ->type_name("ENTRY");
  add_writing_options(command, *options);
  add_json_option(command, *options);
  return options;
}

}  // namespace

void add_advice(CLI::App& program, Run& run) {
  CLI::App* advice = program.add_subcommand("advice", "A clinician signs an answer, or decides otherwise");
  advice->require_subcommand(1);

  CLI::App* signing = advice->add_subcommand("sign", "Sign the answer that stands for an examination");
  const auto sign_options = add_common(*signing);
  when_asked(*signing, run, [sign_options] { return sign(*sign_options); });

  CLI::App* overriding =
      advice->add_subcommand("override", "Decide otherwise, with a reason; the answer is kept");
  const auto options = add_common(*overriding);
  overriding->add_option("--action", options->action, "What shall be done")->required()->type_name("ACTION");
  overriding->add_option("--from", options->from, "First day on which it is due")->type_name("YYYY-MM-DD");
  overriding->add_option("--to", options->to, "Last day of the window; left out: the first")
      ->type_name("YYYY-MM-DD");
  overriding->add_option("--reason", options->reason, "Why")->required()->type_name("TEXT");
  when_asked(*overriding, run, [options] { return override_advice(*options); });

  add_advice_batch(*advice, run);
  add_advice_again(*advice, run);
}

}  // namespace cli
