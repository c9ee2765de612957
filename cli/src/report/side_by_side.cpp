#include "report/side_by_side.h"

#include <algorithm>
#include <array>
#include <map>
#include <nlohmann/json.hpp>

#include "engine/canonical.h"
#include "engine/lesion_names.h"
#include "report/caution.h"
#include "report/errors.h"
#include "report/layout.h"

namespace cli {

namespace {

using engine::Advice;
using engine::AdviceState;
using nlohmann::json;

std::string answer_of(const Advice& advice) {
  std::string answer(engine::text_of(advice.state));
  if (advice.state == AdviceState::outside && !advice.ask_instead.empty())
    return answer + ": ask " + advice.ask_instead;
  if (advice.state == AdviceState::settled && advice.action) answer = engine::text_of(*advice.action);
  return answer;
}

std::string window_of(const Advice& advice) {
  if (!advice.due) return "";
  const std::string from = engine::text_of(advice.due->from);
  return advice.due->from == advice.due->to ? from : from + " to " + engine::text_of(advice.due->to);
}

std::string rule_of(const Advice& advice) {
  return advice.reasons.empty() ? "" : advice.reasons.front().rule;
}

std::string because_of(const Advice& advice) {
  if (!advice.errors.empty()) return advice.errors.front().message;
  if (!advice.reasons.empty()) return advice.reasons.front().because;
  if (advice.questions.empty()) return "";
  const engine::Question& first = advice.questions.front();
  return engine::with_lesion_names(first.fact, advice.lesions) + ": " + first.why;
}

bool agree(const std::vector<Answered>& answers) {
  return std::all_of(answers.begin(), answers.end(), [&](const Answered& answered) {
    return answer_of(answered.advice) == answer_of(answers.front().advice) &&
           answered.advice.interval == answers.front().advice.interval;
  });
}

/// Fact to value by ruleset, of the facts that two rulesets at least derive, with different values.
std::map<std::string, std::map<std::string, std::string>> differing_facts(
    const std::vector<Answered>& answers) {
  std::map<std::string, std::map<std::string, std::string>> facts;
  for (const Answered& answered : answers) {
    for (const auto& [name, value] : answered.advice.facts) facts[name][answered.advice.ruleset] = value;
  }
  std::erase_if(facts, [](const auto& fact) {
    const auto& values = fact.second;
    return std::all_of(values.begin(), values.end(),
                       [&](const auto& value) { return value.second == values.begin()->second; });
  });
  return facts;
}

std::string says(const Answered& answered) {
  const engine::RulesetRow* row = answered.ruleset->row(rule_of(answered.advice));
  return row == nullptr ? "" : row->text;
}

// --- text
// -----------------------------------------------------------------------------------------------------------

constexpr std::size_t columns = 5;
using Cells = std::array<std::string, columns>;

constexpr std::array<std::size_t, columns> widths = {18, 22, 13, 10,
                                                     29};  // with two spaces between: the page

std::vector<std::string> lines_of(const std::string& cell, std::size_t width) {
  std::vector<std::string> lines;
  const std::string text = wrapped(cell, 0, width);
  for (std::size_t from = 0; from < text.size();) {
    const std::size_t end = text.find('\n', from);
    lines.push_back(text.substr(from, end - from));
    from = end + 1;
  }
  return lines;
}

std::string table_row(const Cells& cells) {
  std::array<std::vector<std::string>, columns> lines;
  std::size_t height = 0;
  for (std::size_t i = 0; i < columns; ++i) {
    lines[i] = lines_of(cells[i], widths[i]);
    height = std::max(height, lines[i].size());
  }
  std::string text;
  for (std::size_t line = 0; line < height; ++line) {
    std::string out;
    for (std::size_t i = 0; i < columns; ++i) {
      const std::string cell = line < lines[i].size() ? cut_to(lines[i][line], widths[i]) : "";
      out += cell;
      if (i + 1 < columns) out.append(widths[i] - width_of(cell) + 2, ' ');
    }
    out.erase(out.find_last_not_of(' ') + 1);
    text += out + "\n";
  }
  return text;
}

std::string reasons_to_differ(const std::vector<Answered>& answers) {
  if (agree(answers)) return "They agree.\n";
  std::string text = "What makes them differ:\n";
  for (const auto& [fact, values] : differing_facts(answers)) {
    std::string line = "  " + fact + ":";
    for (const auto& [ruleset, value] : values) line += " " + value + " (" + ruleset + ")";
    text += wrapped(line, 4);
  }
  for (const Answered& answered : answers) {
    const std::string words = says(answered);
    if (!words.empty())
      text += wrapped("  " + answered.advice.ruleset + " " + rule_of(answered.advice) + " says: " + words, 4);
  }
  return text;
}

}  // namespace

std::string side_by_side(const std::vector<Answered>& answers, const std::string& source) {
  std::string text = source + "\n" + table_row({"ruleset", "answer", "due window", "rule", "why"});
  Cells rules;
  for (std::size_t i = 0; i < columns; ++i) rules[i] = std::string(widths[i], '-');
  text += table_row(rules);
  for (const Answered& answered : answers) {
    const Advice& advice = answered.advice;
    text += table_row(
        {advice.ruleset, answer_of(advice), window_of(advice), rule_of(advice), because_of(advice)});
  }
  text += "\n" + reasons_to_differ(answers);
  std::vector<std::string> cautions;
  for (const Answered& answered : answers) {
    for (const std::string& words : answered.advice.cautions) {
      const std::string line = answered.advice.ruleset + ": " + words;
      if (words.starts_with("this supports")) continue;  // said once, at the end
      if (std::find(cautions.begin(), cautions.end(), line) == cautions.end()) cautions.push_back(line);
    }
  }
  if (!cautions.empty()) text += "\nCautions:\n";
  for (const std::string& words : cautions) text += wrapped("  " + words, 4);
  return text + "\n" + std::string(caution) + "\n";
}

std::string side_by_side_json(const std::vector<Answered>& answers) {
  json line{{"agree", agree(answers)}, {"compare", json::array()}, {"facts", json::object()}};
  if (!answers.front().advice.id.empty()) line["id"] = answers.front().advice.id;
  for (const Answered& answered : answers) {
    json one = json::parse(engine::json_of(answered.advice));
    one["says"] = says(answered);
    line["compare"].push_back(std::move(one));
  }
  for (const auto& [fact, values] : differing_facts(answers)) line["facts"][fact] = values;
  return engine::canonical_json(line);
}

}  // namespace cli
