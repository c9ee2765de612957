// dueward revet: who would move, and which way, if other rulesets came into force. Changes nothing.

#include <CLI/CLI.hpp>
#include <algorithm>
#include <iostream>
#include <memory>
#include <thread>

#include "commands/commands.h"
#include "ledger/revet.h"
#include "ledger_access.h"
#include "lists/frame.h"
#include "lists/people.h"
#include "report/formats.h"
#include "system/clock.h"

namespace cli {

namespace {

struct RevetOptions : LedgerOptions {
  std::vector<std::string> to;
  std::uint32_t threads = 0;
  std::string format = "text";
};

std::string date_or_none(const std::optional<engine::Date>& date) {
  return date ? engine::text_of(*date) : "";
}

std::string step_of(const std::string& action, const std::optional<engine::Date>& due,
                    const std::string& ruleset, const std::string& rule) {
  return action + (due ? ", due " + engine::text_of(*due) : "") + " (" +
         (rule.empty() ? "decided otherwise" : ruleset + " " + rule) + ")";
}

// `17 months sooner` would hide a day: days are exact.
std::string shift_of(const ledger::RevetLine& line) {
  const std::string text(ledger::text_of(line.shift));
  return line.days == 0 ? text : days(std::abs(line.days)) + " " + (line.days < 0 ? "sooner" : "later");
}

WorkListRow row_of(const ledger::RevetLine& line, const ledger::RevetSubject& subject) {
  WorkListRow row;
  row.cells = {std::string(ledger::text_of(line.shift)),
               line.recall,
               line.days,
               line.action,
               date_or_none(line.due),
               line.ruleset,
               line.rule,
               line.new_state,
               line.new_action,
               date_or_none(line.new_due),
               line.new_ruleset,
               line.new_rule,
               line.because,
               std::string(ledger::text_of(line.risk))};
  add_cells(row.cells, subject.person);
  add_cells(row.cells, subject.examination);
  const std::string stands = step_of(line.action, line.due, line.ruleset, line.rule);
  const std::string new_action = line.new_action.empty() ? line.new_state : line.new_action;
  std::string becomes = step_of(new_action, line.new_due, line.new_ruleset, line.new_rule);
  if (line.new_state != "settled" && !line.new_action.empty()) becomes += ", " + line.new_state;
  row.headline = padded(std::string(ledger::text_of(line.shift)), 8) +
                 padded(line.recall.empty() ? "closed" : line.recall, 8) + padded(shift_of(line), 18) +
                 who(subject.person);
  row.details = {"stands: " + stands, "would be: " + becomes, line.because, how_to_find(subject.person),
                 what_was_found(subject.examination)};
  row.print = {print_lines(subject.person),
               {shift_of(line), line.recall.empty() ? "closed by rule" : line.recall},
               {stands},
               {becomes, line.because},
               print_lines(subject.examination)};
  return row;
}

WorkList list_of(const ledger::Ledger& ledger, ledger::Revetted found, const std::vector<std::string>& to) {
  WorkList list;
  list.name = "revet";
  std::string names;
  for (const std::string& id : to) names += (names.empty() ? "" : ", ") + id;
  list.title = "Who would move under " + names;
  list.meaning =
      "Every open recall, and every examination that a rule closed, advised on again. Nothing was changed: "
      "what stands, stands.";
  list.next =
      "the consultant looks at each. One moves at once by `dueward advice override EXAM --by NAME --action "
      "ACTION --from DAY --reason TEXT`. After the ruleset came into force (`dueward protocol adopt`), those "
      "whose rows are left in this list's JSON are advised anew (`dueward advice again --named-in FILE`), "
      "looked at under `dueward to-sign`, and signed (`dueward advice sign` or `sign-batch`).";
  list.keys = keys_around({"shift", "recall", "days", "action", "due", "ruleset", "rule", "new_state",
                           "new_action", "new_due", "new_ruleset", "new_rule", "because", "risk"});
  list.columns = {"person", "which way", "as it stands", "as it would be", "last examination"};
  list.rows = rows_of(std::move(found.moved), [&ledger](const ledger::RevetLine& line) {
    return row_of(line, from_ledger(ledger::subject_of(ledger, line)));
  });
  list.reconciliation = "Read " + std::to_string(found.read()) + ": ";
  for (std::size_t i = 0; i < found.counts.size(); ++i) {
    const std::string name(ledger::text_of(static_cast<ledger::Shift>(i)));
    list.counts.emplace_back(name, found.counts.at(i));
    list.reconciliation += (i == 0 ? "" : ", ") + name + " " + std::to_string(found.counts.at(i));
  }
  list.counts.emplace_back("read", found.read());
  list.reconciliation += ".";
  return list;
}

// How fast it went stands on standard error: it is about the machine, not about the patients.
void report_speed(std::uint64_t count, std::int64_t milliseconds, std::uint32_t threads) {
  if (milliseconds < 1000) return;
  const std::uint64_t rate = count * 1000 / static_cast<std::uint64_t>(milliseconds);
  std::cerr << count << " in " << milliseconds / 1000 << " s with " << threads << " threads: " << rate
            << " a second, " << rate / threads << " a second for each\n";
}

ExitCode revet(RevetOptions options) {
  const ledger::Ledger ledger = open_ledger(options, ledger::Ledger::Access::read);
  const engine::Date today = today_of(options);
  options.ruleset_ids = options.to;
  options.protocol.clear();
  const ledger::Protocol protocol = named_protocol(options);
  const std::uint32_t threads =
      options.threads != 0 ? options.threads : std::max(1U, std::thread::hardware_concurrency());
  const std::int64_t started = utc_milliseconds();
  auto found = from_ledger(ledger::revet(ledger, protocol, today, threads));
  report_speed(found.read(), utc_milliseconds() - started, threads);
  WorkList list = list_of(ledger, std::move(found), options.to);
  add_stamp(list, ledger, today);
  write(std::cout, list, options.json ? "json" : options.format, Names::left_out);
  return ExitCode::done;
}

}  // namespace

void add_revet(CLI::App& program, Run& run) {
  const auto options = std::make_shared<RevetOptions>();
  CLI::App* command = program.add_subcommand("revet", "Who would move if other rulesets came into force");
  command->add_option("--to", options->to, "The rulesets to try")->required()->type_name("ID...");
  command->add_option("--threads", options->threads, "Left out: one for each core")
      ->check(CLI::Range(1, 256))
      ->type_name("N");
  command->add_option("--format", options->format, "text, json, csv or html")
      ->type_name("FORMAT")
      ->check(CLI::IsMember({"text", "json", "csv", "html"}));
  command->add_flag("--unverified", options->unverified,
                    "Also with rulesets that the manifest does not name");
  add_rulesets_option(*command, *options);
  add_reading_options(*command, *options);
  add_json_option(*command, *options);
  when_asked(*command, run, [options] { return revet(*options); });
}

}  // namespace cli
