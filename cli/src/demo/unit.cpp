#include "demo/unit.h"

#include <algorithm>
#include <functional>
#include <map>
#include <nlohmann/json.hpp>
#include <string>
#include <utility>

#include "demo/people.h"
#include "demo/scenarios.h"
#include "failure.h"
#include "ledger/people.h"
#include "ledger/recalls.h"
#include "ledger/reception.h"
#include "ledger/signing.h"
#include "ledger_access.h"

namespace cli {

namespace {

using engine::Date;
using ledger::Move;
using nlohmann::json;

constexpr const char* consultant = "Dr R. Hazelmere";

Date shifted(const Date& day, std::int64_t days) {
  return *engine::date_from_days(engine::days_since_epoch(day) + days);
}

// A clock that stands at nine in the morning of the day that is being played, and moves on with every look.
class DemoClock : public ledger::Clock {
 public:
  void go_to(const Date& day) {
    if (day == day_) return;
    day_ = day;
    looks_ = 0;
  }
  ledger::Instant now() const override {
    return {engine::days_since_epoch(day_) * 86'400'000 + 9 * 3'600'000 + 1000 * looks_++};
  }
  Date today() const override { return day_; }

 private:
  Date day_;
  mutable std::int64_t looks_ = 0;
};

// A patient and what is known only as the days go by.
struct Course {
  Scenario scenario;
  json patient;
  json exam;  // with all histology: what the laboratory will say
  std::string recall;
};

class Player {
 public:
  Player(ledger::Ledger& ledger, const ledger::Protocol& protocol, const Date& today)
      : ledger_(ledger), protocol_(protocol), today_(today) {}

  DemoUnit play(int patients) {
    admit(patients);
    on(shifted(today_, -9), [this] { receive_faulty(); });
    while (!calendar_.empty()) {
      const auto next = calendar_.begin();
      const auto [day, act] = *next;
      calendar_.erase(next);
      clock_.go_to(day);
      act();
    }
    return unit_;
  }

 private:
  // What lies after today has not happened yet; what lies before the day in play happens on it.
  void on(Date day, std::function<void()> act) {
    day = std::max(day, clock_.today());
    if (day <= today_) calendar_.emplace(day, std::move(act));
  }

  ledger::Author author(const char* actor) const { return {actor, clock_}; }

  void admit(int patients) {
    for (const Scenario& scenario : scenarios()) {
      const int count = std::max(1, (scenario.of_300 * patients + 150) / 300);
      for (int i = 0; i < count; ++i) admit(scenario);
    }
  }

  void admit(const Scenario& scenario) {
    const Date anchor = shifted(today_, dice_.between(scenario.earliest_day, scenario.latest_day));
    const Date day = scenario.counted_from_due
                         ? *engine::add(anchor, engine::Months{-usual_months(scenario.findings)})
                         : anchor;
    auto course = std::make_shared<Course>(Course{scenario, {}, {}, {}});
    course->patient = people_.next(dice_.between(scenario.youngest, scenario.oldest), day);
    if (scenario.findings == Findings::lynch_syndrome) {
      course->patient["conditions"] = {{{"name", "lynch syndrome"}, {"gene", "MLH1"}}};
    }
    course->exam = examination(scenario.findings, next_exam(), day, dice_);
    ++unit_.patients;
    on(day, [this, course] { examine(course); });
  }

  std::string next_exam() { return "E" + std::to_string(++exams_ + 1000); }

  // --- what happens on a day

  void examine(const std::shared_ptr<Course>& course) {
    json exam = course->exam;
    if (course->scenario.pathology != Pathology::with_the_record) {
      for (json& lesion : exam["lesions"]) lesion["histology"] = nullptr;
    }
    const json record = {{"patient", course->patient},
                         {"exam", exam},
                         {"setting", {{"nation", "England"}, {"organised_screening", true}}}};
    const auto receipts =
        from_ledger(ledger::record(ledger_, author("j.pym"), protocol_, record.dump(), "endoscopy system"));
    answer(course, receipts.at(0));
    const Pathology pathology = course->scenario.pathology;
    if (pathology == Pathology::in_a_week) {
      on(shifted(clock_.today(), dice_.between(5, 9)), [this, course] { report(course, ""); });
    } else if (pathology == Pathology::first_pot_only) {
      on(shifted(clock_.today(), 6), [this, course] { report(course, "A"); });
    }
  }

