// dueward demo: an invented unit, and a walk through it.

#include <CLI/CLI.hpp>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <memory>

#include "commands/commands.h"
#include "demo/dice.h"
#include "demo/people.h"
#include "demo/scenarios.h"
#include "demo/tour.h"
#include "demo/unit.h"
#include "ledger_access.h"
#include "report/caution.h"
#include "report/layout.h"
#include "system/files.h"

namespace cli {

namespace {

namespace fs = std::filesystem;

struct DemoOptions : LedgerOptions {
  int patients = 300;
};

std::string new_folder() {
  std::string folder = (fs::temp_directory_path() / "dueward-demo-XXXXXX").string();
  if (::mkdtemp(folder.data()) == nullptr) {
    throw Failure{ExitCode::unreadable_input,
                  {system_error("unwritable_folder", "cannot be made", folder, errno)}};
  }
  return folder;
}

// The newcomer's first record: one polyp over 10 mm and a small one.
std::string example_record(const engine::Date& today) {
  Dice dice(7);
  People people(dice);
  nlohmann::json record = {{"patient", people.next(61, today)},
                           {"exam", examination(Findings::several_with_a_large_one, "E1", today, dice)}};
  return record.dump(2) + "\n";
}

// As the newcomer typed it.
std::string called_as() {
  std::ifstream words("/proc/self/cmdline");
  std::string first;
  std::getline(words, first, '\0');
  return first.empty() ? "dueward" : first;
}

// The unit is invented, and so is its choice: nothing is guessed for a real one.
ledger::Protocol demo_protocol(DemoOptions options) {
  if (options.ruleset_ids.empty() && options.protocol.empty()) options.ruleset_ids = {"uk-2020"};
  return named_protocol(options);
}

ExitCode demonstrate(const DemoOptions& options) {
  const engine::Date today = today_of(options);
  const ledger::Protocol protocol = demo_protocol(options);
  const std::string path = options.ledger.empty() ? new_folder() + "/unit.ledger" : options.ledger;
  const fs::path folder = fs::absolute(path).parent_path();
  require(make_folder(folder), ExitCode::unreadable_input);
  ledger::Ledger ledger = from_ledger(ledger::Ledger::create(path));
  const DemoUnit unit = from_ledger(play_demo_unit(ledger, protocol, today, options.patients));
  const fs::path record = fs::path(path).parent_path() / "record.json";
  require(write_atomically(record, example_record(today)), ExitCode::unreadable_input);

  std::cout << wrapped("An invented unit: " + std::to_string(unit.patients) + " patients who do not exist, " +
                       std::to_string(unit.signatures) + " signed decisions, " +
                       std::to_string(unit.refused) + " records that were refused. Ledger: " + path);
  walk({called_as(), path, record.string(), protocol.front().ruleset->about.id, unit.exam_to_sign, today});
  std::cout << caution << '\n';
  return ExitCode::done;
}

}  // namespace

void add_demo(CLI::App& program, Run& run) {
  const auto options = std::make_shared<DemoOptions>();
  CLI::App* command =
      program.add_subcommand("demo", "An invented unit with its patients, and a walk through it");
  command->add_option("--patients", options->patients, "About how many")
      ->check(CLI::Range(1, 100'000))
      ->type_name("NUMBER");
  command->add_option("--ledger", options->ledger, "File of the new ledger; left out: a new folder")
      ->type_name("FILE");  // never DUEWARD_LEDGER: that one is real
  add_today_option(*command, *options);
  add_guideline_options(*command, *options);
  when_asked(*command, run, [options] { return demonstrate(*options); });
}

}  // namespace cli
