#include "advice/next_step.h"

#include <algorithm>

#include "ruleset/context_reader.h"

namespace engine {

namespace {

std::string read_rule(ContextReader& reader, const Ruleset& ruleset) {
  std::string rule = reader.text("rule");
  if (!rule.empty() && ruleset.row(rule) == nullptr) {
    reader.fault("unknown_rule",
                 "`" + reader.place("rule") + "` is `" + rule + "`, which no row of a table carries", "rule",
                 "every rule of an answer needs a row with its source");
  }
  return rule;
}

Action read_action(ContextReader& reader) {
  const std::string text = reader.text("action");
  const auto action = action_of(text);
  if (action && *action != Action::await_pathology) return *action;
  if (!text.empty()) {
    reader.fault(
        "unknown_term", "`" + reader.place("action") + "` is `" + text + "`, which is no action of a ruleset",
        "action",
        "the actions are `surveillance colonoscopy`, `site check`, `repeat examination`, `no surveillance`, "
        "`return to screening`, `refer` and `individualise`");
  }
  return Action::individualise;
}

std::optional<Interval> read_interval(ContextReader& reader) {
  const auto from = reader.months_or_none("from");
  const auto to = reader.months_or_none("to");
  if (!from && !to) return std::nullopt;
  if (!from || !to) {
    reader.fault("half_an_interval", "`" + reader.place("") + "` has only one of `from` and `to`", "from",
                 "give both, equal for one figure");
    return std::nullopt;
  }
  if (from->count < 0 || *to < *from) {
    reader.fault(
        "impossible_interval",
        "`" + reader.place("") + "` has the interval `" + text_of(*from) + "` to `" + text_of(*to) + "`",
        "from", "it may not be negative nor end before it begins");
    return std::nullopt;
  }
  return Interval{*from, *to};
}

LaterStep read_later_step(const Value& value, std::string place, const Ruleset& ruleset, Errors& errors) {
  ContextReader reader(value, std::move(place), errors);
  LaterStep step;
  step.action = read_action(reader);
  step.interval = read_interval(reader);
  step.counted_from = reader.text_or_empty("counted from");
  step.rule = read_rule(reader, ruleset);
  step.because = reader.text("because");
  reader.end();
  return step;
}

Ground read_ground(ContextReader& reader, const Ruleset& ruleset) {
  Ground ground;
  ground.rule = read_rule(reader, ruleset);
  ground.because = reader.text("because");
  return ground;
}

std::string place_in_list(std::string_view list, std::size_t at) {
  return std::string(list) + "[" + std::to_string(at) + "]";
}

void find_window(NextStep& step, ContextReader& reader) {
  if (!step.interval) return;
  const auto from = add(step.counted_from_date, step.interval->from);
  const auto to = add(step.counted_from_date, step.interval->to);
  if (from && to) {
    step.due = Window{*from, *to};
  } else {
    reader.fault("impossible_interval", "`Next step` counts beyond the calendar", "to");
  }
}

}  // namespace

bool agree(const NextStep& a, const NextStep& b) {
  const auto same_step = [](const LaterStep& x, const LaterStep& y) {
    return x.action == y.action && x.interval == y.interval && x.counted_from == y.counted_from;
  };
  return a.action == b.action && a.interval == b.interval && a.counted_from == b.counted_from &&
         a.counted_from_date == b.counted_from_date && a.ask_instead == b.ask_instead &&
         std::equal(a.then.begin(), a.then.end(), b.then.begin(), b.then.end(), same_step);
}

NextStep read_next_step(const Value& value, const Ruleset& ruleset, const Date& examined, Errors& errors) {
  const std::size_t faults_before = errors.size();
  ContextReader reader(value, "Next step", errors);
  NextStep step;
  step.action = read_action(reader);
  step.interval = read_interval(reader);
  step.counted_from = reader.text_or_empty("counted from");
  step.counted_from_date = reader.date_or_none("counted from date").value_or(examined);
  const std::span<const Value> then = reader.list_or_none("then");
  step.grounds.push_back(read_ground(reader, ruleset));
  const std::span<const Value> also = reader.list_or_none("also");
  step.ask_instead = reader.text_or_empty("ask instead");
  reader.end();

  if (step.counted_from.empty()) step.counted_from = "examination";
  for (std::size_t i = 0; i < then.size(); ++i) {
    step.then.push_back(read_later_step(then[i], place_in_list("Next step.then", i), ruleset, errors));
  }
  for (std::size_t i = 0; i < also.size(); ++i) {
    ContextReader ground(also[i], place_in_list("Next step.also", i), errors);
    step.grounds.push_back(read_ground(ground, ruleset));
    ground.end();
  }
  if (!step.ask_instead.empty() && step.action != Action::refer && errors.size() == faults_before) {
    reader.fault("contradiction",
                 "`Next step` names `" + step.ask_instead + "` to ask instead, but its action is `" +
                     std::string(text_of(step.action)) + "`",
                 "action", "an answer for a patient outside the ruleset is `refer`");
  }
  find_window(step, reader);
  return step;
}

std::vector<Flag> read_flags(const Value& value, const Ruleset& ruleset, Errors& errors) {
  std::vector<Flag> flags;
  if (value.is_null()) return flags;
  if (!value.is(Kind::list)) {
    Error error;
    error.code = "wrong_type";
    error.message = "`Flags` is `" + literal_of(value) + "`, expected a list of contexts";
    error.place.path = "Flags";
    errors.push_back(std::move(error));
    return flags;
  }
  const std::span<const Value> items = value.list();
  for (std::size_t i = 0; i < items.size(); ++i) {
    ContextReader reader(items[i], place_in_list("Flags", i), errors);
    Flag flag;
    flag.flag = reader.text("flag");
    flag.rule = read_rule(reader, ruleset);
    flag.because = reader.text("because");
    reader.end();
    flags.push_back(std::move(flag));
  }
  return flags;
}

}  // namespace engine