  // The laboratory reports one pot, or all.
  void report(const std::shared_ptr<Course>& course, const std::string& pot) {
    std::map<std::string, json> pots;
    for (const json& lesion : course->exam["lesions"]) {
      const std::string specimen = lesion["specimen"];
      if (!pot.empty() && specimen != pot) continue;
      pots[specimen].push_back({{"id", lesion["id"]}, {"histology", lesion["histology"]}});
    }
    json specimens = json::array();
    for (const auto& [id, lesions] : pots) specimens.push_back({{"id", id}, {"lesions", lesions}});
    const json result = {{"exam", course->exam["id"]},
                         {"specimens", specimens},
                         {"reported", engine::text_of(clock_.today())},
                         {"reporter", "Dr L. Marchmont"}};
    const auto receipts =
        from_ledger(ledger::result(ledger_, author("laboratory"), protocol_, result.dump(), "laboratory"));
    answer(course, receipts.at(0));
  }

  void answer(const std::shared_ptr<Course>& course, const ledger::Receipt& receipt) {
    if (receipt.answers.empty()) return;
    const engine::Advice& advice = receipt.answers[receipt.chosen];
    const bool can_be_signed =
        advice.state == engine::AdviceState::settled && advice.action != engine::Action::individualise;
    if (!can_be_signed) return;
    if (course->scenario.fate == Fate::waits_for_signature) {
      if (unit_.exam_to_sign.empty() && advice.due) unit_.exam_to_sign = course->exam["id"];
      return;
    }
    on(shifted(clock_.today(), dice_.between(1, 4)),
       [this, course, action = *advice.action, due = advice.due, number = receipt.advice] {
         sign(course, action, due, number);
       });
  }

  void sign(const std::shared_ptr<Course>& course, engine::Action action,
            const std::optional<engine::Window>& due, std::uint64_t advice) {
    const std::string exam = course->exam["id"];
    ++unit_.signatures;
    if (course->scenario.fate == Fate::decided_otherwise && due) {
      const Date later = *engine::add(due->from, engine::Months{12});
      decide(course, advice, engine::Action::surveillance_colonoscopy, later,
             "recovering from a stroke, agreed with the patient");
      return;
    }
    // "Repeat" without a date is for the clinician to date.
    if (action == engine::Action::repeat_examination && !due) {
      const Date soon = shifted(clock_.today(), 28);
      decide(course, advice, action, soon, "repeat with split-dose preparation within four weeks");
      follow(course, soon);
      return;
    }
    const auto done = from_ledger(ledger::sign(ledger_, author("r.hazelmere"), exam, consultant, advice));
    course->recall = done.recall;
    if (due && !done.recall.empty()) follow(course, due->from);
  }

  void decide(const std::shared_ptr<Course>& course, std::uint64_t advice, engine::Action action,
              const Date& due, const char* reason) {
    const std::string exam = course->exam["id"];
    const ledger::Decision decision{action, engine::Window{due, due}, reason};
    course->recall = from_ledger(ledger::override_advice(ledger_, author("r.hazelmere"), exam, consultant,
                                                         decision, advice))
                         .recall;
  }

  void move(const std::shared_ptr<Course>& course, const Date& day, Move move,
            const ledger::MoveDetails& details) {
    on(day, [this, course, move, details] {
      from_ledger(ledger::move_recall(ledger_, author("j.pym"), course->recall, move, details));
    });
  }

