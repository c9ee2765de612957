#include "report/answers.h"

#include <nlohmann/json.hpp>
#include <optional>

#include "engine/canonical.h"
#include "ledger/choice.h"
#include "report/caution.h"
#include "report/errors.h"
#include "system/files.h"

namespace cli {

namespace {

using engine::Advice;
using engine::AdviceState;

std::optional<engine::Date> earliest_day(const Advice& advice) {
  std::optional<engine::Date> day;
  if (advice.due) day = advice.due->from;
  for (const engine::Possibility& possibility : advice.possible) {
    if (possibility.due && (!day || possibility.due->from < *day)) day = possibility.due->from;
  }
  return day;
}

std::string with_line_end(std::string text) {
  if (!text.ends_with('\n')) text += '\n';
  return text;
}

// The answers beside each other, one line each, before they are told in full.
std::string overview(const std::vector<Advice>& answers, std::size_t leader) {
  std::string text;
  for (std::size_t i = 0; i < answers.size(); ++i) {
    const Advice& advice = answers[i];
    text += (i == leader ? "* " : "  ") + advice.ruleset + ": ";
    text += advice.state == AdviceState::settled && advice.action
                ? std::string(engine::text_of(*advice.action))
                : std::string(engine::text_of(advice.state));
    if (const auto day = earliest_day(advice)) {
      text += std::string(advice.due ? ", due from " : ", at the earliest ") + engine::text_of(*day);
    }
    text += '\n';
  }
  return text + "* counts: it asks for the earliest step, or must be settled before another can count\n\n";
}

}  // namespace

std::string source_of(const std::string& path, std::uint64_t line) {
  return source_name(path) + ":" + std::to_string(line);
}

std::string json_of(const std::vector<Advice>& answers) {
  if (answers.size() == 1) return engine::json_of(answers.front());
  nlohmann::json all = nlohmann::json::array();
  for (const Advice& advice : answers) all.push_back(nlohmann::json::parse(engine::json_of(advice)));
  nlohmann::json line = all[ledger::choose(answers).chosen];
  line["answers"] = std::move(all);
  return engine::canonical_json(line);
}

std::string text_of(const std::vector<Advice>& answers, const std::string& source) {
  const std::size_t leader = ledger::choose(answers).chosen;
  if (answers.size() == 1 && answers.front().ruleset.empty()) {  // the record itself could not be read
    return source + ": refused\n" + text_of(answers.front().errors) + std::string(caution) + "\n";
  }
  std::string text;
  if (answers.size() > 1) text += overview(answers, leader);
  text += with_line_end(engine::text_of(answers[leader]));
  for (std::size_t i = 0; i < answers.size(); ++i) {
    if (i != leader) text += "\n" + with_line_end(engine::text_of(answers[i]));
  }
  return text;
}

}  // namespace cli
