#include "engine/differential/hand_written_uk_2020/answer.h"

#include <algorithm>

#include "engine/differential/hand_written_uk_2020/flags.h"
#include "engine/differential/hand_written_uk_2020/judged_steps.h"
#include "engine/differential/hand_written_uk_2020/sentences.h"

namespace testing::by_hand {

namespace {

std::string_view ruleset_to_ask(Row scope) {
  const bool of_colitis =
      scope == Row::colitis || scope == Row::cholangitis || scope == Row::colitis_surveillance;
  return of_colitis ? "uk-ibd-2010" : "uk-hereditary-2020";
}

/// A step of the plan once those before it are done, by the day on which it falls due.
struct LaterStep2020 {
  Step step;
  std::string_view anchor;
};

class Answer {
 public:
  Answer(const Record& record, const std::vector<Taken>& taken, const Texts& texts, Advice& advice)
      : record_(record), patient_(record, taken), advice_(advice), writer_(advice, texts) {}

  void write() {
    advice_.state = AdviceState::settled;
    patient_.read_history();
    patient_.find_baseline();
    patient_.age = patient_.age_on(patient_.exam.date);
    if (const auto outside = patient_.out_of_scope()) {
      advice_.state = AdviceState::outside;
      advice_.ask_instead = ruleset_to_ask(*outside);
      refer(*outside);
    } else if (patient_.has_cancer_without_resection()) {
      refer(Row::cancer);
    } else {
      answer_by_steps();
    }
    write_facts();
    write_assumed();
    writer_.end();
  }

 private:
  void refer(Row row) {
    patient_.risk = patient_.risk_of(patient_.findings);
    advice_.action = Action::refer;
    writer_.reason(row, sentence_of_scope(row));
    is_referred_ = true;
  }

  void answer_by_steps() {
    patient_.judge();
    const JudgedSteps steps(patient_);
    life_expectancy_was_read_ = !patient_.steps.empty();
    const Shortcomings again = patient_.look_again();
    const auto missing = patient_.missing_history();
    if (!again.empty()) {
      look_again(again, steps);
    } else if (patient_.age < 18) {
      advice_.action = Action::refer;
      writer_.reason(Row::under_18, joined({"aged ", std::to_string(patient_.age),
                                            ": the guideline covers adults of 18 and over"}));
    } else if (missing && !steps.must_look) {
      advice_.action = Action::individualise;
      writer_.reason(*missing, sentence_beside(*missing, patient_));
      write_beside(again, steps);
      for (const Step* step : steps.open) write_later(*step, step->anchor);
    } else if (!steps.open.empty()) {
      take_step(again, steps);
    } else if (!steps.stopped.empty()) {
      stop(again, steps);
    } else {
      answer_low_risk(again, steps);
    }
    write_flags(patient_, steps, writer_);
  }

  void look_again(const Shortcomings& again, const JudgedSteps& steps) {
    advice_.action = Action::repeat_examination;
    for (const Row row : again) writer_.reason(row, sentence_of_shortcoming(row, patient_));
    write_beside(again, steps);
    for (const Step* step : steps.open) add_later(*step, step->limited ? "repeat examination" : step->anchor);
    write_then();
  }

  void take_step(const Shortcomings& again, const JudgedSteps& steps) {
    const Step& next = *steps.open.front();
    advice_.action = next.action;
    count_from(next.anchor, next.since, {next.from, next.to});
    for (const Step* step : steps.open) write_reason(*step);
    write_beside(again, steps);
    for (const Step* step : steps.open) {
      if (step->due > next.due) add_later(*step, step->anchor);
    }
    write_then();
  }

  void stop(const Shortcomings& again, const JudgedSteps& steps) {
    advice_.action = Action::no_surveillance;
    const StoppedStep& first = steps.stopped.front();
    writer_.reason(first.stop, sentence_of_stop(first.stop, first.age_when_due));
    for (const StoppedStep& stopped : steps.stopped) write_reason(*stopped.step);
    write_beside(again, steps);
  }

  void answer_low_risk(const Shortcomings& again, const JudgedSteps& steps) {
    const Row row = patient_.low_risk_row();
    writer_.reason(row, sentence_of_low_risk(row, patient_));
    write_beside(again, steps);
    if (row == Row::young) {
      life_expectancy_was_read_ = true;
      advice_.action = Action::individualise;
      count_from("examination", patient_.exam.date, {{60}, {120}});
    } else {
      const bool screened = patient_.age <= 75 && row != Row::short_life;
      advice_.action = screened ? Action::return_to_screening : Action::no_surveillance;
    }
  }

  void count_from(std::string_view anchor, const Date& day, const Interval& interval) {
    advice_.interval = interval;
    advice_.counted_from = anchor;
    advice_.counted_from_date = day;
    advice_.due = Window{plus(day, interval.from.count), plus(day, interval.to.count)};
  }

  // --- rows that apply besides ---

  void write_reason(const Step& step) {
    if (!writer_.has_reason(step.row)) writer_.reason(step.row, sentence_of_step(step, patient_));
  }

