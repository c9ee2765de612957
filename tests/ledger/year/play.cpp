// What comes in. What is done about it stands in play_staff.cpp, what happens to people in play_people.cpp.

#include "ledger/year/play.h"

#include <algorithm>

#include "ledger/year/findings.h"

namespace year {

namespace {

const Date first_day{2026, 1, 1}, last_day{2026, 12, 31};

bool is_last_of_month(const Date& day) {
  return plus(day, 1).month != day.month;
}

/// 0 on Mondays. 1 January 2026 was a Thursday.
std::int64_t day_of_week(const Date& day) {
  return (days_from(first_day, day) + 3) % 7;
}

}  // namespace

void Play::on(const Date& day, Act act) {
  calendar_.emplace(std::max(day, plus(unit_.book.today, 1)), std::move(act));
}

void Play::in_days(int least, int most, Act act) {
  on(plus(unit_.book.today, dice_.between(least, most)), std::move(act));
}

void Play::play(const std::function<void()>& at_month_end) {
  change_of_rules();
  for (Date day = first_day; day <= last_day; day = plus(day, 1)) {
    unit_.go_to(day);
    while (!calendar_.empty() && calendar_.begin()->first <= day) {
      const Act act = calendar_.begin()->second;
      calendar_.erase(calendar_.begin());
      act();
    }
    play_day();
    if (is_last_of_month(day)) at_month_end();
  }
}

void Play::play_day() {
  const std::int64_t day = day_of_week(unit_.book.today);
  if (day >= 5) return;
  examinations_of_the_day();
  corrections();
  if (day == 1 || day == 4) clinic();
  if (day == 0 || day == 3) office();
  if (day == 2) {
    letters();
    people();
    merges();
    close_those_to_be_closed();
    settle_inputs();
  }
}

// --- examinations

void Play::examinations_of_the_day() {
  if (unit_.book.today.month == 1) old_list();
  const int more = unit_.book.today.month >= 11 ? 2 : 0;  // the number is reached before the year ends
  for (int left = dice_.between(4, 6) + more; left > 0; --left) {
    const int thrown = dice_.between(1, 100);
    if (thrown <= 12) {
      examine_for_a_recall();
    } else if (thrown <= 16) {
      examine(anybody(), unit_.book.today, "symptoms");
    } else {
      examine_new_patient();
    }
  }
}

// Patients of the years before: their surveillance falls due in this one.
void Play::old_list() {
  std::vector<std::pair<int, json>> batch;
  for (int i = 0; i < 18 && examined_ < wanted_ / 4; ++i) {
    const int years = dice_.percent(30) ? 1 : 3;
    const Date day = plus(unit_.book.today, -365 * years + dice_.between(-120, 270));
    const int who = unit_.admit(patients_.next(dice_.between(45, 80), day));
    if (day < unit_.book.today) batch.emplace_back(who, examination(next_id(), day, "screening", dice_));
  }
  if (!batch.empty()) unit_.record_batch(batch);
}

void Play::examine_new_patient() {
  json patient = patients_.next(dice_.between(38, 82), unit_.book.today);
  if (dice_.percent(2)) patient["conditions"] = {{{"name", "lynch syndrome"}, {"gene", "MLH1"}}};
  if (dice_.percent(2)) {
    patient["conditions"] = {{{"name", "ulcerative colitis"},
                              {"onset", "2010"},
                              {"extent", "extensive"},
                              {"activity", "mild"},
                              {"post_inflammatory_polyps", false},
                              {"stricture", false},
                              {"dysplasia_within_5_years", false}}};
  }
  // The NHS number comes later for some.
  if (dice_.percent(5)) {
    const json nhs = patient["identifiers"][0];
    patient["identifiers"].erase(0);
    const int who = unit_.admit(patient);
    in_days(10, 60, [this, who, nhs] {
      json& identifiers = unit_.book.patients.at(static_cast<std::size_t>(who)).described["identifiers"];
      if (!unit_.book.patients.at(static_cast<std::size_t>(who)).merged_into) identifiers.push_back(nhs);
    });
    return examine(who, unit_.book.today, "screening");
  }
  examine(unit_.admit(patient), unit_.book.today, dice_.percent(60) ? "screening" : "symptoms");
}

// Somebody with an open recall comes: mostly whoever is due, now and then early; some of them under a number
// of another hospital, as if nobody knew them.
void Play::examine_for_a_recall() {
  const Date soon = plus(unit_.book.today, 30);
  const std::string recall = any_recall([&](const Recall& candidate) {
    return candidate.is_open() && candidate.state != "booked" && candidate.state != "attended" &&
           (candidate.due <= soon || dice_.percent(3));
  });
  if (recall.empty()) return examine_new_patient();
  const Recall& found = unit_.book.recalls.at(recall);
  int who = unit_.book.who_of(found);
  if (dice_.percent(20)) {
    const json& known = unit_.book.patients.at(static_cast<std::size_t>(who)).described;
    who = unit_.admit(patients_.under_another_number(known));
  } else if (dice_.percent(20)) {
    unit_.book.patients.at(static_cast<std::size_t>(who)).described.erase("conditions");
    ++unit_.played["background left out"];
  }
  examine(who, unit_.book.today, found.action == "site check" ? "site check" : "surveillance");
}

// The unit has its number of examinations some weeks before the year ends, so that every late record comes.
void Play::examine(int who, const Date& day, const std::string& indication) {
  if (examined_ == wanted_) return;
  const json exam = examination(next_id(), day, indication, dice_);
  const bool is_known = !unit_.book.patients.at(static_cast<std::size_t>(who)).number.empty();
  if (dice_.percent(is_known ? 12 : 4)) return trouble(who, exam);
  // Some records come days after the examination.
  const bool later = dice_.percent(72);
  if (dice_.percent(85)) return send(who, exam, later);
  in_days(1, 12, [this, who, exam, later] { send(who, exam, later); });
}

void Play::send(int who, const json& exam, bool histology_comes_later) {
  const json given = histology_comes_later ? awaiting_histology(exam) : exam;
  unit_.record(who, given, exam);
  if (dice_.percent(4)) unit_.record(who, given, exam);
  if (dice_.percent(3)) in_days(1, 30, [this, who, given, exam] { unit_.record(who, given, exam); });
  if (histology_comes_later && !pots_of(exam).empty()) laboratory(exam.at("id"));
}

// --- what the laboratory says, and when

void Play::laboratory(const std::string& exam) {
  const int thrown = dice_.between(1, 100);
  const auto all = [this, exam] { report(exam, {}); };
  const std::vector<std::string> pots = pots_of(unit_.book.exams.at(exam).truth);
  if (thrown <= 70) return in_days(4, 10, all);
  if (thrown <= 88) return in_days(15, 45, all);
  if (thrown <= 90) return;  // never
  in_days(4, 9, [this, exam, pots] { report(exam, {pots.front()}); });
  in_days(10, 30, all);
}

void Play::report(const std::string& id, const std::vector<std::string>& pots) {
  const json truth = unit_.book.exams.at(id).truth;
  std::vector<std::string> named = pots.empty() ? pots_of(truth) : pots;
  if (named.empty()) return;
  const json report = result_for(truth, named, unit_.book.today);
  if (dice_.percent(2)) {
    json faulty = report;
    faulty["specimens"][0]["lesions"][0]["histology"]["type"] = "something red";
    unit_.refuse_result(faulty);
  }
  unit_.result(id, report);
  if (dice_.percent(6)) unit_.result(id, report);
  if (dice_.percent(6)) {
    in_days(5, 60, [this, id, named] {
      Examination& exam = unit_.book.exams.at(id);
      exam.truth = reported_otherwise(exam.truth);
      unit_.result(id, result_for(exam.truth, named, unit_.book.today));
    });
  }
  if (dice_.percent(4)) {
    in_days(3, 50, [this, id, report] {
      const json& lesions = unit_.book.exams.at(id).exam.at("lesions");
      const bool has_histology = std::any_of(lesions.begin(), lesions.end(), [](const json& lesion) {
        return !lesion.at("histology").is_null();
      });
      if (!has_histology) return;
      unit_.withdraw(id);
      if (dice_.percent(90)) in_days(2, 20, [this, id, report] { unit_.result(id, report); });
    });
  }
}

// --- what goes wrong on the way in

void Play::trouble(int who, const json& exam) {
  const int thrown = dice_.between(1, 3);
  if (thrown == 1) {
    json faulty = exam;
    faulty["place"] = "";
    faulty["lesion"] = "none";
    unit_.refuse_record(who, faulty);
    if (dice_.percent(50)) unit_.refuse_record(who, faulty);
    return in_days(1, 5, [this, who, exam] { send(who, exam, true); });
  }
  if (thrown == 2 && !unit_.book.patients.at(static_cast<std::size_t>(who)).number.empty()) {
    unit_.misidentify(who, exam);
    return in_days(1, 5, [this, who, exam] { send(who, exam, true); });
  }
  const json report = result_for(exam, {}, unit_.book.today);
  if (report.at("specimens").empty()) return send(who, exam, false);
  unit_.result_too_early(report);
  in_days(1, 5, [this, who, exam, report] {
    const bool with_histology = dice_.percent(30);
    unit_.record(who, with_histology ? exam : awaiting_histology(exam), exam);
    unit_.result(exam.at("id"), report);
  });
}

// Records are sent again with something corrected.
void Play::corrections() {
  if (!dice_.percent(60)) return;
  const std::string id = any_exam([&](const Examination& exam) {
    return days_from(exam.date, unit_.book.today) < 150 && days_from(exam.date, unit_.book.today) > 3;
  });
  if (id.empty()) return;
  const Examination& known = unit_.book.exams.at(id);
  json given = known.given, truth = known.truth;
  const auto correct = [&](const std::function<void(json&)>& change) {
    change(given);
    change(truth);
  };
  const int thrown = dice_.between(1, 100);
  if (thrown <= 15) {
    correct([&](json& exam) {
      exam["complications"] = json::array({{{"kind", "bleeding"}, {"on", exam.at("date")}}});
    });
  } else if (thrown <= 30) {
    correct([](json& exam) { exam["place"] = "Room 2"; });
  } else if (thrown <= 65 && !given.at("lesions").empty()) {
    const int size = dice_.between(4, 24);
    correct([&](json& exam) { exam["lesions"][0]["size_mm"] = size; });
  } else {
    const Date day = std::min(plus(known.date, dice_.between(-25, 25)), unit_.book.today);
    correct([&](json& exam) {
      exam["date"] = engine::text_of(day);
      if (exam.contains("complications")) exam["complications"][0]["on"] = exam["date"];
      if (!exam.contains("specimens")) return;
      for (json& pot : exam["specimens"]) pot["sent"] = engine::text_of(day);
    });
  }
  unit_.record(known.who, given, truth);
  if (dice_.percent(40)) unit_.advise_again(id);
}

int Play::anybody() {
  while (true) {
    const int who = dice_.between(0, static_cast<int>(unit_.book.patients.size()) - 1);
    if (!unit_.book.patients.at(static_cast<std::size_t>(who)).number.empty()) return who;
  }
}

std::string Play::any_exam(const std::function<bool(const Examination&)>& suits) {
  std::vector<std::string> found;
  for (const auto& [id, exam] : unit_.book.exams) {
    if (suits(exam)) found.push_back(id);
  }
  return found.empty() ? "" : dice_.one_of(found);
}

std::string Play::any_recall(const std::function<bool(const Recall&)>& suits) {
  std::vector<std::string> found;
  for (const auto& [id, recall] : unit_.book.recalls) {
    if (suits(recall)) found.push_back(id);
  }
  return found.empty() ? "" : dice_.one_of(found);
}

}  // namespace year
