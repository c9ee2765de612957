#include "ledger_access.h"

#include <pwd.h>
#include <unistd.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <filesystem>
#include <iostream>
#include <nlohmann/json.hpp>
#include <string_view>

#include "ledger/kind.h"
#include "ledger/protocol.h"
#include "report/layout.h"
#include "rulesets_folder.h"
#include "system/clock.h"

namespace cli {

namespace {

using ledger::Ledger;
using nlohmann::json;

struct CodeMeaning {
  std::string_view code;
  ExitCode means;
};

// What is not here is wrong usage.
constexpr CodeMeaning meanings[] = {
    {"ledger_missing", ExitCode::ledger_fault},
    {"not_a_ledger", ExitCode::ledger_fault},
    {"newer_ledger", ExitCode::ledger_fault},
    {"older_ledger", ExitCode::ledger_fault},
    {"ledger_read_only", ExitCode::ledger_fault},
    {"ledger_locked", ExitCode::ledger_fault},
    {"disk_full", ExitCode::ledger_fault},
    {"ledger_damaged", ExitCode::ledger_fault},
    {"ledger_fault", ExitCode::ledger_fault},
    {"ledger_exists", ExitCode::ledger_fault},
    {"backup_not_sound", ExitCode::needs_a_person},
    {"ledger_not_sound", ExitCode::needs_a_person},
    {"file_exists", ExitCode::unreadable_input},
    {"file_not_written", ExitCode::unreadable_input},
    {"unwritable_output", ExitCode::unreadable_input},
    {"unreadable_file", ExitCode::unreadable_input},
    {"not_an_export", ExitCode::unreadable_input},
    {"newer_export", ExitCode::unreadable_input},
    {"not_an_export_line", ExitCode::unreadable_input},
    {"export_altered", ExitCode::unreadable_input},
    {"export_cut", ExitCode::unreadable_input},
};

void say_upgraded(const Ledger& ledger) {
  std::cerr << "the tables of `" << ledger.path()
            << "` were those of an earlier version: they were made anew from its entries; as it was before, "
               "it is kept as `"
            << ledger.kept_before_upgrade() << "`\n";
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

// Whether the terms in force are those that the protocol asks for. What it leaves to the rulesets, the unit
// may have settled.
bool are_asked_for(const Guidelines& guidelines, const ledger::ProtocolTerms& terms) {
  const json in_force = json::parse(terms.settings);
  const json asked = json::parse(from_ledger(ledger::settings_of(guidelines.settings)));
  for (const auto& [key, value] : asked.items()) {
    if (in_force.value(key, json()) != value) return false;
  }
  return guidelines.interval_end == terms.interval_end;
}

// Rulesets answer for one command; settings and clocks hold for the whole ledger, from the day on which a
// consultant adopts them. A protocol that asks for other ones must not seem to be followed.
void check_is_in_force(const Guidelines& guidelines, const ledger::ProtocolTerms& terms) {
  if (guidelines.protocol.empty() || are_asked_for(guidelines, terms)) return;
  const std::string& id = guidelines.protocol;
  fail(ExitCode::wrong_usage,
       {"protocol_not_in_force",
        "the protocol `" + id +
            "` asks for settings or an end of the window that are not in force in the ledger",
        {},
        "a consultant puts them in force with `dueward protocol adopt --protocol " + id +
            " --by NAME --reason TEXT`, and then nothing needs to be named"});
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

std::optional<std::string> clock_is_behind(const Ledger& ledger) {
  constexpr std::int64_t minute = 60'000;  // what a time server may put right
  std::string last;
  const auto head = ledger.checkpoint();
  if (!head || !ledger.each_entry(head->size, [&](const ledger::Entry& entry) { last = entry.at; }))
    return std::nullopt;  // what comes next will say so
  const std::int64_t now = utc_milliseconds();
  if (last <= ledger::text_of(ledger::Instant{now + minute})) return std::nullopt;
  return "the machine's clock is behind the ledger: it shows " + ledger::text_of(ledger::Instant{now}) +
         ", the last entry was written at " + last + ": check the clock, and which lists were made meanwhile";
}

void say_when_behind(const Ledger& ledger) {
  if (const auto words = clock_is_behind(ledger)) std::cerr << wrapped("warning: " + *words);
}

Ledger open_ledger(const CommonOptions& options, Ledger::Access access) {
  Ledger ledger = from_ledger(Ledger::open(ledger_path(options), access));
  if (!ledger.kept_before_upgrade().empty()) say_upgraded(ledger);
  if (access == Ledger::Access::write) say_when_behind(ledger);
  return ledger;
}

Ledger open_or_begin_ledger(const CommonOptions& options) {
  const std::string path = ledger_path(options);
  std::error_code ignored;
  const bool is_new = std::filesystem::file_size(path, ignored) == 0 || ignored;
  Ledger ledger = from_ledger(Ledger::open_or_create(path));
  if (!ledger.kept_before_upgrade().empty()) say_upgraded(ledger);
  if (is_new) std::cerr << "a new ledger was begun: `" << path << "`\n";
  return ledger;
}

ledger::Protocol named_protocol(const GuidelineOptions& options, const ledger::ProtocolTerms& terms) {
  Guidelines guidelines = named_guidelines(options);
  check_is_in_force(guidelines, terms);
  ledger::Protocol protocol;
  for (RulesetFile& file : guidelines.rulesets)
    protocol.push_back({std::move(file.ruleset), std::move(file.bytes)});
  return protocol;
}

ledger::Protocol protocol_of(const LedgerOptions& options, const Ledger& ledger) {
  const auto adopted = from_ledger(ledger::protocol_in_force(ledger, clock_of(options).today()));
  ledger::Protocol protocol = named_protocol(options, adopted ? adopted->terms : ledger::ProtocolTerms{});
  if (!protocol.empty()) return protocol;
  if (adopted) return from_ledger(ledger::rulesets_of(ledger, *adopted));
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
  for (const CodeMeaning& meaning : meanings) {
    if (meaning.code == errors.front().code) return meaning.means;
  }
  return ExitCode::wrong_usage;
}

}  // namespace cli
