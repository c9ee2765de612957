#include "commands/audit_measures.h"

#include <CLI/CLI.hpp>
#include <iostream>
#include <memory>

#include "ledger/lookback.h"
#include "ledger/measures.h"
#include "ledger_access.h"
#include "lists/frame.h"
#include "lists/people.h"
#include "measures/pages.h"
#include "report/formats.h"

namespace cli {

namespace {

struct PeriodOptions : LedgerOptions {
  std::string from, to;
  std::string format = "text";
};

struct MeasuresOptions : PeriodOptions {
  bool patients = false;
};

struct LookbackOptions : PeriodOptions {
  ledger::LookbackFilter filter;
};

ledger::Period period_of(const PeriodOptions& options) {
  ledger::Period period;
  if (!options.from.empty()) period.from = date_of("--from", options.from);
  if (!options.to.empty()) period.to = date_of("--to", options.to);
  return period;
}

std::string text_of(const ledger::Period& period) {
  if (!period.from && !period.to) return "all examinations";
  std::string text = period.from ? "from " + engine::text_of(*period.from) : "";
  if (period.to) text += (text.empty() ? "to " : " to ") + engine::text_of(*period.to);
  return text;
}

ExitCode measures(const MeasuresOptions& options) {
  const ledger::Ledger ledger = open_ledger(options, ledger::Ledger::Access::read);
  const engine::Date today = today_of(options);
  const ledger::Period period = period_of(options);
  MeasuresPage page;
  page.measures = from_ledger(ledger::measures(ledger, period, today));
  page.period = text_of(period);
  page.patients = options.patients ? Patients::shown : Patients::left_out;
  WorkList stamped;
  add_stamp(stamped, ledger, today);
  page.as_of = stamped.as_of;
  page.stamp = stamped.stamp;
  const std::string format = options.json ? "json" : options.format;
  std::cout << (format == "json" ? json_of(page) : format == "csv" ? csv_of(page) : text_of(page));
  return ExitCode::done;
}

WorkListRow row_of(const ledger::LookbackLine& line) {
  WorkListRow row;
  row.cells = {line.stands, line.outcome,  line.action,   line.due,        line.ruleset,
               line.rule,   line.reporter, line.reported, line.preparation};
  add_cells(row.cells, line.person);
  add_cells(row.cells, line.examination);
  const std::string reporter =
      line.reported.empty()
          ? ""
          : "reported " + line.reported + (line.reporter.empty() ? "" : " by " + line.reporter);
  const std::string outcome =
      line.outcome.empty() ? "no outcome"
                           : line.outcome + ": " + line.action +
                                 (line.rule.empty() ? "" : " (" + line.ruleset + " " + line.rule + ")");
  row.headline = padded(line.examination.exam, 10) + line.examination.date + "  " + who(line.person);
  row.details = {line.stands, joined({outcome, "preparation " + line.preparation, reporter}),
                 how_to_find(line.person), what_was_found(line.examination)};
  row.print = {print_lines(line.person),
               print_lines(line.examination),
               {line.stands},
               {outcome},
               {"preparation " + line.preparation, reporter}};
  return row;
}

WorkList list_of(std::vector<ledger::LookbackLine> lines, const LookbackOptions& options) {
  WorkList list;
  list.name = "lookback";
  list.title = "Lookback";
  list.meaning = "Examinations that match, and what stands for each patient now.";
  list.next =
      "the consultant decides for each patient; whom to call again is a new decision, signed by itself.";
  list.keys = keys_around(
      {"stands", "outcome", "action", "due", "ruleset", "rule", "reporter", "reported", "preparation"});
  list.columns = {"person", "examination", "what stands", "outcome", "preparation and report"};
  list.rows = rows_of(std::move(lines), [](const ledger::LookbackLine& line) { return row_of(line); });
  const ledger::LookbackFilter& filter = options.filter;
  for (const auto& [name, value] : {std::pair{"endoscopist ", filter.endoscopist},
                                    {"place ", filter.place},
                                    {"reporter ", filter.reporter},
                                    {"ruleset ", filter.ruleset},
                                    {"preparation ", filter.preparation}}) {
    if (!value.empty()) list.filters.push_back(name + value);
  }
  if (!options.from.empty()) list.filters.push_back("examined from " + options.from);
  if (!options.to.empty()) list.filters.push_back("examined to " + options.to);
  return list;
}

ExitCode lookback(LookbackOptions options) {
  const ledger::Ledger ledger = open_ledger(options, ledger::Ledger::Access::read);
  options.filter.period = period_of(options);
  WorkList list = list_of(from_ledger(ledger::lookback(ledger, options.filter)), options);
  add_stamp(list, ledger, today_of(options));
  write(std::cout, list, options.json ? "json" : options.format, Names::left_out);
  return ExitCode::done;
}

void add_period(CLI::App& command, PeriodOptions& options, const std::string& formats,
                const std::vector<std::string>& names) {
  command.add_option("--from", options.from, "First day of examination")->type_name("YYYY-MM-DD");
  command.add_option("--to", options.to, "Last day of examination")->type_name("YYYY-MM-DD");
  command.add_option("--format", options.format, formats)->type_name("FORMAT")->check(CLI::IsMember(names));
  add_reading_options(command, options);
  add_json_option(command, options);
}

}  // namespace

void add_audit_measures(CLI::App& audit, Run& run) {
  const auto options = std::make_shared<MeasuresOptions>();
  CLI::App* measuring = audit.add_subcommand("measures", "How well the unit does, in numbers");
  measuring->add_flag("--patients", options->patients, "Also the patients behind each number");
  add_period(*measuring, *options, "text, csv or json", {"text", "csv", "json"});
  when_asked(*measuring, run, [options] { return measures(*options); });

  const auto looked = std::make_shared<LookbackOptions>();
  CLI::App* looking = audit.add_subcommand("lookback", "Whom a fault concerns, and what stands for each");
  ledger::LookbackFilter& filter = looked->filter;
  looking->add_option("--endoscopist", filter.endoscopist, "Who examined")->type_name("NAME");
  looking->add_option("--place", filter.place, "Where")->type_name("NAME");
  looking->add_option("--reporter", filter.reporter, "Who reported the histology")->type_name("NAME");
  looking->add_option("--ruleset", filter.ruleset, "The ruleset that was signed")->type_name("ID");
  looking->add_option("--preparation", filter.preparation, "adequate, inadequate or not stated")
      ->type_name("TEXT")
      ->check(CLI::IsMember({"adequate", "inadequate", "not stated"}));
  add_period(*looking, *looked, "text, csv, html or json", {"text", "csv", "html", "json"});
  when_asked(*looking, run, [looked] { return lookback(*looked); });
}

}  // namespace cli
