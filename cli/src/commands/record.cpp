// dueward record, dueward result: examinations and histology into the ledger. Idempotent: what is known
// changes nothing. The two differ only in what a line holds.

#include <CLI/CLI.hpp>
#include <iostream>
#include <memory>
#include <vector>

#include "commands/commands.h"
#include "ledger_access.h"
#include "reception.h"
#include "system/files.h"

namespace cli {

namespace {

struct RecordOptions : LedgerOptions {
  std::vector<std::string> files;
};

void print(const std::string& source, const std::vector<ledger::Receipt>& receipts, bool as_json) {
  if (as_json) {
    for (const ledger::Receipt& receipt : receipts) std::cout << json_of(source, receipt) << '\n';
    return;
  }
  std::cout << summary_of(source, receipts) << '\n';
  for (const ledger::Receipt& receipt : receipts) {
    (needs_a_person(receipt) ? std::cerr : std::cout) << notes_of(receipt);
  }
}

ExitCode receive_all(const RecordOptions& options, Receive receive) {
  ledger::Ledger ledger = open_or_begin_ledger(options);
  say_when_behind(ledger);
  const ledger::Protocol protocol = protocol_of(options, ledger);
  const UnitClock clock = clock_of(options);
  const ledger::Author author = author_of(options, clock);
  ExitCode code = ExitCode::done;
  engine::Errors unreadable;
  for (const std::string& file : options.files) {
    const auto bytes = read_file(file);
    if (!bytes) {  // the others are not made to wait for it
      unreadable.insert(unreadable.end(), bytes.errors().begin(), bytes.errors().end());
      continue;
    }
    const std::string source = source_name(file);
    const auto receipts = from_ledger(receive(ledger, author, protocol, *bytes, source));
    print(source, receipts, options.json);
    for (const ledger::Receipt& receipt : receipts) {
      if (needs_a_person(receipt)) code = ExitCode::needs_a_person;
    }
  }
  if (!unreadable.empty()) throw Failure{ExitCode::unreadable_input, unreadable};
  return code;
}

void add(CLI::App& program, Run& run, const std::string& name, const std::string& purpose, Receive receive) {
  const auto options = std::make_shared<RecordOptions>();
  CLI::App* command = program.add_subcommand(name, purpose);
  command->add_option("file", options->files, "JSON, one a line; - is standard input")
      ->required()
      ->type_name("FILE");
  add_advising_options(*command, *options);
  add_json_option(*command, *options);
  when_asked(*command, run, [options, receive] { return receive_all(*options, receive); });
}

}  // namespace

void add_record(CLI::App& program, Run& run) {
  add(program, run, "record", "Examinations into the ledger, each with its advice", ledger::record);
}

void add_result(CLI::App& program, Run& run) {
  add(program, run, "result", "Histology into the ledger; the advice is given again", ledger::result);
}

}  // namespace cli
