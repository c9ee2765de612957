// dueward due, overdue, awaiting, unplanned, to-close, inputs: the work lists. Between them every examination
// and every recall that waits for someone.

#include <CLI/CLI.hpp>
#include <iostream>
#include <memory>

#include "commands/commands.h"
#include "ledger/reception.h"
#include "ledger_access.h"
#include "work_lists.h"

namespace cli {

namespace {

struct ListOptions : LedgerOptions {
  std::string from, to;
  std::string format = "text";
};

struct Request {
  const ledger::Ledger& ledger;
  engine::Date today;
  std::optional<engine::Date> from, to;
};

using Make = WorkList (*)(const Request&);

WorkList make_due(const Request& request) {
  return due_list(request.ledger, {request.from, request.to}, request.today);
}
WorkList make_overdue(const Request& request) {
  WorkList list = overdue_list(request.ledger, request.today);
  keep_between(list, "due", request.from, request.to);
  return list;
}
WorkList make_awaiting(const Request& request) {
  WorkList list = awaiting_list(request.ledger, request.today);
  keep_between(list, "since", request.from, request.to);
  return list;
}
WorkList make_unplanned(const Request& request) {
  WorkList list = unplanned_list(request.ledger, request.today);
  keep_between(list, "exam_date", request.from, request.to);
  return list;
}
WorkList make_to_close(const Request& request) {
  WorkList list = to_close_list(request.ledger, request.today);
  keep_between(list, "due", request.from, request.to);
  return list;
}
WorkList make_inputs(const Request& request) {
  return inputs_list(request.ledger, request.today);
}

ExitCode print(const ListOptions& options, Make make) {
  const ledger::Ledger ledger = open_ledger(options, ledger::Ledger::Access::read);
  Request request{ledger, today_of(options), {}, {}};
  if (!options.from.empty()) request.from = date_of("--from", options.from);
  if (!options.to.empty()) request.to = date_of("--to", options.to);
  const WorkList list = make(request);
  const bool as_json = options.json || options.format == "json";
  std::cout << (as_json ? json_of(list) : options.format == "csv" ? csv_of(list) : text_of(list));
  return ExitCode::done;
}

void add(CLI::App& program, Run& run, const char* name, const char* purpose, const char* range, Make make) {
  const auto options = std::make_shared<ListOptions>();
  CLI::App* command = program.add_subcommand(name, purpose);
  if (range != nullptr) {
    command->add_option("--from", options->from, std::string("First ") + range)->type_name("YYYY-MM-DD");
    command->add_option("--to", options->to, std::string("Last ") + range)->type_name("YYYY-MM-DD");
  }
  command->add_option("--format", options->format, "text, json or csv")
      ->type_name("FORMAT")
      ->check(CLI::IsMember({"text", "json", "csv"}));
  add_reading_options(*command, *options);
  add_json_option(*command, *options);
  when_asked(*command, run, [options, make] { return print(*options, make); });
}

struct SettleOptions : LedgerOptions {
  std::uint64_t entry = 0;
  std::string reason;
};

ExitCode settle(const SettleOptions& options) {
  ledger::Ledger ledger = open_ledger(options, ledger::Ledger::Access::write);
  const UnitClock clock = clock_of(options);
  from_ledger(ledger::settle_input(ledger, {actor_of(options), clock}, options.entry, options.reason));
  std::cout << "input " << options.entry << ": settled\n";
  return ExitCode::done;
}

}  // namespace

void add_lists(CLI::App& program, Run& run) {
  add(program, run, "due", "Who is due, and not yet late", "due date", make_due);
  add(program, run, "overdue", "Who is late", "due date", make_overdue);
  add(program, run, "awaiting", "Whose pathology has not come back", "day since when", make_awaiting);
  add(program, run, "unplanned", "Examinations without an outcome", "day of examination", make_unplanned);
  add(program, run, "to-close", "Recalls of people who died or moved away", "due date", make_to_close);
  add(program, run, "inputs", "Records and results that wait for a person", nullptr, make_inputs);

  const auto options = std::make_shared<SettleOptions>();
  CLI::App* command =
      program.add_subcommand("settle", "Take an input off the list of those that wait for a person");
  command->add_option("entry", options->entry, "Its number on `dueward inputs`")
      ->required()
      ->type_name("ENTRY");
  command->add_option("--reason", options->reason, "What was done with it")->required()->type_name("TEXT");
  add_writing_options(*command, *options);
  add_json_option(*command, *options);
  when_asked(*command, run, [options] { return settle(*options); });
}

}  // namespace cli
