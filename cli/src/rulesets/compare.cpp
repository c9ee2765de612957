// dueward rulesets compare: which findings get another answer under another ruleset.

#include <CLI/CLI.hpp>
#include <iostream>
#include <memory>
#include <nlohmann/json.hpp>

#include "engine/canonical.h"
#include "report/caution.h"
#include "report/layout.h"
#include "rulesets/commands.h"
#include "rulesets/comparison.h"
#include "rulesets_folder.h"

namespace cli {

namespace {

struct CompareOptions : CommonOptions {
  std::string first, second;
  std::string format = "text";
};

std::string months_in_words(std::int64_t months) {
  const bool years = months % 12 == 0 && months != 0;
  const std::int64_t number = years ? months / 12 : months;
  return std::to_string(number) + (years ? " year" : " month") + (number == 1 ? "" : "s");
}

std::string words_of(const Outcome& outcome) {
  std::string words = outcome.answer;
  if (outcome.interval) {
    const std::string from = months_in_words(outcome.interval->from.count);
    words += outcome.interval->from == outcome.interval->to
                 ? ", " + from
                 : ", " + from + " to " + months_in_words(outcome.interval->to.count);
  }
  return words + (outcome.rule.empty() ? "" : " [" + outcome.rule + "]");
}

std::string title_of(Direction direction, const std::string& second) {
  switch (direction) {
    case Direction::sooner:
      return second + " asks for it sooner";
    case Direction::later:
      return second + " asks for it later";
    case Direction::stops:
      return second + " asks for no more";
    case Direction::starts:
      return second + " asks for an examination where the other asks for none";
    default:
      return "Another answer";
  }
}

std::string size_of(const Difference& difference) {
  if (difference.months == 0) return "";
  return ", " + months_in_words(std::abs(difference.months)) + (difference.months < 0 ? " sooner" : " later");
}

std::string text_of(const CompareOptions& options, const Comparison& comparison) {
  std::string text =
      wrapped(options.first + " and " + options.second + ": " + std::to_string(comparison.different) +
              " of " + std::to_string(comparison.records) + " records tried get another answer, in " +
              std::to_string(comparison.differences.size()) + " ways");
  const Difference* before = nullptr;
  for (const Difference& difference : comparison.differences) {
    if (before == nullptr || before->direction != difference.direction)
      text += "\n" + wrapped(title_of(difference.direction, options.second));
    before = &difference;
    text += wrapped("  " + difference.example, 4) +
            wrapped("      " + options.first + ": " + words_of(difference.first), 8) +
            wrapped("      " + options.second + ": " + words_of(difference.second) + size_of(difference), 8) +
            "      seen in " + std::to_string(difference.records) +
            (difference.records == 1 ? " record\n" : " records\n");
  }
  return text + "\n" +
         wrapped(
             "The records are made by the program at every number that the two rulesets write, and beside "
             "it: what "
             "is not listed was not found to differ, which is no proof that it never does.") +
         std::string(caution) + "\n";
}

nlohmann::json json_of(const Outcome& outcome) {
  nlohmann::json json{{"answer", outcome.answer}, {"rule", outcome.rule}, {"interval", nullptr}};
  if (outcome.interval) {
    json["interval"] = {{"from", engine::text_of(outcome.interval->from)},
                        {"to", engine::text_of(outcome.interval->to)}};
  }
  return json;
}

std::string json_of(const CompareOptions& options, const Comparison& comparison) {
  nlohmann::json differences = nlohmann::json::array();
  for (const Difference& difference : comparison.differences) {
    differences.push_back({{"direction", std::string(text_of(difference.direction))},
                           {"months", difference.months},
                           {"first", json_of(difference.first)},
                           {"second", json_of(difference.second)},
                           {"example", difference.example},
                           {"records", difference.records}});
  }
  return engine::canonical_json({{"first", options.first},
                                 {"second", options.second},
                                 {"records", comparison.records},
                                 {"different", comparison.different},
                                 {"differences", std::move(differences)}}) +
         "\n";
}

ExitCode compare_two(const CompareOptions& options) {
  const auto folder = rulesets_folder(options);
  const auto first = read_ruleset(folder, options.first).ruleset,
             second = read_ruleset(folder, options.second).ruleset;
  const Comparison comparison = compare(first, second);
  std::cout << (options.format == "json" ? json_of(options, comparison) : text_of(options, comparison));
  return ExitCode::done;
}

}  // namespace

void add_rulesets_compare(CLI::App& group, Run& run) {
  const auto options = std::make_shared<CompareOptions>();
  CLI::App* command =
      group.add_subcommand("compare", "Which findings get another answer under another ruleset");
  command->add_option("first", options->first, "Id of a ruleset")->required()->type_name("ID");
  command->add_option("second", options->second, "Id of another")->required()->type_name("ID");
  command->add_option("--format", options->format, "How it is written")
      ->check(CLI::IsMember({"text", "json"}))
      ->type_name("text|json");
  add_rulesets_option(*command, *options);
  when_asked(*command, run, [options] { return compare_two(*options); });
}

}  // namespace cli
