// dueward serve: the daemon. Empties the inbox as files come, and sweeps the lists once a day.

#include <CLI/CLI.hpp>
#include <memory>
#include <nlohmann/json.hpp>
#include <optional>

#include "commands/commands.h"
#include "ledger/accounts.h"
#include "ledger/lists.h"
#include "ledger_access.h"
#include "serve/inbox.h"
#include "system/log.h"
#include "system/signals.h"

namespace cli {

namespace {

struct ServeOptions : LedgerOptions {
  std::string inbox;
  bool once = false;
  int every = 1000;  // milliseconds
};

engine::Result<engine::Done> log_census(const ledger::Ledger& ledger, const engine::Date& today) {
  const auto census = ledger::sweep(ledger, today);
  if (!census) return census.errors();
  log_event("swept", {{"day", engine::text_of(today)},
                      {"open", census->open},
                      {"due", census->due},
                      {"overdue", census->overdue},
                      {"to_close", census->to_close},
                      {"handed_over", census->handed_over},
                      {"awaiting", census->awaiting},
                      {"awaiting_red", census->awaiting_red},
                      {"unplanned", census->unplanned},
                      {"letters_owed", census->letters_owed},
                      {"inputs", census->inputs}});
  return engine::Done{};
}

// What the daemon does stands under its own name, unless the ledger names accounts: then under its account.
std::string daemon_of(const ServeOptions& options, const ledger::Ledger& ledger) {
  if (!options.actor.empty()) return options.actor;
  return from_ledger(ledger::accounts(ledger)).empty() ? "inbox" : account_of_caller();
}

// What is done again and again: the sweep on the first round of each day, and the inbox.
class Rounds {
 public:
  Rounds(const ServeOptions& options, Inbox inbox)
      : ledger_(open_or_begin_ledger(options)),
        protocol_(protocol_of(options, ledger_)),
        clock_(clock_of(options)),
        author_{daemon_of(options, ledger_), clock_, account_of_caller()},
        inbox_(std::move(inbox)) {}

  engine::Result<engine::Done> go() {
    const auto worked = inbox_.work(ledger_, author_, protocol_);
    if (!worked) return worked;
    warn_of_clock();
    const engine::Date today = clock_.today();
    if (swept_ == today) return engine::Done{};
    const auto swept = log_census(ledger_, today);
    if (swept) swept_ = today;
    return swept;
  }

 private:
  // Once each time that the clock falls behind.
  void warn_of_clock() {
    const auto behind = clock_is_behind(ledger_);
    if (behind && !was_behind_) log_event("clock behind", {{"warning", *behind}});
    was_behind_ = behind.has_value();
  }

  ledger::Ledger ledger_;
  ledger::Protocol protocol_;
  UnitClock clock_;
  ledger::Author author_;
  Inbox inbox_;
  std::optional<engine::Date> swept_;
  bool was_behind_ = false;
};

ExitCode serve(const ServeOptions& options) {
  begin_log();
  watch_for_stop();
  Rounds rounds(options, require(Inbox::open(options.inbox), ExitCode::unreadable_input));
  log_event("serving", {{"inbox", options.inbox}, {"ledger", ledger_path(options)}});
  for (;;) {
    const auto done = rounds.go();
    if (!done && options.once) throw Failure{ExitCode::ledger_fault, done.errors()};
    // A full disk or a locked file passes: the file in hand stays claimed and is taken up in the next round.
    if (!done) log_errors("round not finished", done.errors(), nlohmann::json::object());
    if (options.once || stop_requested()) break;
    wait_milliseconds(options.every);
  }
  log_event("stopped", nlohmann::json::object());
  return ExitCode::done;
}

}  // namespace

void add_serve(CLI::App& program, Run& run) {
  const auto options = std::make_shared<ServeOptions>();
  CLI::App* command =
      program.add_subcommand("serve", "The daemon: empties the inbox, sweeps the lists once a day");
  command->add_option("--inbox", options->inbox, "Folder where records and results are put")
      ->required()
      ->envname("DUEWARD_INBOX")
      ->type_name("DIR");
  command->add_flag("--once", options->once, "One round, then end");
  command->add_option("--every", options->every, "Milliseconds between two rounds")
      ->check(CLI::Range(10, 3'600'000))
      ->type_name("MS");
  add_advising_options(*command, *options);
  add_json_option(*command, *options);
  when_asked(*command, run, [options] { return serve(*options); });
}

}  // namespace cli
