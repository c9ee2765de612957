// dueward withdraw: the laboratory took a report back.

#include <CLI/CLI.hpp>
#include <iostream>
#include <memory>

#include "commands/commands.h"
#include "ledger_access.h"
#include "reception.h"

namespace cli {

namespace {

struct WithdrawOptions : LedgerOptions {
  ledger::Withdrawal withdrawal;
};

ExitCode withdraw(const WithdrawOptions& options) {
  ledger::Ledger ledger = open_ledger(options, ledger::Ledger::Access::write);
  const ledger::Protocol protocol = protocol_of(options, ledger);
  const UnitClock clock = clock_of(options);
  const auto receipt = from_ledger(
      ledger::withdraw_histology(ledger, author_of(options, clock), protocol, options.withdrawal));
  if (options.json) {
    std::cout << json_of("withdraw", receipt) << '\n';
  } else {
    std::cout << receipt.exam << ": " << ledger::text_of(receipt.received) << ", entry " << receipt.entry
              << "; awaited again\n"
              << notes_of(receipt);
  }
  return ExitCode::done;
}

}  // namespace

void add_withdraw(CLI::App& program, Run& run) {
  const auto options = std::make_shared<WithdrawOptions>();
  CLI::App* command = program.add_subcommand(
      "withdraw", "The laboratory took a report back: histology is awaited again, the advice given again");
  command->add_option("exam", options->withdrawal.exam, "The examination's id")
      ->required()
      ->type_name("EXAM");
  command->add_option("--pot", options->withdrawal.specimens, "Ids of pots; left out: all that are reported")
      ->type_name("POT");
  command->add_option("--reason", options->withdrawal.reason, "Why")->required()->type_name("TEXT");
  add_advising_options(*command, *options);
  add_json_option(*command, *options);
  when_asked(*command, run, [options] { return withdraw(*options); });
}

}  // namespace cli
