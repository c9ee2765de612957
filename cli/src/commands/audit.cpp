// dueward audit: whether the ledger is what was written, and a line to keep elsewhere that proves it later.

#include <CLI/CLI.hpp>
#include <algorithm>
#include <iostream>
#include <memory>
#include <thread>

#include "commands/audit_measures.h"
#include "commands/commands.h"
#include "ledger/audit.h"
#include "ledger_access.h"
#include "report/audit_report.h"
#include "report/layout.h"
#include "system/files.h"

namespace cli {

namespace {

struct AuditOptions : LedgerOptions {
  std::string kept;  ///< A checkpoint line from elsewhere.
};

// A ledger holds what patients told in confidence.
void warn_of_readers(const std::string& path) {
  if (!everyone_may_read(path)) return;
  std::cerr << wrapped("warning: everyone on this machine may read `" + path +
                       "`: `chmod o-rwx` it and its folder");
}

ExitCode verify(const AuditOptions& options) {
  std::optional<ledger::Checkpoint> kept;
  if (!options.kept.empty()) kept = require(ledger::parse_checkpoint(options.kept), ExitCode::wrong_usage);
  (void)open_ledger(options, ledger::Ledger::Access::read);  // says so when its tables are made anew
  warn_of_readers(ledger_path(options));
  const auto report = from_ledger(ledger::verify(ledger_path(options), kept));
  const ExitCode code = print(report, sound_words(report, kept), options.json);
  if (!options.json && report.accounts == 0)
    std::cout << "no account is named: whoever can open the file may do everything (`accounts name`)\n";
  return code;
}

ExitCode replay(const AuditOptions& options) {
  const ledger::Ledger ledger = open_ledger(options, ledger::Ledger::Access::read);
  const auto report = from_ledger(ledger::replay(ledger, std::max(1U, std::thread::hardware_concurrency())));
  return print(report, "sound: " + std::to_string(report.advices) + " answers came out again, byte for byte",
               options.json);
}

ExitCode checkpoint(const AuditOptions& options) {
  ledger::Ledger ledger = open_ledger(options, ledger::Ledger::Access::write);
  const UnitClock clock = clock_of(options);
  std::cout << ledger::text_of(from_ledger(ledger::issue_checkpoint(ledger, author_of(options, clock))))
            << '\n';
  return ExitCode::done;
}

}  // namespace

void add_audit(CLI::App& program, Run& run) {
  CLI::App* audit = program.add_subcommand("audit", "Whether the ledger is what was written");
  audit->require_subcommand(1);

  const auto verify_options = std::make_shared<AuditOptions>();
  CLI::App* verifying =
      audit->add_subcommand("verify", "Check every entry, and every list against the entries");
  verifying
      ->add_option("--checkpoint", verify_options->kept,
                   "A line of `audit checkpoint` that was kept elsewhere")
      ->type_name("LINE");
  add_ledger_option(*verifying, *verify_options);
  add_json_option(*verifying, *verify_options);
  when_asked(*verifying, run, [verify_options] { return verify(*verify_options); });

  const auto replay_options = std::make_shared<AuditOptions>();
  CLI::App* replaying = audit->add_subcommand("replay", "Compute every past answer again and compare");
  add_ledger_option(*replaying, *replay_options);
  add_json_option(*replaying, *replay_options);
  when_asked(*replaying, run, [replay_options] { return replay(*replay_options); });

  const auto options = std::make_shared<AuditOptions>();
  CLI::App* issuing =
      audit->add_subcommand("checkpoint", "Print size and head hash: keep the line elsewhere");
  add_writing_options(*issuing, *options);
  add_json_option(*issuing, *options);
  when_asked(*issuing, run, [options] { return checkpoint(*options); });

  add_audit_measures(*audit, run);
}

}  // namespace cli
