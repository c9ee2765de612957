#include "commands/advice_batch.h"

#include <iostream>
#include <map>
#include <memory>
#include <nlohmann/json.hpp>

#include "engine/canonical.h"
#include "ledger/signing.h"
#include "ledger_access.h"
#include "named_examinations.h"
#include "report/caution.h"
#include "report/errors.h"
#include "report/layout.h"

namespace cli {

namespace {

using nlohmann::json;

struct BatchOptions : LedgerOptions {
  std::string file;
  std::string clinician;
};

/// What became of one examination of the file.
struct Outcome {
  std::string exam;
  std::string what;  ///< `signed`, `signed before`, `refused`
  std::string told;  ///< What else a person should read.
  json more = json::object();
  engine::Errors errors;
};

/// Those of the file that can be acted on.
std::vector<ledger::SeenAdvice> readable(const std::vector<NamedExamination>& named) {
  std::vector<ledger::SeenAdvice> seen;
  for (const NamedExamination& one : named) {
    if (one.errors.empty()) seen.push_back({one.exam, one.advice});
  }
  return seen;
}

Outcome refused(const NamedExamination& named, engine::Errors errors) {
  for (engine::Error& error : errors) error.place = named.place;
  return {named.exam, "refused", "", json::object(), std::move(errors)};
}

Outcome outcome_of(const NamedExamination& named, const ledger::SignedInBatch& one) {
  if (one.what == ledger::SignedInBatch::What::refused) return refused(named, one.errors);
  if (one.what == ledger::SignedInBatch::What::signed_before)
    return {named.exam, "signed before", "advice " + std::to_string(named.advice), json::object(), {}};
  Outcome outcome{named.exam, "signed", "entry " + std::to_string(one.done.entry), json::object(), {}};
  if (!one.done.recall.empty()) outcome.told += ", recall " + one.done.recall;
  for (const std::string& note : one.done.notes) outcome.told += "; " + note;
  outcome.more = {{"entry", one.done.entry}, {"recall", one.done.recall}, {"notes", one.done.notes}};
  return outcome;
}

/// Each examination of the file with what became of it, in the order of the file.
std::vector<Outcome> outcomes_of(const std::vector<NamedExamination>& named,
                                 const std::vector<ledger::SignedInBatch>& done) {
  std::vector<Outcome> outcomes;
  auto next = done.begin();
  for (const NamedExamination& one : named)
    outcomes.push_back(one.errors.empty() ? outcome_of(one, *next++) : refused(one, one.errors));
  return outcomes;
}

json json_of(const std::vector<Outcome>& outcomes, const std::map<std::string, std::size_t>& counts) {
  json lines = json::array();
  for (const Outcome& outcome : outcomes) {
    json line = outcome.more;
    line["exam"] = outcome.exam;
    line["what"] = outcome.what;
    if (!outcome.errors.empty()) line["errors"] = json::parse(cli::json_of(outcome.errors)).at("errors");
    lines.push_back(std::move(line));
  }
  return {{"lines", std::move(lines)}, {"counts", counts}, {"caution", caution}};
}

ExitCode print(const BatchOptions& options, const std::vector<Outcome>& outcomes) {
  std::map<std::string, std::size_t> counts;
  for (const Outcome& outcome : outcomes) ++counts[outcome.what];
  if (options.json) {
    std::cout << engine::canonical_json(json_of(outcomes, counts)) << '\n';
  } else {
    for (const Outcome& outcome : outcomes) {
      if (outcome.errors.empty()) {
        std::cout << wrapped(outcome.exam + ": " + outcome.what + ": " + outcome.told, 2);
      } else {
        std::cerr << text_of(outcome.errors);
      }
    }
    std::string summary = std::to_string(outcomes.size()) + " named";
    for (const auto& [what, count] : counts) summary += ", " + std::to_string(count) + " " + what;
    std::cout << wrapped(summary + ".") << "Signed by " << options.clinician << ".\n" << caution << '\n';
  }
  return counts.contains("refused") ? ExitCode::needs_a_person : ExitCode::done;
}

ExitCode sign_batch(const BatchOptions& options) {
  const auto named = examinations_named_in(options.file);
  ledger::Ledger ledger = open_ledger(options, ledger::Ledger::Access::write);
  const UnitClock clock = clock_of(options);
  const auto done =
      from_ledger(ledger::sign_batch(ledger, author_of(options, clock), options.clinician, readable(named)));
  return print(options, outcomes_of(named, done));
}

}  // namespace

void add_advice_batch(CLI::App& advice, Run& run) {
  const auto options = std::make_shared<BatchOptions>();
  CLI::App* signing =
      advice.add_subcommand("sign-batch", "Sign exactly the advices that a reviewed file names");
  signing->add_option("file", options->file, "The JSON of a list, or one object a line; - is standard input")
      ->required()
      ->type_name("FILE");
  signing->add_option("--by", options->clinician, "The clinician who looked at each and answers for it")
      ->required()
      ->type_name("NAME");
  add_writing_options(*signing, *options);
  add_json_option(*signing, *options);
  when_asked(*signing, run, [options] { return sign_batch(*options); });
}

}  // namespace cli