  void write_beside(const Shortcomings& again, const JudgedSteps& steps) {
    for (const auto& [step, stop, age] : steps.stopped) {
      if (!writer_.has_reason(stop)) writer_.reason(stop, sentence_of_stop(stop, age));
    }
    if (!again.empty() && patient_.risk.high) write_remark(Row::high_risk_even_so);
    if (patient_.risk.high && patient_.after_cancer == AfterCancer::clearance_done)
      write_remark(Row::high_risk_at_clearance);
    if (std::any_of(patient_.sites.begin(), patient_.sites.end(),
                    [](const SiteOfResection& site) { return site.closed_now; }))
      write_remark(Row::smaller_site_clear);
    if (const auto missing = patient_.missing_history()) write_remark(*missing);
  }
  void write_remark(Row row) {
    if (!writer_.has_reason(row)) writer_.reason(row, sentence_beside(row, patient_));
  }

  // --- later steps ---

  /// Behind those that fall due no later.
  void add_later(const Step& step, std::string_view anchor) {
    const auto sooner = [](const Date& due, const LaterStep2020& other) { return due < other.step.due; };
    later_.insert(std::upper_bound(later_.begin(), later_.end(), step.due, sooner), {step, anchor});
  }

  void write_then() {
    add_later_looks();
    add_after_clearance();
    for (const auto& [step, anchor] : later_) write_later(step, anchor);
  }
  void write_later(const Step& step, std::string_view anchor) {
    writer_.later(step, anchor, sentence_of_later(step));
  }
  std::string sentence_of_later(const Step& step) const {
    const bool after_clearance =
        step.row == Row::clearance_done && patient_.after_cancer == AfterCancer::clearance_due;
    return after_clearance ? "3 years after the clearance colonoscopy (from memory)"
                           : sentence_of_step(step, patient_);
  }

  /// What follows the next look at the site of a large polyp when all goes well.
  void add_later_looks() {
    for (const SiteOfResection& site : patient_.sites) {
      if (!site.large || site.stage == Stage::two_looks || site.stage == Stage::closed) continue;
      const bool first_is_due = site.stage == Stage::not_looked_at || site.stage == Stage::recurrence_treated;
      if (first_is_due) add_later_look(site, Stage::one_look, 14);
      const std::int64_t months = first_is_due ? 50 : site.stage == Stage::one_look ? 48 : 54;
      if (!patient_.stopped_on(plus(site.since, months))) add_later_look(site, Stage::two_looks, months);
    }
  }
  void add_later_look(const SiteOfResection& site, Stage stage, std::int64_t months) {
    Step step = site_step(true, stage, site.lesion->size.value, site.since);
    step.due = plus(site.since, months);
    add_later(step, step.anchor);
  }

  void add_after_clearance() {
    if (patient_.after_cancer != AfterCancer::clearance_due) return;
    const Date due = plus(*patient_.resection, 48);
    if (patient_.stopped_on(due)) return;
    const Step step{Action::surveillance_colonoscopy,
                    {36},
                    {36},
                    "clearance colonoscopy",
                    *patient_.resection,
                    due,
                    true,
                    Row::clearance_done,
                    {}};
    add_later(step, step.anchor);
  }

  // --- facts ---

  void write_facts() {
    const Lesions& findings = patient_.findings;
    const auto number = [&](auto wanted) { return std::to_string(polyps(findings, wanted)); };
    writer_.fact("premalignant polyps", std::to_string(patient_.risk.premalignant));
    writer_.fact("advanced polyps", number([&](const Lesion& l) { return patient_.advanced(l); }));
    writer_.fact("adenomas", number([&](const Lesion& l) { return is_adenoma(patient_.type(l)); }));
    writer_.fact("serrated polyps", number([&](const Lesion& l) { return is_serrated(patient_.type(l)); }));
    writer_.fact("high-risk findings", patient_.risk.high ? "true" : "false");
    writer_.fact("examinations taken together", std::to_string(patient_.together.size()));
    writer_.fact("age at examination", std::to_string(patient_.age));
  }

  /// Background that the record leaves out and a rule read.
  void write_assumed() {
    const Patient& patient = record_.patient;
    if (!patient.conditions) writer_.assumed("patient.conditions", "none");
    if (!is_referred_) {
      if (!patient.family_history) writer_.assumed("patient.family_history", "none");
      if (!patient.life_expectancy_under_10_years && life_expectancy_was_read_)
        writer_.assumed("patient.life_expectancy_under_10_years", "false");
    }
    if (!record_.previous) writer_.assumed("previous", "none");
    if (is_referred_ || record_.setting.screening_from_age) return;
    if (!record_.setting.nation) writer_.assumed("setting.nation", "the ruleset's own default");
    writer_.assumed("setting.screening_from_age", "the ruleset's own default");
  }

  const Record& record_;
  Patient2020 patient_;
  Advice& advice_;
  AdviceWriter writer_;
  std::vector<LaterStep2020> later_;
  bool is_referred_ = false;  ///< At once, whatever the findings.
  bool life_expectancy_was_read_ = false;
};

}  // namespace

void write_answer(const Record& record, const std::vector<Taken>& taken, const Texts& texts, Advice& advice) {
  Answer(record, taken, texts, advice).write();
}

}  // namespace testing::by_hand
