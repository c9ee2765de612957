// dueward due, overdue, awaiting, ...: the work lists. Between them every examination and every recall that
// waits for someone.

#include <CLI/CLI.hpp>
#include <iostream>
#include <memory>

#include "commands/commands.h"
#include "ledger/reception.h"
#include "ledger_access.h"
#include "report/formats.h"
#include "work_lists.h"

namespace cli {

namespace {

struct ListOptions : LedgerOptions {
  std::string from, to, place;
  std::uint64_t limit = 0;
  std::string format = "text";
  bool names = false;
};

struct Request {
  const ledger::Ledger& ledger;
  engine::Date today;
  std::optional<engine::Date> from, to;
};

using Make = WorkList (*)(const Request&);

template <WorkList (*make)(const ledger::Ledger&, const engine::Date&)>
WorkList made(const Request& request) {
  return make(request.ledger, request.today);
}

WorkList make_due(const Request& request) {
  return due_list(request.ledger, {request.from, request.to}, request.today);
}
WorkList make_to_vet(const Request& request) {
  WorkList list = to_vet_list(request.ledger, request.to, request.today);
  keep_between(list, "due", request.from, {});
  return list;
}

/// A list as a command: `day` is the column that `--from` and `--to` speak of, empty where there is none.
struct Listing {
  const char* name;
  const char* purpose;
  Make make;
  std::string day = {};
  const char* what = "";       ///< The day in words, for the help.
  bool ranges_itself = false;  ///< The list has its own meaning of a range.
};

ExitCode print(const ListOptions& options, const Listing& listing) {
  const ledger::Ledger ledger = open_ledger(options, ledger::Ledger::Access::read);
  // Its rows, its counts and what stands on other lists are of one moment, whatever is entered meanwhile.
  const ledger::Moment moment = from_ledger(ledger.moment());
  Request request{ledger, today_of(options), {}, {}};
  if (!options.from.empty()) request.from = date_of("--from", options.from);
  if (!options.to.empty()) request.to = date_of("--to", options.to);
  WorkList list = listing.make(request);
  if (!listing.day.empty() && !listing.ranges_itself)
    keep_between(list, listing.day, request.from, request.to);
  if (!options.place.empty()) keep_where(list, "place", options.place);
  keep_first(list, options.limit);
  write(std::cout, list, options.json ? "json" : options.format,
        options.names ? Names::shown : Names::left_out);
  return ExitCode::done;
}

void add(CLI::App& program, Run& run, const Listing& listing) {
  const auto options = std::make_shared<ListOptions>();
  CLI::App* command = program.add_subcommand(listing.name, listing.purpose);
  if (!listing.day.empty()) {
    command->add_option("--from", options->from, std::string("First ") + listing.what)
        ->type_name("YYYY-MM-DD");
    command->add_option("--to", options->to, std::string("Last ") + listing.what)->type_name("YYYY-MM-DD");
    command->add_option("--place", options->place, "Only examinations at this place")->type_name("NAME");
  }
  command->add_option("--limit", options->limit, "The first so many rows; says of how many")
      ->check(CLI::PositiveNumber)
      ->type_name("N");
  command->add_option("--format", options->format, "text, json, csv, html or ics")
      ->type_name("FORMAT")
      ->check(CLI::IsMember({"text", "json", "csv", "html", "ics"}));
  command->add_flag("--names", options->names, "Name the people in `--format ics`");
  add_reading_options(*command, *options);
  add_json_option(*command, *options);
  when_asked(*command, run, [options, listing] { return print(*options, listing); });
}

struct SettleOptions : LedgerOptions {
  std::uint64_t entry = 0;
  std::string reason;
};

ExitCode settle(const SettleOptions& options) {
  ledger::Ledger ledger = open_ledger(options, ledger::Ledger::Access::write);
  const UnitClock clock = clock_of(options);
  from_ledger(ledger::settle_input(ledger, author_of(options, clock), options.entry, options.reason));
  std::cout << "input " << options.entry << ": settled\n";
  return ExitCode::done;
}

}  // namespace

void add_lists(CLI::App& program, Run& run) {
  for (const Listing& listing : {
           Listing{"due", "Who is due, and not yet late", make_due, "due", "due date", true},
           Listing{"overdue", "Who is late", made<overdue_list>, "due", "due date"},
           Listing{"awaiting", "Whose pathology has not come back", made<awaiting_list>, "since",
                   "day since when"},
           Listing{"unplanned", "Examinations without an outcome", made<unplanned_list>, "exam_date",
                   "day of examination"},
           Listing{"to-sign", "Settled answers that lack a signature", made<to_sign_list>, "exam_date",
                   "day of examination"},
           Listing{"to-vet", "Recalls that no clinician has confirmed", make_to_vet, "due", "due date", true},
           Listing{"no-reply", "Recalls whose invitations are used up", made<no_reply_list>, "due",
                   "due date"},
           Listing{"to-close", "Recalls that a clinician has to close", made<to_close_list>, "due",
                   "due date"},
           Listing{"letters", "Letters that are owed", made<letters_list>, "since",
                   "day of the signature or attempt"},
           Listing{"to-resend", "Letters that are not right any more", made<to_resend_list>, "issued_on",
                   "day of the letter"},
           Listing{"inputs", "Records and results that wait for a person", made<inputs_list>},
       }) {
    add(program, run, listing);
  }

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
