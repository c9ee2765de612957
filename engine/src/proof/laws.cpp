#include "engine/laws.h"

#include <algorithm>

#include "advice/completions.h"
#include "advice/next_step.h"
#include "advice/words.h"
#include "proof/paired_records.h"
#include "proof/shapes.h"

namespace engine {

namespace {

constexpr std::int64_t long_wait =
    24;  // months: an examination that was not sound is not waited with as long as that

bool is_stop(const NextStep& step) {
  return step.action == Action::no_surveillance || step.action == Action::return_to_screening;
}

bool is_dated(const NextStep& step) {
  return step.due.has_value();
}

/// Whether `worse` waits longer than `better`. What has no date and is no stop goes to a person, and is never
/// late.
bool comes_later(const NextStep& better, const NextStep& worse) {
  if (!is_dated(better) || !better.ask_instead.empty() || !worse.ask_instead.empty()) return false;
  if (is_stop(worse) && !is_stop(better)) return true;
  return is_dated(worse) && !is_stop(better) && worse.due->from > better.due->from;
}

bool waits_long(const NextStep& step) {
  if (!step.ask_instead.empty()) return false;
  return is_stop(step) || (step.interval && step.interval->from.count >= long_wait);
}

class LawSearch {
 public:
  LawSearch(const Ruleset& ruleset, const LawShape& shape, Evaluation& first, Evaluation& second)
      : ruleset_(ruleset), shape_(shape), first_(first), second_(second) {}

  LawReport run(std::uint32_t budget) {
    report_.law = shape_.law;
    report_.shape = shape_.shape;
    const auto better = read_record(shape_.better.dump(), "shape");
    const auto worse = shape_.worse ? read_record(shape_.worse->dump(), "shape") : better;
    if (!better || !worse) {
      broken(better ? worse.errors() : better.errors());
      return report_;
    }
    hand_over(*better, *worse);
    TakenFacts taken(paired_->facts, paired_->variables);
    const Search found = search(taken, {}, budget, [&] { return one_run(taken); });
    report_.runs = found.leaves.size();
    report_.complete = !found.exhausted && !found.stopped && !taken.has_calculated();
    return report_;
  }

 private:
  void hand_over(const Record& better, const Record& worse) {
    for (Evaluation* evaluation : {&first_, &second_}) {
      evaluation->reset();
      evaluation->set_now({better.exam.date, {}});
    }
    examined_ = better.exam.date;
    paired_.emplace(better, shape_.worse ? &worse : nullptr, shape_.apart, numeric_literals(*ruleset_.model),
                    first_.arena());
    give(first_, paired_->better);
    if (paired_->is_pair) give(second_, paired_->worse);
  }

  void give(Evaluation& evaluation, const BoundRecord& bound) const {
    const auto input = [&](std::string_view name, const Value& value) {
      if (const auto element = ruleset_.model->find(name, ElementView::Kind::input))
        evaluation.set_input(*element, value);
    };
    input("patient", bound.patient);
    input("exam", bound.exam);
    input("previous", bound.previous);
    input("setting", bound.setting);
  }

  std::optional<std::uint32_t> one_run(TakenFacts& taken) {
    if (paired_->apart != OpenVariables::none && !is_worse_larger(taken)) return 0;
    const auto better = step_of(first_, taken);
    if (!better) return std::nullopt;
    if (!paired_->is_pair) {
      if (waits_long(*better)) add(*better, nullptr, taken);
      return 0;
    }
    const auto worse = step_of(second_, taken);
    if (!worse) return std::nullopt;
    if (comes_later(*better, *worse)) add(*better, &*worse, taken);
    return 0;
  }

  bool is_worse_larger(TakenFacts& taken) const {
    const auto fact = [&](std::uint32_t variable) {
      return paired_->variables.variables[variable].columns[0].fact;
    };
    const Value smaller = taken.read(fact(paired_->apart)),
                larger = taken.read(fact(paired_->apart_in_worse));
    return smaller.number() < larger.number();
  }

  std::optional<NextStep> step_of(Evaluation& evaluation, TakenFacts& taken) {
    evaluation.forget_decisions();
    evaluation.assume(taken);
    const Value value = evaluation.decide(ruleset_.next_step);
    if (evaluation.has_error()) return std::nullopt;  // a record without an answer is looked for elsewhere
    Errors errors;
    NextStep step = read_next_step(value, ruleset_, examined_, errors);
    return errors.empty() ? std::optional(std::move(step)) : std::nullopt;
  }

  void add(const NextStep& better, const NextStep* worse, const TakenFacts& taken) {
    LawBreak found;
    found.rule = better.grounds.front().rule;
    found.answer = in_words(better.action, better.interval);
    if (worse) {
      found.worse_rule = worse->grounds.front().rule;
      found.worse_answer = in_words(worse->action, worse->interval);
    }
    const auto is_known = [&](const LawBreak& other) {
      return other.rule == found.rule && other.worse_rule == found.worse_rule;
    };
    if (std::any_of(report_.breaks.begin(), report_.breaks.end(), is_known)) return;
    found.record = paired_->record_text(shape_, false, taken.values());
    if (worse) found.worse_record = paired_->record_text(shape_, true, taken.values());
    report_.breaks.push_back(std::move(found));
  }

  void broken(const Errors& errors) {
    report_.breaks.push_back({"", "", text_of(errors.front()), "", "", ""});
  }

  const Ruleset& ruleset_;
  const LawShape& shape_;
  Evaluation& first_;
  Evaluation& second_;
  Date examined_;
  std::optional<PairedRecords> paired_;
  LawReport report_;
};

}  // namespace

std::vector<LawReport> prove_laws(const std::shared_ptr<const Ruleset>& ruleset, std::uint32_t budget) {
  Evaluation first(ruleset->model), second(ruleset->model);
  std::vector<LawReport> reports;
  for (const LawShape& shape : law_shapes())
    reports.push_back(LawSearch(*ruleset, shape, first, second).run(budget));
  return reports;
}

}  // namespace engine
