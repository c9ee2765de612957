// dueward people: deaths, moves, and two numbers that may be one person.

#include <CLI/CLI.hpp>
#include <iostream>
#include <memory>
#include <nlohmann/json.hpp>

#include "commands/commands.h"
#include "engine/canonical.h"
#include "ledger/people.h"
#include "ledger_access.h"
#include "report/layout.h"

namespace cli {

namespace {

struct PeopleOptions : LedgerOptions {
  std::string person, other;
  std::string on, clinician, reason;
};

std::string line_of(const ledger::PersonLine& person) {
  std::string line = person.person + "  " + (person.name.empty() ? "(no name)" : person.name) + ", born " +
                     person.birth_date;
  if (!person.sex.empty()) line += ", " + person.sex;
  return line + "; " + person.identifiers;
}

ExitCode duplicates(const PeopleOptions& options) {
  const ledger::Ledger ledger = open_ledger(options, ledger::Ledger::Access::read);
  const auto found = from_ledger(ledger::duplicates(ledger));
  for (const ledger::Duplicate& pair : found) {
    if (options.json) {
      std::cout << engine::canonical_json(
                       {{"first", pair.first.person}, {"second", pair.second.person}, {"why", pair.why}})
                << '\n';
    } else {
      std::cout << wrapped(line_of(pair.first), 2) << wrapped(line_of(pair.second), 2) << "  " << pair.why
                << "\n\n";
    }
  }
  if (options.json) return ExitCode::done;
  std::cout << found.size() << (found.size() == 1 ? " pair" : " pairs")
            << ". Next: a consultant decides each: `people merge` or `people apart`; nothing is joined by "
               "itself.\n";
  return ExitCode::done;
}

void print(const ledger::Merged& merged, const std::string& did) {
  std::cout << did << ", entry " << merged.entry << '\n';
  for (const std::string& note : merged.notes) std::cout << wrapped("  " + note, 2);
}

ExitCode merge(const PeopleOptions& options) {
  ledger::Ledger ledger = open_ledger(options, ledger::Ledger::Access::write);
  const ledger::Protocol protocol = protocol_of(options, ledger);
  const UnitClock clock = clock_of(options);
  const auto merged =
      from_ledger(ledger::merge_people(ledger, author_of(options, clock), protocol, options.person,
                                       options.other, {options.clinician, options.reason}));
  print(merged, merged.merged + " is merged into " + merged.survivor);
  return ExitCode::done;
}

ExitCode unmerge(const PeopleOptions& options) {
  ledger::Ledger ledger = open_ledger(options, ledger::Ledger::Access::write);
  const ledger::Protocol protocol = protocol_of(options, ledger);
  const UnitClock clock = clock_of(options);
  const auto merged = from_ledger(ledger::reverse_merge(ledger, author_of(options, clock), protocol,
                                                        options.person, {options.clinician, options.reason}));
  print(merged, merged.merged + " and " + merged.survivor + " are two people again");
  return ExitCode::done;
}

ExitCode tell_apart(const PeopleOptions& options) {
  ledger::Ledger ledger = open_ledger(options, ledger::Ledger::Access::write);
  const UnitClock clock = clock_of(options);
  from_ledger(ledger::tell_apart(ledger, author_of(options, clock), options.person, options.other,
                                 {options.clinician, options.reason}));
  std::cout << options.person << " and " << options.other << " are two people\n";
  return ExitCode::done;
}

using Leave = engine::Result<engine::Done> (*)(ledger::Ledger&, const ledger::Author&, const std::string&,
                                               const engine::Date&);

ExitCode leave(const PeopleOptions& options, Leave write, const char* what) {
  const engine::Date on = date_of("--on", options.on);
  ledger::Ledger ledger = open_ledger(options, ledger::Ledger::Access::write);
  const UnitClock clock = clock_of(options);
  from_ledger(write(ledger, author_of(options, clock), options.person, on));
  std::cout << options.person << ": " << what << ' ' << options.on
            << "; open recalls wait for a clinician under `dueward to-close`\n";
  return ExitCode::done;
}

using Return = engine::Result<std::vector<std::string>> (*)(ledger::Ledger&, const ledger::Author&,
                                                            const std::string&, const std::string&);

ExitCode come_back(const PeopleOptions& options, Return write, const char* what) {
  ledger::Ledger ledger = open_ledger(options, ledger::Ledger::Access::write);
  const UnitClock clock = clock_of(options);
  const auto closed = from_ledger(write(ledger, author_of(options, clock), options.person, options.reason));
  std::cout << options.person << ": " << what << '\n';
  for (const std::string& recall : closed) {
    std::cout << "  recall " << recall << " was closed since: `dueward recall reopen " << recall
              << "` opens it again\n";
  }
  return ExitCode::done;
}

/// A subcommand about one person.
CLI::App* add_about(CLI::App& people, const std::shared_ptr<PeopleOptions>& options, const char* name,
                    const char* purpose) {
  CLI::App* command = people.add_subcommand(name, purpose);
  command->add_option("person", options->person, "P17, an identifier, or system:value")
      ->required()
      ->type_name("ID");
  add_json_option(*command, *options);
  return command;
}

void add_decision(CLI::App& command, PeopleOptions& options) {
  command.add_option("--by,--clinician", options.clinician, "The clinician who decides")
      ->required()
      ->type_name("NAME");
  command.add_option("--reason", options.reason, "How it is known")->required()->type_name("TEXT");
}

void add_leave(CLI::App& people, Run& run, const char* name, const char* purpose, Leave write,
               const char* what) {
  const auto options = std::make_shared<PeopleOptions>();
  CLI::App* command = add_about(people, options, name, purpose);
  command->add_option("--on", options->on, "The day")->required()->type_name("YYYY-MM-DD");
  add_writing_options(*command, *options);
  when_asked(*command, run, [options, write, what] { return leave(*options, write, what); });
}

void add_return(CLI::App& people, Run& run, const char* name, const char* purpose, Return write,
                const char* what) {
  const auto options = std::make_shared<PeopleOptions>();
  CLI::App* command = add_about(people, options, name, purpose);
  command->add_option("--reason", options->reason, "How it is known")->required()->type_name("TEXT");
  add_writing_options(*command, *options);
  when_asked(*command, run, [options, write, what] { return come_back(*options, write, what); });
}

using Decide = ExitCode (*)(const PeopleOptions&);

void add_pair(CLI::App& people, Run& run, const char* name, const char* purpose, Decide decide,
              bool advises) {
  const auto options = std::make_shared<PeopleOptions>();
  CLI::App* command = add_about(people, options, name, purpose);
  command->add_option("other", options->other, "The other one")->required()->type_name("ID");
  add_decision(*command, *options);
  advises ? add_advising_options(*command, *options) : add_writing_options(*command, *options);
  when_asked(*command, run, [options, decide] { return decide(*options); });
}

}  // namespace

void add_people(CLI::App& program, Run& run) {
  CLI::App* people = program.add_subcommand("people", "Deaths, moves, and two numbers of one person");
  people->require_subcommand(1);

  const auto listing = std::make_shared<PeopleOptions>();
  CLI::App* list = people->add_subcommand("duplicates", "People who may be one: proposed, never joined");
  add_reading_options(*list, *listing);
  add_json_option(*list, *listing);
  when_asked(*list, run, [listing] { return duplicates(*listing); });

  add_pair(*people, run, "merge", "The other is the same person: everything follows the first", merge, true);
  const auto reversing = std::make_shared<PeopleOptions>();
  CLI::App* unmerging =
      add_about(*people, reversing, "unmerge", "They are two people: each has its own again");
  add_decision(*unmerging, *reversing);
  add_advising_options(*unmerging, *reversing);
  when_asked(*unmerging, run, [reversing] { return unmerge(*reversing); });
  add_pair(*people, run, "apart", "They look alike and are two people: not proposed again", tell_apart,
           false);

  add_leave(*people, run, "death", "Note a death: a clinician then closes the open recalls",
            ledger::report_death, "died");
  add_return(*people, run, "alive", "The death was noted in error", ledger::report_alive, "is alive");
  add_leave(*people, run, "moved", "Note a move away: a clinician then closes the open recalls",
            ledger::report_move_away, "moved away");
  add_return(*people, run, "back", "The person is back", ledger::report_move_back, "is back");
}

}  // namespace cli
