// dueward export: everything in the ledger as JSON Lines.

#include "ledger/export.h"

#include <CLI/CLI.hpp>
#include <iostream>
#include <memory>

#include "commands/commands.h"
#include "ledger_access.h"

namespace cli {

namespace {

struct ExportOptions : LedgerOptions {
  std::string file = "-";
};

engine::Result<engine::Done> print(const std::string& line) {
  if (std::cout << line) return engine::Done{};
  return engine::Error{"unwritable_output",
                       "standard output cannot be written: the export is not whole",
                       {},
                       "what was written of it is no export; run it again"};
}

ExitCode write_export(const ExportOptions& options) {
  const ledger::Ledger ledger = open_ledger(options, ledger::Ledger::Access::read);
  if (options.file == "-") {
    from_ledger(ledger::export_lines(ledger, print));
  } else {
    std::cout << ledger::text_of(from_ledger(ledger::export_file(ledger, options.file))) << '\n';
  }
  return ExitCode::done;
}

}  // namespace

void add_export(CLI::App& program, Run& run) {
  const auto options = std::make_shared<ExportOptions>();
  CLI::App* command = program.add_subcommand("export", "Everything in the ledger, as JSON Lines");
  command
      ->add_option("file", options->file,
                   "The export; there must be no such file yet. - or left out: standard output")
      ->type_name("FILE");
  add_ledger_option(*command, *options);
  add_json_option(*command, *options);
  when_asked(*command, run, [options] { return write_export(*options); });
}

}  // namespace cli
