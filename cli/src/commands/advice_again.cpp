#include "commands/advice_again.h"

#include <iostream>
#include <memory>
#include <nlohmann/json.hpp>

#include "engine/canonical.h"
#include "ledger/advising.h"
#include "ledger_access.h"
#include "named_examinations.h"
#include "report/caution.h"
#include "report/errors.h"
#include "report/layout.h"

namespace cli {

namespace {

using nlohmann::json;

struct AgainOptions : LedgerOptions {
  std::vector<std::string> exams;
  std::string file;
};

/// What became of one examination: advised again, left as it stands, or not known.
struct Outcome {
  std::string exam;
  ledger::AdvisedAgain advised;
  engine::Errors errors;
};

json json_of(const Outcome& outcome) {
  if (!outcome.errors.empty())
    return {{"exam", outcome.exam}, {"errors", json::parse(cli::json_of(outcome.errors)).at("errors")}};
  const ledger::AdvisedAgain& advised = outcome.advised;
  json line = {{"exam", advised.exam},
               {"person", advised.person},
               {"advice", advised.advice == 0 ? json() : json(advised.advice)},
               {"notes", advised.notes}};
  if (!advised.answers.empty())
    line["answer"] = json::parse(engine::json_of(advised.answers[advised.chosen]));
  return line;
}

std::string lines_of(const ledger::AdvisedAgain& advised) {
  std::string text = advised.exam + ": ";
  if (advised.advice == 0) {
    text += "unchanged\n";
  } else {
    const engine::Advice& answer = advised.answers[advised.chosen];
    text += "advice " + std::to_string(advised.advice) + ": " + std::string(engine::text_of(answer.state));
    if (answer.action) text += ", " + std::string(engine::text_of(*answer.action));
    if (answer.due) text += ", due " + engine::text_of(answer.due->from);
    text += " (" + answer.ruleset + ")\n";
  }
  for (const std::string& note : advised.notes) text += wrapped("  " + note, 2);
  return text;
}

/// Those of the command line and of the file; without either, all without an outcome that other rules
/// answered.
std::vector<NamedExamination> asked_about(const AgainOptions& options, const ledger::Ledger& ledger,
                                          const ledger::Protocol& protocol) {
  std::vector<std::string> exams = options.exams;
  if (exams.empty() && options.file.empty())
    exams = from_ledger(ledger::answered_by_other_rulesets(ledger, protocol));
  std::vector<NamedExamination> named;
  for (const std::string& exam : exams) named.push_back({{}, exam, 0, {}});
  if (options.file.empty()) return named;
  for (NamedExamination& one : examinations_named_in(options.file)) named.push_back(std::move(one));
  return named;
}

Outcome ask(ledger::Ledger& ledger, const ledger::Author& author, const ledger::Protocol& protocol,
            const NamedExamination& named) {
  Outcome outcome{named.exam, {}, named.errors};
  if (!outcome.errors.empty()) return outcome;
  auto advised = ledger::advise_again(ledger, author, protocol, named.exam);
  if (advised) {
    outcome.advised = std::move(*advised);
    return outcome;
  }
  outcome.errors = advised.errors();
  if (outcome.errors.front().code != "unknown_exam") throw Failure{code_of(outcome.errors), outcome.errors};
  if (!named.place.source.empty()) outcome.errors.front().place = named.place;
  return outcome;
}

void print_summary(const std::vector<Outcome>& outcomes) {
  std::size_t anew = 0, unchanged = 0, refused = 0;
  for (const Outcome& outcome : outcomes)
    ++(!outcome.errors.empty() ? refused : outcome.advised.advice == 0 ? unchanged : anew);
  if (outcomes.empty()) {
    std::cout << "Every answer that is to be signed is by the rules in force.\n";
  } else {
    std::cout << outcomes.size() << " named, " << anew << " advised anew, " << unchanged << " unchanged, "
              << refused << " refused.\n";
  }
  if (anew > 0)
    std::cout << wrapped(
        "What was advised anew waits under `dueward unplanned`; what is settled of it under `dueward "
        "to-sign`, "
        "whose JSON `dueward advice sign-batch` takes once a consultant has looked at each.");
  std::cout << caution << '\n';
}

ExitCode advise_again(const AgainOptions& options) {
  ledger::Ledger ledger = open_ledger(options, ledger::Ledger::Access::write);
  const ledger::Protocol protocol = protocol_of(options, ledger);
  const UnitClock clock = clock_of(options);
  const ledger::Author author = author_of(options, clock);
  std::vector<Outcome> outcomes;
  bool refused = false;
  for (const NamedExamination& named : asked_about(options, ledger, protocol)) {
    const Outcome& outcome = outcomes.emplace_back(ask(ledger, author, protocol, named));
    refused = refused || !outcome.errors.empty();
    if (options.json) {
      std::cout << engine::canonical_json(json_of(outcome)) << '\n';
    } else if (outcome.errors.empty()) {
      std::cout << lines_of(outcome.advised);
    } else {
      std::cerr << text_of(outcome.errors);
    }
  }
  if (!options.json) print_summary(outcomes);
  return refused ? ExitCode::needs_a_person : ExitCode::done;
}

}  // namespace

void add_advice_again(CLI::App& advice, Run& run) {
  CLI::App* again = advice.add_subcommand("again", "Ask the rules in force again, when others had answered");
  const auto options = std::make_shared<AgainOptions>();
  again
      ->add_option("exam", options->exams,
                   "Ids of examinations; left out: all without an outcome that others had answered")
      ->type_name("EXAM");
  again
      ->add_option(
          "--named-in", options->file,
          "The examinations that a file names: the JSON of a list such as `revet`, or one object a line")
      ->type_name("FILE");
  add_advising_options(*again, *options);
  add_json_option(*again, *options);
  when_asked(*again, run, [options] { return advise_again(*options); });
}

}  // namespace cli
