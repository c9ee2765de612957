// dueward letter note: a letter went out; what it said is kept with the entry.

#include <CLI/CLI.hpp>
#include <iostream>
#include <memory>

#include "commands/commands.h"
#include "ledger/letters.h"
#include "ledger_access.h"
#include "system/files.h"

namespace cli {

namespace {

struct LetterOptions : LedgerOptions {
  std::string exam, letter, recipient, file;
};

ExitCode note(const LetterOptions& options) {
  const std::string text = require(read_file(options.file), ExitCode::unreadable_input);
  ledger::Ledger ledger = open_ledger(options, ledger::Ledger::Access::write);
  const UnitClock clock = clock_of(options);
  const auto entry = from_ledger(ledger::note_letter(
      ledger, author_of(options, clock), {options.exam, options.letter, options.recipient, text}));
  std::cout << options.exam << ": " << options.letter << " to " << options.recipient << ", entry " << entry
            << '\n';
  return ExitCode::done;
}

}  // namespace

void add_letter(CLI::App& program, Run& run) {
  CLI::App* letter = program.add_subcommand("letter", "Letters that went out");
  letter->require_subcommand(1);
  const auto options = std::make_shared<LetterOptions>();
  CLI::App* noting =
      letter->add_subcommand("note", "Keep what a letter said: it is marked when that is not right any more");
  noting->add_option("exam", options->exam, "The examination's id")->required()->type_name("EXAM");
  noting->add_option("file", options->file, "The letter; - is standard input")->required()->type_name("FILE");
  noting->add_option("--letter", options->letter, "result, invitation, ...")->required()->type_name("NAME");
  noting->add_option("--to", options->recipient, "patient, family doctor")->required()->type_name("NAME");
  add_writing_options(*noting, *options);
  add_json_option(*noting, *options);
  when_asked(*noting, run, [options] { return note(*options); });
}

}  // namespace cli
