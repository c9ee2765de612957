// dueward restore: a backup is checked, and put where the ledger is.

#include "ledger/restore.h"

#include <CLI/CLI.hpp>
#include <iostream>
#include <memory>

#include "commands/commands.h"
#include "ledger_access.h"
#include "report/audit_report.h"
#include "report/layout.h"

namespace cli {

namespace {

struct RestoreOptions : LedgerOptions {
  std::string backup;
  std::string kept;  // a checkpoint line from elsewhere
  std::string aside;
  bool verify_only = false;
};

void say_older(const ledger::AuditReport& report, const std::string& what_then) {
  if (report.older_version == 0) return;
  std::cerr << wrapped("the tables of the backup are of an earlier version, " +
                       std::to_string(report.older_version) + ": " + what_then);
}

void say_aside(const ledger::Restored& restored, const RestoreOptions& options) {
  if (!restored.before) {
    std::cerr << wrapped("the ledger that was there is `" + options.aside + "`; it could not be read");
    return;
  }
  std::string text = "the ledger that was there is `" + options.aside + "`, " +
                     std::to_string(restored.before->size) + " entries";
  const std::uint64_t size = restored.report.checkpoint.size;
  if (restored.before->size > size) {
    text += ": " + std::to_string(restored.before->size - size) +
            " more than the backup; what they say is not in the ledger any more";
  }
  std::cerr << wrapped(text);
}

ExitCode check(const RestoreOptions& options, const std::optional<ledger::Checkpoint>& kept) {
  const auto report = from_ledger(ledger::check_backup(options.backup, kept));
  say_older(report, "they are not compared; they are made anew when it is restored");
  return print(report, sound_words(report, kept), options.json);
}

ExitCode restore(const RestoreOptions& options) {
  std::optional<ledger::Checkpoint> kept;
  if (!options.kept.empty()) kept = require(ledger::parse_checkpoint(options.kept), ExitCode::wrong_usage);
  if (options.verify_only) return check(options, kept);
  const std::string path = ledger_path(options);
  std::error_code ignored;
  const bool is_there = std::filesystem::exists(path, ignored);
  const auto restored = from_ledger(ledger::restore(options.backup, path, kept, options.aside));
  say_older(restored.report, "they were made anew");
  const ExitCode code =
      print(restored.report, "restored: `" + path + "`, " + sound_words(restored.report, kept), options.json);
  if (code != ExitCode::done) {
    std::cerr << "nothing was restored, and nothing moved\n";
  } else if (is_there) {
    say_aside(restored, options);
  }
  return code;
}

}  // namespace

void add_restore(CLI::App& program, Run& run) {
  const auto options = std::make_shared<RestoreOptions>();
  CLI::App* command = program.add_subcommand("restore", "Check a backup, and put it where the ledger is");
  command->add_option("backup", options->backup, "A file that `backup` wrote")
      ->required()
      ->type_name("BACKUP");
  command->add_flag("--verify", options->verify_only, "Only check it");
  command
      ->add_option("--checkpoint", options->kept,
                   "A line of `audit checkpoint` or `backup` that was kept elsewhere")
      ->type_name("LINE");
  command
      ->add_option("--aside", options->aside, "Where a ledger that is there is moved to; left out: refused")
      ->type_name("FILE");
  add_ledger_option(*command, *options);
  add_json_option(*command, *options);
  when_asked(*command, run, [options] { return restore(*options); });
}

}  // namespace cli
