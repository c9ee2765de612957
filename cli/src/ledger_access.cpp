#include "ledger_access.h"

#include <pwd.h>
#include <unistd.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <filesystem>
#include <iostream>
#include <string_view>

#include "ledger/kind.h"
#include "ledger/protocol.h"
#include "rulesets_folder.h"
#include "system/clock.h"

namespace cli {

namespace {

using ledger::Ledger;

constexpr std::string_view ledger_faults[] = {
    "ledger_missing", "not_a_ledger", "newer_ledger",   "older_ledger", "ledger_read_only",
    "ledger_locked",  "disk_full",    "ledger_damaged", "ledger_fault", "ledger_exists"};

void say_upgraded(const Ledger& ledger) {
  std::cerr << "the tables of `" << ledger.path()
            << "` were those of an earlier version: they were made anew from its entries\n";
}

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

// The only current ruleset of the folder; none when there are several or none.
std::optional<std::string> only_current_ruleset(const std::filesystem::path& folder) {
  std::optional<std::string> only;
  for (const std::string& id : ruleset_ids(folder)) {
    if (read_ruleset(folder, id).ruleset->about.state != "current") continue;
    if (only) return std::nullopt;
    only = id;
  }
  return only;
}

// The ledger keeps records as they came and counts due dates from the start of the window: a protocol that
// asks for something else must not seem to be followed.
void check_is_served(const Guidelines& guidelines, const std::string& protocol) {
  std::string help;
  if (!guidelines.settings.empty()) help = "write the settings into each record, under `setting`";
  if (guidelines.interval_end != "from")
    help = "the ledger counts from the start of the window: `interval_end` `from`";
  if (help.empty()) return;
  fail(ExitCode::wrong_usage, {"protocol_not_served",
                               "the ledger cannot follow all that the protocol `" + protocol + "` asks for",
                               {},
                               help});
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
  add_guideline_options(command, options);
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

std::string account_of_caller() {
  const passwd* login = ::getpwuid(::geteuid());
  return login == nullptr ? "user " + std::to_string(::geteuid()) : login->pw_name;
}

ledger::Author author_of(const LedgerOptions& options, const ledger::Clock& clock) {
  const std::string account = account_of_caller();
  return {options.actor.empty() ? account : options.actor, clock, account};
}

std::string ledger_path(const CommonOptions& options) {
  if (!options.ledger.empty()) return options.ledger;
  fail(ExitCode::wrong_usage,
       {"no_ledger", "no ledger is named", {}, "name its file with `--ledger FILE` or in DUEWARD_LEDGER"});
}

Ledger open_ledger(const CommonOptions& options, Ledger::Access access) {
  Ledger ledger = from_ledger(Ledger::open(ledger_path(options), access));
  if (ledger.upgraded()) say_upgraded(ledger);
  return ledger;
}

Ledger open_or_begin_ledger(const CommonOptions& options) {
  const std::string path = ledger_path(options);
  std::error_code ignored;
  const bool is_new = !std::filesystem::exists(path, ignored);
  Ledger ledger = from_ledger(Ledger::open_or_create(path));
  if (ledger.upgraded()) say_upgraded(ledger);
  if (is_new) std::cerr << "a new ledger was begun: `" << path << "`\n";
  return ledger;
}

ledger::Protocol named_protocol(const GuidelineOptions& options) {
  Guidelines guidelines = named_guidelines(options);
  check_is_served(guidelines, options.protocol);
  ledger::Protocol protocol;
  for (RulesetFile& file : guidelines.rulesets)
    protocol.push_back({std::move(file.ruleset), std::move(file.bytes)});
  return protocol;
}

ledger::Protocol protocol_of(const LedgerOptions& options, const Ledger& ledger) {
  ledger::Protocol protocol = named_protocol(options);
  if (!protocol.empty()) return protocol;
  if (const auto adopted = from_ledger(ledger::protocol_in_force(ledger, clock_of(options).today())))
    return from_ledger(ledger::rulesets_of(ledger, *adopted));
  std::vector<std::string> ids = rulesets_used_before(ledger);
  if (ids.empty()) {
    const auto only = only_current_ruleset(rulesets_folder(options));
    if (!only) fail_without_guideline();
    ids.push_back(*only);
  }
  for (const std::string& id : ids) {
    RulesetFile file = ruleset_by(options, id);
    protocol.push_back({std::move(file.ruleset), std::move(file.bytes)});
  }
  return protocol;
}

ExitCode code_of(const engine::Errors& errors) {
  const bool is_fault = std::find(std::begin(ledger_faults), std::end(ledger_faults), errors.front().code) !=
                        std::end(ledger_faults);
  return is_fault ? ExitCode::ledger_fault : ExitCode::wrong_usage;
}

}  // namespace cli
