// dueward audit: whether the ledger is what was written, and a line to keep elsewhere that proves it later.

#include <CLI/CLI.hpp>
#include <iostream>
#include <memory>
#include <nlohmann/json.hpp>

#include "commands/audit_measures.h"
#include "commands/commands.h"
#include "engine/canonical.h"
#include "ledger/audit.h"
#include "ledger_access.h"
#include "report/layout.h"

namespace cli {

namespace {

struct AuditOptions : LedgerOptions {
  std::string kept;  ///< A checkpoint line from elsewhere.
};

ExitCode print(const ledger::AuditReport& report, const std::string& sound, bool as_json) {
  if (as_json) {
    nlohmann::json faults = nlohmann::json::array();
    for (const ledger::AuditFault& fault : report.faults) {
      faults.push_back({{"entry", fault.entry}, {"where", fault.where}, {"what", fault.what}});
    }
    std::cout << engine::canonical_json({{"checkpoint", ledger::text_of(report.checkpoint)},
                                         {"advices", report.advices},
                                         {"accounts", report.accounts},
                                         {"faults", std::move(faults)}})
              << '\n';
  } else {
    for (const ledger::AuditFault& fault : report.faults) {
      const std::string place =
          fault.entry == 0 ? fault.where : fault.where + ", entry " + std::to_string(fault.entry);
      std::cout << wrapped("fault: " + place + ": " + fault.what, 2);
    }
    if (report.faults.empty()) {
      std::cout << sound << '\n';
    } else {
      std::cout << report.faults.size() << (report.faults.size() == 1 ? " fault\n" : " faults\n");
    }
    std::cout << ledger::text_of(report.checkpoint) << '\n';
  }
  return report.faults.empty() ? ExitCode::done : ExitCode::needs_a_person;
}

ExitCode verify(const AuditOptions& options) {
  std::optional<ledger::Checkpoint> kept;
  if (!options.kept.empty()) kept = require(ledger::parse_checkpoint(options.kept), ExitCode::wrong_usage);
  const auto report = from_ledger(ledger::verify(ledger_path(options), kept));
  const std::string since = kept ? ", and continues from entry " + std::to_string(kept->size) : "";
  const ExitCode code =
      print(report, "sound: " + std::to_string(report.checkpoint.size) + " entries, none altered" + since,
            options.json);
  if (!options.json && report.accounts == 0)
    std::cout << "no account is named: whoever can open the file may do everything (`accounts name`)\n";
  return code;
}

ExitCode replay(const AuditOptions& options) {
  const ledger::Ledger ledger = open_ledger(options, ledger::Ledger::Access::read);
  const auto report = from_ledger(ledger::replay(ledger));
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
