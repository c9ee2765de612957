// From the outcomes that a record can have to the one answer: settled, awaiting pathology, depends, outside
// or refused. The pathology gate stands here, once, for every ruleset.

#include <algorithm>
#include <set>

#include "advice/beside.h"
#include "advice/cautions.h"
#include "advice/consultation.h"
#include "advice/outcomes.h"
#include "advice/possibility.h"
#include "advice/questions.h"
#include "advice/words.h"
#include "advice/workspace.h"
#include "engine/advice.h"
#include "ruleset/diagnostic_errors.h"

namespace engine {

namespace {

void name_ruleset(Advice& advice, const Ruleset& ruleset) {
  advice.ruleset = ruleset.about.id;
  advice.edition = ruleset.about.edition;
  advice.ruleset_digest = ruleset.digest;
  advice.ruleset_title = ruleset.about.title;
  advice.ruleset_state = ruleset.about.state;
}

/// The ids of the lesions, when they tell them apart.
std::vector<std::string> lesion_names(const Examination& exam) {
  std::vector<std::string> names;
  std::set<std::string_view> distinct;
  for (const Lesion& lesion : exam.lesions) {
    if (lesion.id.empty() || !distinct.insert(lesion.id).second) return {};
    names.push_back(lesion.id);
  }
  return names;
}

void settle(Advice& advice, const Outcomes& outcomes, const Ruleset& ruleset) {
  const NextStep& step = outcomes.all.front().step;
  advice.state = step.ask_instead.empty() ? AdviceState::settled : AdviceState::outside;
  advice.ask_instead = step.ask_instead;
  advice.action = step.action;
  advice.interval = step.interval;
  if (step.interval) {
    advice.counted_from = step.counted_from;
    advice.counted_from_date = step.counted_from_date;
  }
  advice.due = step.due;
  advice.then = step.then;
  advice.reasons = reasons_of(outcomes, ruleset);
}

/// Earliest date first, because it bounds the chase; what has no date comes last.
void list_possibilities(Advice& advice, const Outcomes& outcomes, const Consultation& consultation) {
  for (std::uint32_t i = 0; i < outcomes.all.size(); ++i) {
    advice.possible.push_back(possibility(outcomes, i, consultation));
  }
  const auto earlier = [](const Possibility& a, const Possibility& b) {
    if (a.due.has_value() != b.due.has_value()) return a.due.has_value();
    if (a.due && a.due->from != b.due->from) return a.due->from < b.due->from;
    if (a.due && a.due->to != b.due->to) return a.due->to < b.due->to;
    if (a.action != b.action) return a.action < b.action;
    return a.rule < b.rule;
  };
  std::stable_sort(advice.possible.begin(), advice.possible.end(), earlier);
  if (consultation.has_calculated()) {
    advice.cautions.push_back(
        "a rule calculates with a size that is known within bounds only, and not every size was tried: there "
        "may be further outcomes");
  } else if (outcomes.search.exhausted) {
    advice.cautions.push_back(
        "too much is open to work through every possibility: there may be further outcomes");
  }
}

// The pathology gate: while histology of this examination is awaited, nothing but pathology is awaited,
// unless every completion agrees or it is shown that the report cannot change the answer.
void leave_open(Advice& advice, const Outcomes& outcomes, const Consultation& consultation,
                const Record& record) {
  const bool all_was_seen = !outcomes.search.exhausted && !outcomes.has_unknown();
  const bool may_decide = !all_was_seen && record.exam.awaits_histology();
  FactsToAsk asked = facts_to_ask(consultation, outcomes, may_decide);
  list_possibilities(advice, outcomes, consultation);
  advice.questions = std::move(asked.questions);
  if (!asked.awaited_decides) {
    advice.state = AdviceState::depends;
    return;
  }
  advice.state = AdviceState::awaiting_pathology;
  advice.action = Action::await_pathology;
  const bool one = asked.awaited_lesions == 1;
  advice.reasons.push_back(
      {"pathology-gate",
       "the histology of " + counted(asked.awaited_lesions, "lesion") + " is awaited, and " +
           (all_was_seen ? (one ? "decides" : "together they decide") : "may decide"),
       "this program: no next step is fixed while a report that can change it is awaited", "engine"});
}

/// Whether flags that hold in some completions only are worth showing: not while everything is open anyway.
bool is_answered(const Advice& advice) {
  return advice.state == AdviceState::settled || advice.state == AdviceState::outside;
}

void add_beside(Advice& advice, Consultation& consultation, const Consultation::Budgets& budgets) {
  const bool answered = is_answered(advice);
  Beside beside = look_beside(consultation, answered ? budgets.beside : budgets.beside_unanswered, answered);
  advice.flags = std::move(beside.flags);
  advice.facts = std::move(beside.facts);
  if (!answered) return;  // it will be asked again once the facts are in
  if (!beside.flags_are_complete) {
    advice.cautions.push_back("not every flag could be worked out from what is known");
  }
  if (!beside.facts_are_complete) {
    advice.cautions.push_back("what the ruleset derives is not shown: too much of it is open");
  }
}

void refuse(Advice& advice, Errors errors) {
  Advice refusal = refused(advice.id, std::move(errors));
  refusal.ruleset = std::move(advice.ruleset);
  refusal.edition = std::move(advice.edition);
  refusal.ruleset_digest = std::move(advice.ruleset_digest);
  refusal.ruleset_title = std::move(advice.ruleset_title);
  refusal.ruleset_state = std::move(advice.ruleset_state);
  refusal.record_digest = std::move(advice.record_digest);
  refusal.fired = std::move(advice.fired);
  advice = std::move(refusal);
}

}  // namespace

Adviser::Adviser(std::shared_ptr<const Ruleset> ruleset)
    : workspace_(std::make_unique<Workspace>(std::move(ruleset))) {}

Adviser::~Adviser() = default;

Advice Adviser::advise(const Record& record, const Date& today, std::string_view id) {
  Workspace& w = *workspace_;
  const Ruleset& ruleset = *w.ruleset;
  Advice advice;
  advice.id = id;
  advice.record_digest = record.digest;
  advice.lesions = lesion_names(record.exam);
  name_ruleset(advice, ruleset);

  w.hand_over(record, today);
  if (w.evaluation.has_error()) {  // a value that the ruleset's item definitions do not allow
    Errors errors;
    add_errors(w.evaluation.diagnostics(), errors);
    refuse(advice, std::move(errors));
    return advice;
  }
  Consultation consultation(
      ruleset, w.row_ids, w.evaluation, w.bound,
      open_variables(w.bound.facts, numeric_literals(*ruleset.model), record, w.evaluation.arena()));
  const Consultation::Budgets budgets;
  const Outcomes outcomes = find_outcomes(consultation, record.exam.date, budgets.next_step);
  if (consultation.errors().empty()) {
    if (outcomes.all_agree()) {
      settle(advice, outcomes, ruleset);
    } else {
      leave_open(advice, outcomes, consultation, record);
    }
    add_beside(advice, consultation, budgets);
  }
  advice.fired = consultation.fired();
  if (!consultation.errors().empty()) {
    refuse(advice, std::move(consultation.errors()));
    return advice;
  }
  advice.assumed = assumed_facts(consultation);
  add_cautions(advice, ruleset);
  return advice;
}

Advice advise(std::shared_ptr<const Ruleset> ruleset, const Record& record, const Date& today,
              std::string_view id) {
  return Adviser(std::move(ruleset)).advise(record, today, id);
}

Advice refused(std::string_view id, Errors errors) {
  Advice advice;
  advice.id = id;
  advice.state = AdviceState::refused;
  advice.errors = std::move(errors);
  advice.cautions.emplace_back(standing_caution);
  return advice;
}

}  // namespace engine
