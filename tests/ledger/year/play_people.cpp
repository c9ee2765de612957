// What happens to people, and to the rules.

#include <algorithm>

#include "ledger/choice.h"
#include "ledger/year/play.h"

namespace year {

void Play::people() {
  const auto gone = [&](int who) { return unit_.book.gone(who); };
  if (dice_.percent(60)) {
    const int who = anybody();
    if (gone(who).empty()) {
      unit_.die(who, plus(unit_.book.today, -dice_.between(0, 20)));
      if (dice_.percent(30)) {
        in_days(10, 60, [this, who] {
          if (unit_.book.gone(who).starts_with("died")) unit_.be_alive(who);
        });
      }
    }
  }
  if (dice_.percent(40)) {
    const int who = anybody();
    if (gone(who).empty()) {
      unit_.move_away(who, unit_.book.today);
      if (dice_.percent(50)) {
        in_days(15, 90, [this, who] {
          if (unit_.book.gone(who).starts_with("moved")) unit_.move_back(who);
        });
      }
    }
  }
}

// Numbers that came under another hospital's identifier are found out to be someone known, some of them
// wrongly.
void Play::merges() {
  std::vector<std::pair<int, int>> pairs;
  const auto& patients = unit_.book.patients;
  for (std::size_t i = 0; i < patients.size(); ++i) {
    const bool is_other = patients[i].described.at("identifiers").at(0).at("system") == "other-hospital";
    if (!is_other || patients[i].number.empty() || patients[i].merged_into) continue;
    for (std::size_t j = 0; j < patients.size(); ++j) {
      const bool is_same = patients[j].described.at("name") == patients[i].described.at("name") &&
                           patients[j].described.at("birth_date") == patients[i].described.at("birth_date");
      if (i != j && is_same && !patients[j].number.empty())
        pairs.emplace_back(static_cast<int>(j), static_cast<int>(i));
    }
  }
  for (const auto& [survivor, merged] : pairs) {
    const int kept = unit_.book.survivor(survivor), other = unit_.book.survivor(merged);
    if (kept == other || other != merged || !dice_.percent(40)) continue;
    unit_.merge(kept, other);
    merged_.push_back(other);
    if (dice_.percent(35)) {
      in_days(20, 100, [this, other] {
        const auto& number = unit_.book.patients.at(static_cast<std::size_t>(other));
        // A number whose survivor was merged further cannot be taken out in between.
        if (number.merged_into && *number.merged_into == unit_.book.survivor(other)) unit_.unmerge(other);
      });
    }
  }
}

// The rules of 2010 until the end of June, those of 2020 from July on.
void Play::change_of_rules() {
  unit_.adopt({"uk-2010", "uk-ibd-2010"}, Date{2026, 1, 1}, {});
  on(Date{2026, 6, 24}, [this] {
    Terms terms;
    terms.late_after = 35;
    terms.age_limit = 74;
    terms.settings = {{"nation", "England"}};
    unit_.adopt({"uk-2020", "uk-ibd-2010"}, Date{2026, 7, 1}, terms);
  });
  on(Date{2026, 7, 1}, [this] { revet(); });
}

// Every open recall and every case that a rule closed is answered anew; who moves, and who has not been
// signed, is advised again and signed in the clinics that follow.
void Play::revet() {
  const std::vector<std::string> rulesets = unit_.rulesets_in_force();
  const ledger::Revetted found = unit_.revet(rulesets);
  Book& book = unit_.book;
  std::set<std::string> moved;
  for (const auto& line : found.moved) {
    INFO("re-vetting of " << line.exam << " " << line.recall);
    CHECK((line.recall.empty() || book.recalls.at(line.recall).is_open()));
    moved.insert(line.exam);
  }
  std::uint64_t open = 0, changed = 0;
  for (const auto& [id, recall] : book.recalls) {
    if (!recall.is_open()) continue;
    ++open;
    if (!recall.follows.empty() && book.recalls.at(recall.follows).advice == recall.advice) continue;
    const Examination& exam = book.exams.at(recall.exam);
    const auto answers = unit_.ask(rulesets, exam, exam.basis);
    const engine::Advice& answer = answers[ledger::choose(answers).chosen];
    const bool stays = answer.state == engine::AdviceState::settled && answer.action &&
                       engine::text_of(*answer.action) == recall.action && answer.due &&
                       answer.due->from == recall.due;
    INFO("re-vetting of recall " << id << " of " << recall.exam);
    CHECK(moved.contains(recall.exam) == !stays);
    changed += stays ? 0 : 1;
  }
  CHECK(changed > 0);
  CHECK(found.read() >= open);
  for (const auto& [id, exam] : book.exams) {
    if (exam.outcome.empty()) moved.insert(id);
  }
  for (const std::string& exam : moved) unit_.advise_again(exam);
  unit_.played["re-vetted"] += static_cast<int>(found.read());
}

}  // namespace year
