// dueward letter: letters are shown again, noted when they were made elsewhere, or withheld. Making them:
// letter_make.cpp.

#include <CLI/CLI.hpp>
#include <iostream>
#include <memory>

#include "commands/commands.h"
#include "commands/letter_make.h"
#include "ledger/letters.h"
#include "ledger_access.h"
#include "system/files.h"

namespace cli {

namespace {

struct LetterOptions : LedgerOptions {
  std::string exam, letter, recipient, file, reason;
  std::uint64_t entry = 0;
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

ExitCode show(const LetterOptions& options) {
  const ledger::Ledger ledger = open_ledger(options, ledger::Ledger::Access::read);
  std::cout << from_ledger(ledger::letter_text(ledger, options.entry));
  return ExitCode::done;
}

ExitCode withhold(const LetterOptions& options) {
  ledger::Ledger ledger = open_ledger(options, ledger::Ledger::Access::write);
  const UnitClock clock = clock_of(options);
  const ledger::LetterKey key{options.exam, options.letter, options.recipient};
  const auto entry =
      from_ledger(ledger::withhold_letter(ledger, author_of(options, clock), key, options.reason));
  std::cout << key.exam << ": " << key.letter << " to " << key.recipient << " will not be sent, entry "
            << entry << '\n';
  return ExitCode::done;
}

void add_key(CLI::App& command, LetterOptions& options) {
  command.add_option("--letter", options.letter, "result, discharge, invitation, reminder")
      ->required()
      ->type_name("NAME");
  command.add_option("--to", options.recipient, "patient, family doctor")->required()->type_name("NAME");
}

void add_show(CLI::App& letter, Run& run) {
  const auto options = std::make_shared<LetterOptions>();
  CLI::App* command = letter.add_subcommand("show", "Print a letter again as it went out");
  command->add_option("entry", options->entry, "Its entry")->required()->type_name("ENTRY");
  add_reading_options(*command, *options);
  add_json_option(*command, *options);
  when_asked(*command, run, [options] { return show(*options); });
}

void add_note(CLI::App& letter, Run& run) {
  const auto options = std::make_shared<LetterOptions>();
  CLI::App* command = letter.add_subcommand("note", "Keep what a letter said that was made elsewhere");
  command->add_option("exam", options->exam, "The examination's id")->required()->type_name("EXAM");
  command->add_option("file", options->file, "The letter; - is standard input")
      ->required()
      ->type_name("FILE");
  add_key(*command, *options);
  add_writing_options(*command, *options);
  add_json_option(*command, *options);
  when_asked(*command, run, [options] { return note(*options); });
}

void add_withhold(CLI::App& letter, Run& run) {
  const auto options = std::make_shared<LetterOptions>();
  CLI::App* command =
      letter.add_subcommand("withhold", "A letter that is owed will not be sent, for a reason");
  command->add_option("exam", options->exam, "The examination's id")->required()->type_name("EXAM");
  add_key(*command, *options);
  command->add_option("--reason", options->reason, "Why")->required()->type_name("TEXT");
  add_writing_options(*command, *options);
  add_json_option(*command, *options);
  when_asked(*command, run, [options] { return withhold(*options); });
}

}  // namespace

void add_letter(CLI::App& program, Run& run) {
  CLI::App* letter = program.add_subcommand("letter", "Letters to patients and family doctors");
  letter->require_subcommand(1);
  add_letter_make(*letter, run);
  add_show(*letter, run);
  add_note(*letter, run);
  add_withhold(*letter, run);
}

}  // namespace cli
