// dueward patient: all that the ledger holds about one person, oldest first; and what happened to them.

#include <CLI/CLI.hpp>
#include <iostream>
#include <memory>
#include <nlohmann/json.hpp>

#include "commands/commands.h"
#include "engine/canonical.h"
#include "ledger/patients.h"
#include "ledger_access.h"
#include "report/caution.h"
#include "report/layout.h"

namespace cli {

namespace {

struct PatientOptions : LedgerOptions {
  std::string person;
};

void print(const ledger::PersonLine& person) {
  std::cout << person.person << "  " << (person.name.empty() ? "(no name)" : person.name);
  if (!person.birth_date.empty()) std::cout << ", born " << person.birth_date;
  if (!person.sex.empty()) std::cout << ", " << person.sex;
  std::cout << '\n' << wrapped("  " + person.identifiers, 2);
  if (!person.needs.empty()) std::cout << wrapped("  needs: " + person.needs, 2);
  if (!person.status.empty()) std::cout << "  " << person.status << '\n';
}

std::string json_of(const ledger::PatientHistory& history) {
  const ledger::PersonLine& person = history.person;
  nlohmann::json entries = nlohmann::json::array();
  for (const ledger::Entry& entry : history.entries) {
    entries.push_back({{"sequence", entry.sequence},
                       {"at", entry.at},
                       {"actor", entry.actor},
                       {"kind", entry.kind},
                       {"subject", entry.subject},
                       {"body", nlohmann::json::parse(entry.body, nullptr, false)},
                       {"hash", engine::hexadecimal(entry.hash)}});
  }
  return engine::canonical_json({{"person", person.person},
                                 {"name", person.name},
                                 {"birth_date", person.birth_date},
                                 {"sex", person.sex},
                                 {"identifiers", person.identifiers},
                                 {"needs", person.needs},
                                 {"status", person.status},
                                 {"entries", std::move(entries)}});
}

ExitCode show(const PatientOptions& options) {
  const ledger::Ledger ledger = open_ledger(options, ledger::Ledger::Access::read);
  const auto history = from_ledger(ledger::history(ledger, options.person));
  if (options.json) {
    std::cout << json_of(history) << '\n';
    return ExitCode::done;
  }
  print(history.person);
  std::cout << '\n';
  for (const ledger::Entry& entry : history.entries) {
    const std::string number = std::to_string(entry.sequence);
    std::cout << wrapped(std::string(number.size() < 7 ? 7 - number.size() : 0, ' ') + number + "  " +
                             entry.at.substr(0, 10) + "  " + ledger::summary_of(entry) + " (" + entry.actor +
                             ")",
                         21);
  }
  std::cout << '\n' << caution << '\n';
  return ExitCode::done;
}

}  // namespace

void add_patient(CLI::App& program, Run& run) {
  const auto options = std::make_shared<PatientOptions>();
  CLI::App* command = program.add_subcommand("patient", "All that the ledger holds about one person");
  command->add_option("person", options->person, "P17, an identifier, or system:value")
      ->required()
      ->type_name("ID");
  add_reading_options(*command, *options);
  add_json_option(*command, *options);
  when_asked(*command, run, [options] { return show(*options); });
}

}  // namespace cli
