// dueward forecast: how many examinations fall due, month by month; dueward census: how many were open, late
// and closed at each month's end.

#include <CLI/CLI.hpp>
#include <iostream>
#include <memory>

#include "commands/commands.h"
#include "forecast/pages.h"
#include "ledger/forecast.h"
#include "ledger_access.h"
#include "lists/census.h"
#include "lists/frame.h"

namespace cli {

namespace {

struct ForecastOptions : LedgerOptions {
  std::uint32_t months = 60;
  int non_attendance = 0;
  std::string format = "text";
};

ExitCode forecast(const ForecastOptions& options) {
  const ledger::Ledger ledger = open_ledger(options, ledger::Ledger::Access::read);
  const engine::Date today = today_of(options);
  ForecastPage page;
  page.forecast = from_ledger(ledger::forecast(ledger, today, options.months));
  page.load = ledger::load_of(page.forecast, options.non_attendance / 100.0);
  page.non_attendance = options.non_attendance;
  WorkList stamped;
  add_stamp(stamped, ledger, today);
  page.as_of = stamped.as_of;
  page.stamp = stamped.stamp;
  const std::string format = options.json ? "json" : options.format;
  std::cout << (format == "json"  ? json_of(page)
                : format == "csv" ? csv_of(page)
                : format == "svg" ? svg_of(page)
                                  : text_of(page));
  return ExitCode::done;
}

struct CensusOptions : LedgerOptions {
  std::uint32_t months = 12;
  std::string format = "text";
};

ExitCode census(const CensusOptions& options) {
  const ledger::Ledger ledger = open_ledger(options, ledger::Ledger::Access::read);
  const engine::Date today = today_of(options);
  CensusPage page;
  page.ends = from_ledger(ledger::month_ends(ledger, today, options.months));
  WorkList stamped;
  add_stamp(stamped, ledger, today);
  page.as_of = stamped.as_of;
  page.stamp = stamped.stamp;
  const std::string format = options.json ? "json" : options.format;
  std::cout << (format == "json" ? json_of(page) : format == "csv" ? csv_of(page) : text_of(page));
  return adds_up(page) ? ExitCode::done : ExitCode::needs_a_person;
}

}  // namespace

void add_forecast(CLI::App& program, Run& run) {
  const auto options = std::make_shared<ForecastOptions>();
  CLI::App* command = program.add_subcommand("forecast", "How many examinations fall due, month by month");
  command->add_option("--months", options->months, "How many months; left out: 60")
      ->check(CLI::Range(1, 240))
      ->type_name("N");
  command->add_option("--non-attendance", options->non_attendance, "Per cent of people who do not attend")
      ->check(CLI::Range(0, 90))
      ->type_name("PERCENT");
  command->add_option("--format", options->format, "text, csv, json or svg")
      ->type_name("FORMAT")
      ->check(CLI::IsMember({"text", "csv", "json", "svg"}));
  add_reading_options(*command, *options);
  add_json_option(*command, *options);
  when_asked(*command, run, [options] { return forecast(*options); });

  const auto counted = std::make_shared<CensusOptions>();
  CLI::App* counting = program.add_subcommand("census", "Open, due and late recalls at each month's end");
  counting->add_option("--months", counted->months, "How many months back; left out: 12")
      ->check(CLI::Range(1, 240))
      ->type_name("N");
  counting->add_option("--format", counted->format, "text, csv or json")
      ->type_name("FORMAT")
      ->check(CLI::IsMember({"text", "csv", "json"}));
  add_reading_options(*counting, *counted);
  add_json_option(*counting, *counted);
  when_asked(*counting, run, [counted] { return census(*counted); });
}

}  // namespace cli