  // The way of an open recall, as far as its scenario goes.
  void follow(const std::shared_ptr<Course>& course, const Date& due) {
    const Fate fate = course->scenario.fate;
    switch (fate) {
      case Fate::vetted:
      case Fate::invited:
      case Fate::booked:
      case Fate::did_not_attend:
        move(course, shifted(due, -42), Move::vet, {consultant, "", "", {}, {}, {}});
        if (fate == Fate::vetted) break;
        move(course, shifted(due, -35), Move::invite, {"", "", "letter", {}, {}, {}});
        if (fate == Fate::invited) break;
        move(course, shifted(due, -28), Move::book, {"", "", "", {}, {}, std::max(due, clock_.today())});
        if (fate == Fate::booked) break;
        move(course, due, Move::miss, {});
        break;
      case Fate::not_ready:
        move(course, shifted(due, -20), Move::defer,
             {"", "waits for a heart operation", "", shifted(due, -20), shifted(due, 100), {}});
        break;
      case Fate::came:
        on(shifted(due, dice_.between(-10, 25)), [this, course] { come(course); });
        break;
      case Fate::closed:
        move(course, shifted(due, -20), Move::close,
             {consultant, "the patient declines further surveillance after discussion", "", {}, {}, {}});
        break;
      case Fate::handed_over:
        move(course, shifted(clock_.today(), 30), Move::hand_over,
             {"", "to the screening programme", "", {}, {}, {}});
        break;
      case Fate::died:
        on(shifted(today_, -12), [this, course] { leave(course, ledger::report_death); });
        break;
      case Fate::moved_away:
        on(shifted(today_, -12), [this, course] { leave(course, ledger::report_move_away); });
        break;
      case Fate::waits_for_signature:
      case Fate::signed_only:
      case Fate::decided_otherwise:
        break;
    }
  }

  // The next examination, with nothing found.
  void come(const std::shared_ptr<Course>& course) {
    Scenario after = course->scenario;
    after.pathology = Pathology::with_the_record;
    after.fate = Fate::signed_only;
    auto next = std::make_shared<Course>(Course{after, course->patient, {}, {}});
    next->exam = examination(Findings::none, next_exam(), clock_.today(), dice_);
    next->exam["indication"] =
        course->scenario.findings == Findings::large_in_pieces ? "site check" : "surveillance";
    examine(next);
  }

  void leave(const std::shared_ptr<Course>& course,
             engine::Result<engine::Done> (*write)(ledger::Ledger&, const ledger::Author&, const std::string&,
                                                   const Date&)) {
    const std::string number = course->patient["identifiers"][0]["value"];
    from_ledger(write(ledger_, author("j.pym"), "nhs-number:" + number, clock_.today()));
  }

  // Two records that no one could have meant, and a result for no known examination.
  void receive_faulty() {
    const std::string day = engine::text_of(clock_.today());
    json record = {{"patient", people_.next(60, clock_.today())},
                   {"exam", examination(Findings::one_small_adenoma, next_exam(), clock_.today(), dice_)}};
    record["exam"]["lesions"][0]["size_mm"] = 900;
    json other = record;
    other["exam"]["date"] = day.substr(0, 4) + "-02-30";
    other["exam"]["lesions"][0]["size_mm"] = 6;
    const std::string lines = record.dump() + "\n" + other.dump() + "\n";
    const json unknown = {{"exam", "E99999"},
                          {"specimens", {{{"id", "A"}, {"histology", {{"type", "tubular adenoma"}}}}}},
                          {"reported", day}};
    from_ledger(ledger::result(ledger_, author("laboratory"), protocol_, unknown.dump(), "laboratory"));
    unit_.refused +=
        from_ledger(ledger::record(ledger_, author("j.pym"), protocol_, lines, "endoscopy system")).size();
  }

  ledger::Ledger& ledger_;
  const ledger::Protocol& protocol_;
  Date today_;
  DemoClock clock_;
  Dice dice_{2026};
  People people_{dice_};
  std::multimap<Date, std::function<void()>> calendar_;  // of one day: in the order in which it was put in
  int exams_ = 0;
  DemoUnit unit_;
};

}  // namespace

engine::Result<DemoUnit> play_demo_unit(ledger::Ledger& ledger, const ledger::Protocol& protocol,
                                        const Date& today, int patients) {
  try {
    return Player(ledger, protocol, today).play(patients);
  } catch (const Failure& failure) {
    return failure.errors;
  }
}

}  // namespace cli
