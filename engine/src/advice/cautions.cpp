#include "advice/cautions.h"

#include <algorithm>

namespace engine {

const std::string_view standing_caution =
    "this supports and does not replace the judgement of the responsible clinician; local policy decides";

namespace {

/// `none` for an empty list and for the word itself; null is left to the ruleset.
std::string taken_as(const Value& value) {
  if (value.is_null()) return "taken as the ruleset's own default";
  if (value.is(Kind::list)) return "taken as none";
  if (value.is(Kind::boolean)) return value.boolean() ? "taken as true" : "taken as false";
  return "taken as " + text_of(value);
}

void add_once(std::vector<std::string>& texts, std::string text) {
  if (std::find(texts.begin(), texts.end(), text) == texts.end()) texts.push_back(std::move(text));
}

void caution_about_memory(Advice& advice, const Ruleset& ruleset, const std::string& rule) {
  const RulesetRow* row = ruleset.row(rule);
  if (row == nullptr || row->evidence != "memory") return;
  add_once(advice.cautions, "row " + rule + " is from memory: read it in the paper before use");
}

}  // namespace

std::vector<std::string> assumed_facts(const Consultation& consultation) {
  std::vector<std::string> texts;
  const std::span<const OpenFact> facts = consultation.facts();
  for (std::uint32_t id = 0; id < facts.size(); ++id) {
    if (facts[id].why != OpenFact::Why::assumed || consultation.touched()[id] == 0) continue;
    texts.push_back(facts[id].path + ": not stated, " + taken_as(facts[id].assumed));
  }
  return texts;
}

void add_cautions(Advice& advice, const Ruleset& ruleset) {
  for (const std::string& caution : ruleset.about.cautions) add_once(advice.cautions, caution);
  if (ruleset.about.state != "current") {
    std::string text = "`" + ruleset.about.id + "` is " + ruleset.about.state;
    if (ruleset.about.superseded_by) text += ": its successor is `" + *ruleset.about.superseded_by + "`";
    add_once(advice.cautions, std::move(text));
  }
  for (const Reason& reason : advice.reasons) caution_about_memory(advice, ruleset, reason.rule);
  for (const LaterStep& step : advice.then) caution_about_memory(advice, ruleset, step.rule);
  for (const Flag& flag : advice.flags) caution_about_memory(advice, ruleset, flag.rule);
  add_once(advice.cautions, std::string(standing_caution));
}

}  // namespace engine
