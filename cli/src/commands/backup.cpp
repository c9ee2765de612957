// dueward backup: a verified copy of the ledger while it is in use.

#include "ledger/backup.h"

#include <CLI/CLI.hpp>
#include <iostream>
#include <memory>

#include "commands/commands.h"
#include "ledger_access.h"

namespace cli {

namespace {

struct BackupOptions : LedgerOptions {
  std::string file;
};

ExitCode back_up(const BackupOptions& options) {
  ledger::Ledger ledger = open_ledger(options, ledger::Ledger::Access::write);
  const UnitClock clock = clock_of(options);
  const auto copied = from_ledger(ledger::back_up(ledger, author_of(options, clock), options.file));
  std::cout << ledger::text_of(copied) << '\n';
  return ExitCode::done;
}

}  // namespace

void add_backup(CLI::App& program, Run& run) {
  const auto options = std::make_shared<BackupOptions>();
  CLI::App* command =
      program.add_subcommand("backup", "A verified copy of the ledger; prints its checkpoint line");
  command->add_option("file", options->file, "The copy; there must be no such file yet")
      ->required()
      ->type_name("FILE");
  add_writing_options(*command, *options);
  add_json_option(*command, *options);
  when_asked(*command, run, [options] { return back_up(*options); });
}

}  // namespace cli
