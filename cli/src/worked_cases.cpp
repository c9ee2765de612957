#include "worked_cases.h"

#include <nlohmann/json.hpp>
#include <optional>

#include "engine/advice.h"

namespace cli {

namespace {

using engine::Action;
using engine::Advice;
using engine::Error;
using engine::Result;
using nlohmann::json;

struct Expected {
  Action action{};
  std::optional<engine::Interval> interval;
};

std::string text_of(std::optional<Action> action, const std::optional<engine::Interval>& interval) {
  std::string text(action ? engine::text_of(*action) : "no action");
  if (!interval) return text;
  text += " " + engine::text_of(interval->from);
  return interval->from == interval->to ? text : text + " to " + engine::text_of(interval->to);
}

std::optional<engine::Months> months_of(const json& text) {
  if (!text.is_string()) return std::nullopt;
  const auto duration = engine::parse_duration(text.get<std::string>());
  if (duration && *duration == std::variant<engine::Months, engine::Duration>(engine::Duration{}))
    return engine::Months{};
  if (!duration || !std::holds_alternative<engine::Months>(*duration)) return std::nullopt;
  return std::get<engine::Months>(*duration);
}

std::optional<Expected> expected_of(const json& line) {
  const json expect = line.value("expect", json::object());
  const auto action = engine::action_of(expect.value("action", ""));
  if (!action) return std::nullopt;
  Expected expected{*action, {}};
  const json interval = expect.value("interval", json());
  if (interval.is_null()) return expected;
  if (!interval.is_object()) return std::nullopt;
  const auto from = months_of(interval.value("from", json())), to = months_of(interval.value("to", json()));
  if (!from || !to) return std::nullopt;
  expected.interval = engine::Interval{*from, *to};
  return expected;
}

bool is_pair(Action a, Action b, Action one, Action other) {
  return (a == one && b == other) || (a == other && b == one);
}

bool is_under_75(const engine::Record& record) {
  if (!record.patient.birth_date) return true;
  const auto birthday = engine::add(*record.patient.birth_date, engine::Months{75 * 12});
  return !birthday || record.exam.date < *birthday;
}

// Guidelines that know no difference between two answers; docs/ruleset-format.md.
bool means_the_same(const std::string& ruleset, const engine::Record& record, Action expected,
                    Action answered) {
  if (expected == answered) return true;
  const bool british_or_european = ruleset.starts_with("uk-") || ruleset.starts_with("esge-");
  if (british_or_european && is_under_75(record)) {
    return is_pair(expected, answered, Action::no_surveillance, Action::return_to_screening);
  }
  return ruleset == "us-2020" &&
         is_pair(expected, answered, Action::surveillance_colonoscopy, Action::return_to_screening);
}

std::set<std::string> rows_of(const Advice& advice) {
  std::set<std::string> reached(advice.fired.begin(), advice.fired.end());
  for (const engine::Reason& reason : advice.reasons) reached.insert(reason.rule);
  for (const engine::LaterStep& step : advice.then) reached.insert(step.rule);
  for (const engine::Flag& flag : advice.flags) reached.insert(flag.rule);
  return reached;
}

Error no_case(std::string_view source, std::uint32_t line, std::string message) {
  Error error{
      "no_case", std::move(message), {}, "a case has `id`, `given` and `expect`: docs/ruleset-format.md"};
  error.place.source = source;
  error.place.line = line;
  error.place.column = 1;
  return error;
}

Result<engine::Done> run_case(engine::Adviser& adviser, const engine::Ruleset& ruleset, std::string_view text,
                              std::string_view source, std::uint32_t number, CaseRun& run) {
  const json line = json::parse(text, nullptr, false);
  if (!line.is_object()) return no_case(source, number, "expected a JSON object");
  const auto expected = expected_of(line);
  if (!expected) return no_case(source, number, "`expect` has no `action` and `interval` that can be read");
  const auto record = engine::read_record(text, source);
  if (!record) return record.errors();

  const Advice advice = adviser.advise(*record, record->exam.date);
  const std::string id = line.value("id", "line " + std::to_string(number));
  for (const std::string& row : rows_of(advice)) run.reached_by[row].push_back(id);
  if (!advice.ask_instead.empty()) run.ask_instead.insert(advice.ask_instead);
  ++run.total;
  const bool right = advice.action && advice.interval == expected->interval &&
                     means_the_same(ruleset.about.id, *record, expected->action, *advice.action);
  if (right) return engine::Done{};
  std::string answered =
      std::string(engine::text_of(advice.state)) + ": " + text_of(advice.action, advice.interval);
  for (const engine::Reason& reason : advice.reasons) answered += " [" + reason.rule + "]";
  for (const Error& error : advice.errors) answered += "; " + error.message;
  run.failed.push_back({id, text_of(expected->action, expected->interval), std::move(answered),
                        line["expect"].value("why", "")});
  return engine::Done{};
}

}  // namespace

Result<CaseRun> run_cases(const std::shared_ptr<const engine::Ruleset>& ruleset, std::string_view cases,
                          std::string_view source) {
  CaseRun run;
  engine::Adviser adviser(ruleset);
  std::uint32_t number = 0;
  for (std::size_t at = 0; at < cases.size();) {
    const std::size_t end = std::min(cases.find('\n', at), cases.size());
    const std::string_view text = cases.substr(at, end - at);
    at = end + 1;
    ++number;
    if (text.find_first_not_of(" \t\r") == std::string_view::npos) continue;
    const auto done = run_case(adviser, *ruleset, text, source, number, run);
    if (!done) return done.errors();
  }
  for (const engine::RulesetRow& row : ruleset->rows) {
    if (!run.reached_by.contains(row.id)) run.unreached.push_back(row.id);
  }
  return run;
}

}  // namespace cli
