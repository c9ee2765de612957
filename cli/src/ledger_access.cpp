#include "ledger_access.h"

#include <pwd.h>
#include <unistd.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <filesystem>
#include <iostream>
#include <string_view>

#include "ledger/kind.h"
#include "rulesets_folder.h"
#include "system/clock.h"

namespace cli {

namespace {

using ledger::Ledger;

constexpr std::string_view ledger_faults[] = {"ledger_missing",   "not_a_ledger",  "newer_ledger",
                                              "ledger_read_only", "ledger_locked", "disk_full",
                                              "ledger_damaged",   "ledger_fault",  "ledger_exists"};

// `ruleset:uk-2020` of `ruleset installed` entries, each id once, in the order of the first.
std::vector<std::string> rulesets_used_before(const Ledger& ledger) {
  constexpr std::string_view prefix = "ruleset:";
  std::vector<std::string> ids;
  from_ledger(ledger.each_entry(1, [&](const ledger::Entry& entry) {
    if (entry.kind != ledger::text_of(ledger::Kind::ruleset_installed) || !entry.subject.starts_with(prefix))
      return;
    const std::string id = entry.subject.substr(prefix.size());
    if (std::find(ids.begin(), ids.end(), id) == ids.end()) ids.push_back(id);
  }));
  return ids;
}

std::vector<RulesetFile> current_rulesets(const std::filesystem::path& folder) {
  std::vector<RulesetFile> current;
  for (const std::string& id : ruleset_ids(folder)) {
    RulesetFile file = read_ruleset(folder, id);
    if (file.ruleset->about.state == "current") current.push_back(std::move(file));
  }
  return current;
}

}  // namespace

void add_reading_options(CLI::App& command, LedgerOptions& options) {
  add_ledger_option(command, options);
  add_today_option(command, options);
}

void add_writing_options(CLI::App& command, LedgerOptions& options) {
  add_reading_options(command, options);
  command.add_option("--actor", options.actor, "Who acts, as the ledger will name them")
      ->envname("DUEWARD_ACTOR")
      ->type_name("NAME");
}

void add_advising_options(CLI::App& command, LedgerOptions& options) {
  add_writing_options(command, options);
  command.add_option("--ruleset", options.ruleset_ids, "Id of a ruleset that the unit follows")
      ->envname("DUEWARD_RULESET")
      ->type_name("ID")
      ->expected(1)
      ->take_all();
  add_rulesets_option(command, options);
}

ledger::Instant UnitClock::now() const {
  return {utc_milliseconds()};
}

engine::Date UnitClock::today() const {
  return today_ ? *today_ : local_today();
}

UnitClock clock_of(const CommonOptions& options) {
  return UnitClock(options.today.empty() ? std::nullopt : std::optional(today_of(options)));
}

std::string actor_of(const LedgerOptions& options) {
  if (!options.actor.empty()) return options.actor;
  const passwd* login = ::getpwuid(::geteuid());
  return login == nullptr ? "user " + std::to_string(::geteuid()) : login->pw_name;
}

std::string ledger_path(const CommonOptions& options) {
  if (!options.ledger.empty()) return options.ledger;
  fail(ExitCode::wrong_usage,
       {"no_ledger", "no ledger is named", {}, "name its file with `--ledger FILE` or in DUEWARD_LEDGER"});
}

Ledger open_ledger(const CommonOptions& options, Ledger::Access access) {
  return from_ledger(Ledger::open(ledger_path(options), access));
}

Ledger open_or_begin_ledger(const CommonOptions& options) {
  const std::string path = ledger_path(options);
  std::error_code ignored;
  const bool is_new = !std::filesystem::exists(path, ignored);
  Ledger ledger = from_ledger(Ledger::open_or_create(path));
  if (is_new) std::cerr << "a new ledger was begun: `" << path << "`\n";
  return ledger;
}

ledger::Protocol protocol_of(const LedgerOptions& options, const Ledger& ledger) {
  const auto folder = rulesets_folder(options);
  std::vector<std::string> ids = options.ruleset_ids;
  if (ids.empty()) ids = rulesets_used_before(ledger);
  ledger::Protocol protocol;
  for (const std::string& id : ids) {
    RulesetFile file = read_ruleset(folder, id);
    protocol.push_back({std::move(file.ruleset), std::move(file.bytes)});
  }
  if (!protocol.empty()) return protocol;

  std::vector<RulesetFile> current = current_rulesets(folder);
  if (current.size() == 1) return {{std::move(current[0].ruleset), std::move(current[0].bytes)}};
  fail(ExitCode::wrong_usage,
       {"no_ruleset",
        "which guideline the unit follows is not said",
        {},
        "name it with `--ruleset ID` or in DUEWARD_RULESET; `dueward rulesets list` shows what there is"});
}

ExitCode code_of(const engine::Errors& errors) {
  const bool is_fault = std::find(std::begin(ledger_faults), std::end(ledger_faults), errors.front().code) !=
                        std::end(ledger_faults);
  return is_fault ? ExitCode::ledger_fault : ExitCode::wrong_usage;
}

}  // namespace cli
