#include "engine/advice/advice_summary.h"

#include <catch2/catch.hpp>

namespace engine::testing {

namespace {

std::string step_text(Action action, const std::optional<Interval>& interval) {
  std::string text(text_of(action));
  if (!interval) return text;
  text += " " + text_of(interval->from);
  return interval->from == interval->to ? text : text + " to " + text_of(interval->to);
}

}  // namespace

std::string summary_of(const Advice& advice) {
  std::string text(text_of(advice.state));
  if (advice.action) text += ": " + step_text(*advice.action, advice.interval);
  if (advice.due) {
    text += ", due " + text_of(advice.due->from);
    if (advice.due->to != advice.due->from) text += " to " + text_of(advice.due->to);
  }
  for (const Reason& reason : advice.reasons) text += ", by " + reason.rule;
  if (!advice.ask_instead.empty()) text += ", ask " + advice.ask_instead;
  for (const Error& error : advice.errors) text += "; " + error.code + " at " + error.place.path;
  return text;
}

std::string possible_of(const Advice& advice) {
  std::string text;
  for (const Possibility& possible : advice.possible) {
    text += (text.empty() ? "" : " | ") + step_text(possible.action, possible.interval) + " [";
    for (std::size_t i = 0; i < possible.when.size(); ++i) text += (i == 0 ? "" : "; or ") + possible.when[i];
    text += "]";
  }
  return text;
}

Advice ask(const std::shared_ptr<const Ruleset>& ruleset, const std::string& record) {
  const auto read = read_record(record, "test");
  if (!read) {
    for (const Error& error : read.errors()) UNSCOPED_INFO(text_of(error));
    FAIL("the test's record cannot be read");
  }
  return advise(ruleset, *read, {2026, 4, 1});
}

}  // namespace engine::testing
