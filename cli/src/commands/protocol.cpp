// dueward protocol: which guidelines, settings and clocks the unit goes by, from a day on.

#include "ledger/protocol.h"

#include <CLI/CLI.hpp>
#include <iostream>
#include <memory>
#include <nlohmann/json.hpp>

#include "commands/commands.h"
#include "engine/canonical.h"
#include "ledger_access.h"
#include "report/layout.h"

namespace cli {

namespace {

using nlohmann::json;

struct ProtocolOptions : LedgerOptions {
  ledger::NewProtocol protocol;
  std::string from;
  std::string interval_end;  ///< Empty: that of the preset, else `from`.
};

json json_of(const ledger::AdoptedProtocol& protocol) {
  json rulesets = json::array();
  for (const ledger::AdoptedRuleset& ruleset : protocol.rulesets) {
    rulesets.push_back({{"id", ruleset.id},
                        {"edition", ruleset.edition},
                        {"digest", ruleset.digest},
                        {"unverified", ruleset.unverified}});
  }
  const ledger::ProtocolTerms& terms = protocol.terms;
  return {{"entry", protocol.entry},
          {"from", engine::text_of(protocol.from)},
          {"clinician", protocol.clinician},
          {"reason", protocol.reason},
          {"rulesets", std::move(rulesets)},
          {"settings", json::parse(terms.settings)},
          {"interval_end", terms.interval_end},
          {"late_after_days", terms.late_after_days},
          {"age_limit", terms.age_limit},
          {"bands",
           {{"grey_below", terms.bands.grey_below},
            {"amber_over", terms.bands.amber_over},
            {"red_over", terms.bands.red_over}}}};
}

std::string settings_line(const ledger::ProtocolTerms& terms) {
  const json settings = json::parse(terms.settings);
  std::string line;
  for (const auto& [key, value] : settings.items()) {
    line += line.empty() ? "" : "; ";
    line += key + " " + (value.is_string() ? value.get<std::string>() : value.dump());
  }
  return line.empty() ? "as the rulesets have them" : line;
}

std::string text_of(const ledger::AdoptedProtocol& protocol) {
  std::string text = wrapped("from " + engine::text_of(protocol.from) + ", adopted by " + protocol.clinician +
                                 " (entry " + std::to_string(protocol.entry) + "): " + protocol.reason,
                             2);
  for (const ledger::AdoptedRuleset& ruleset : protocol.rulesets) {
    text += wrapped("  ruleset   " + ruleset.id + " " + ruleset.edition + "  " + ruleset.digest +
                        (ruleset.unverified ? "  unverified" : ""),
                    12);
  }
  const ledger::ProtocolTerms& terms = protocol.terms;
  text += wrapped("  settings  " + settings_line(terms), 12);
  text += "  due date  the " + std::string(terms.interval_end == "to" ? "end" : "start") +
          " of the window; late after " + std::to_string(terms.late_after_days) + " days\n";
  text += "  pathology grey below " + std::to_string(terms.bands.grey_below) + " days, amber over " +
          std::to_string(terms.bands.amber_over) + ", red over " + std::to_string(terms.bands.red_over) +
          "\n";
  return text + "  age       a clinician looks again at " + std::to_string(terms.age_limit) +
         " completed years\n";
}

ExitCode adopt(const ProtocolOptions& options) {
  Guidelines guidelines = named_guidelines(options);
  if (guidelines.rulesets.empty()) fail_without_guideline();
  ledger::NewProtocol protocol = options.protocol;
  protocol.unverified = options.unverified;
  protocol.settings.insert(protocol.settings.begin(), guidelines.settings.begin(), guidelines.settings.end());
  protocol.terms.interval_end = options.interval_end.empty() ? guidelines.interval_end : options.interval_end;
  const UnitClock clock = clock_of(options);
  protocol.from = options.from.empty() ? clock.today() : date_of("--from", options.from);
  ledger::Protocol rulesets;
  for (RulesetFile& file : guidelines.rulesets)
    rulesets.push_back({std::move(file.ruleset), std::move(file.bytes)});
  ledger::Ledger ledger = open_or_begin_ledger(options);
  const auto entry =
      from_ledger(ledger::adopt_protocol(ledger, author_of(options, clock), rulesets, protocol));
  std::cout << "protocol adopted, entry " << entry << ", in force from " << engine::text_of(protocol.from)
            << '\n';
  return ExitCode::done;
}

ExitCode show(const ProtocolOptions& options) {
  const ledger::Ledger ledger = open_ledger(options, ledger::Ledger::Access::read);
  const engine::Date today = clock_of(options).today();
  const auto in_force = from_ledger(ledger::protocol_in_force(ledger, today));
  if (options.json) {
    std::cout << engine::canonical_json(in_force ? json_of(*in_force) : json()) << '\n';
    return ExitCode::done;
  }
  std::cout << (in_force ? "In force on " : "No protocol is in force on ") << engine::text_of(today) << ".\n";
  if (in_force) std::cout << text_of(*in_force);
  for (const ledger::AdoptedProtocol& other : from_ledger(ledger::protocols(ledger))) {
    if (in_force && other.entry == in_force->entry) continue;
    std::cout << (today < other.from ? "\nTo come:\n" : "\nEarlier:\n") << text_of(other);
  }
  return ExitCode::done;
}

void add_terms(CLI::App& command, ProtocolOptions& options) {
  ledger::ProtocolTerms& terms = options.protocol.terms;
  command.add_option("--setting", options.protocol.settings, "A setting of the unit: nation=Scotland")
      ->type_name("KEY=VALUE");
  command
      .add_option("--interval-end", options.interval_end, "Which end of a window is the due date: from, to")
      ->type_name("END");
  command.add_option("--late-after", terms.late_after_days, "Days after the due date; left out: 42")
      ->type_name("DAYS");
  command.add_option("--age-limit", terms.age_limit, "Completed years at the due date; left out: 75")
      ->type_name("YEARS");
  command.add_option("--grey-below", terms.bands.grey_below, "Days that pathology is out; left out: 7")
      ->type_name("DAYS");
  command.add_option("--amber-over", terms.bands.amber_over, "Left out: 10")->type_name("DAYS");
  command.add_option("--red-over", terms.bands.red_over, "Left out: 14")->type_name("DAYS");
}

}  // namespace

void add_protocol(CLI::App& program, Run& run) {
  CLI::App* protocol =
      program.add_subcommand("protocol", "Which guidelines, settings and clocks the unit goes by");
  protocol->require_subcommand(1);

  const auto options = std::make_shared<ProtocolOptions>();
  CLI::App* adopting = protocol->add_subcommand("adopt", "A consultant adopts a protocol, from a day on");
  adopting->add_option("--from", options->from, "First day in force; left out: today")
      ->type_name("YYYY-MM-DD");
  adopting->add_option("--by,--clinician", options->protocol.clinician, "The consultant who adopts it")
      ->required()
      ->type_name("NAME");
  adopting->add_option("--reason", options->protocol.reason, "Why")->required()->type_name("TEXT");
  add_terms(*adopting, *options);
  add_advising_options(*adopting, *options);
  add_json_option(*adopting, *options);
  when_asked(*adopting, run, [options] { return adopt(*options); });

  const auto showing = std::make_shared<ProtocolOptions>();
  CLI::App* shown = protocol->add_subcommand("show", "The protocol in force, those before and those to come");
  add_reading_options(*shown, *showing);
  add_json_option(*shown, *showing);
  when_asked(*shown, run, [showing] { return show(*showing); });
}

}  // namespace cli
