// Deaths, moves, merges, and their reversals.

#include <algorithm>

#include "ledger/year/unit.h"

namespace year {

using support::value_of;

void Unit::die(int who, const Date& on) {
  Patient& patient = book.patients.at(static_cast<std::size_t>(who));
  patient.gone = "died " + engine::text_of(on);
  Expected expected;
  expected.add("person died", std::to_string(who));
  value_of(ledger::report_death(at.ledger, office(), identifier_of(who), on));
  absorb("death", std::move(expected));
  ++played["died"];
}

void Unit::move_away(int who, const Date& on) {
  Patient& patient = book.patients.at(static_cast<std::size_t>(who));
  patient.gone = "moved away " + engine::text_of(on);
  Expected expected;
  expected.add("person moved away", std::to_string(who));
  value_of(ledger::report_move_away(at.ledger, office(), identifier_of(who), on));
  absorb("move away", std::move(expected));
  ++played["moved away"];
}

namespace {

/// Takes the report back from each number that carries it; gives the entry of the last such report.
std::uint64_t take_back(Book& book, int who, const std::string& status, std::uint64_t Patient::*reported,
                        const std::string& kind, Expected& expected) {
  std::uint64_t last = 0;
  for (const int number : book.numbers_of(who)) {
    Patient& patient = book.patients.at(static_cast<std::size_t>(number));
    last = std::max(last, patient.*reported);
    if (!patient.gone.starts_with(status)) continue;
    patient.gone.clear();
    expected.add(kind, std::to_string(number));
  }
  return last;
}

std::vector<std::string> closed_since(Book& book, int who, std::uint64_t entry) {
  std::vector<std::string> found;
  for (const auto& [id, recall] : book.recalls) {
    if (recall.state == "closed" && recall.closed_at > entry && book.are_one(book.who_of(recall), who))
      found.push_back(id);
  }
  std::sort(found.begin(), found.end());
  return found;
}

}  // namespace

void Unit::be_alive(int who) {
  Expected expected;
  const auto died = take_back(book, who, "died", &Patient::died_at, "person death reversed", expected);
  const auto closed = closed_since(book, who, died);
  auto told = value_of(ledger::report_alive(at.ledger, office(), identifier_of(who), "rang up"));
  std::sort(told.begin(), told.end());
  CHECK(told == closed);
  absorb("death reversed", std::move(expected));
  ++played["death reversed"];
  if (!closed.empty()) ++played["death reversed after a recall was closed"];
  for (const std::string& recall : closed) {
    ledger::MoveDetails details;
    details.reason = "closed for a death that was none";
    if (book.can_be_reopened(book.recalls.at(recall))) move(recall, ledger::Move::reopen, details);
  }
}

void Unit::move_back(int who) {
  Expected expected;
  const auto moved = take_back(book, who, "moved away", &Patient::moved_at, "person moved back", expected);
  const auto closed = closed_since(book, who, moved);
  auto told = value_of(ledger::report_move_back(at.ledger, office(), identifier_of(who), "has come back"));
  std::sort(told.begin(), told.end());
  CHECK(told == closed);
  absorb("moved back", std::move(expected));
  ++played["moved back"];
}

void Unit::merge(int survivor, int merged) {
  Patient& other = book.patients.at(static_cast<std::size_t>(merged));
  std::set<std::string> of_other;
  for (const Examination* exam : book.exams_of(merged)) of_other.insert(exam->id);
  for (const auto& [id, recall] : book.recalls) {
    if (recall.is_open() && of_other.contains(recall.exam)) ++played["merged with an open recall"];
  }
  for (const std::string& id : of_other) {
    if (book.exams.at(id).awaited() > 0) ++played["merged while histology is awaited"];
  }
  if (!book.gone(merged).empty() || !book.gone(survivor).empty()) ++played["merged when gone"];
  other.merged_into = survivor;
  book.ever_merged.insert(merged);
  Expected expected;
  expected.add("person merged", std::to_string(survivor));
  book.give_changed_advice(book.exams_of(survivor), expected);
  book.answer_all(
      survivor,
      [&](const Recall& recall, const Examination& exam) {
        return !recall.id.starts_with("new ") && of_other.contains(recall.exam) == of_other.contains(exam.id);
      },
      expected);
  const auto done = value_of(ledger::merge_people(at.ledger, consultant(), protocol_, identifier_of(survivor),
                                                  identifier_of(merged), {clinician, "one person"}));
  absorb("merge " + done.survivor + " and " + done.merged, std::move(expected));
  ++played["merged"];
}

void Unit::unmerge(int merged) {
  Patient& other = book.patients.at(static_cast<std::size_t>(merged));
  const int survivor = *other.merged_into;
  other.merged_into.reset();
  Expected expected;
  expected.add("person merge reversed", std::to_string(survivor));
  for (const int who : {survivor, merged}) {
    std::set<std::string> reopened;
    const auto is_of_another = [&](const Recall& recall) {
      if (recall.follows.empty()) return false;
      const Recall& before = book.recalls.at(recall.follows);
      return before.advice == recall.advice && !book.are_one(book.who_of(before), book.who_of(recall));
    };
    for (Recall* recall : book.unended_recalls_of(who)) {
      if (is_of_another(*recall)) book.close(*recall, expected);
    }
    for (auto& [id, recall] : book.recalls) {
      if (recall.state != "answered" || !book.are_one(book.who_of(recall), who)) continue;
      if (book.are_one(book.exams.at(recall.answered_by).who, who) || is_of_another(recall)) continue;
      if (book.open_recall_following(recall.exam) != nullptr) continue;
      book.reopen(recall, expected);
      reopened.insert(id);
    }
    book.give_changed_advice(book.exams_of(who), expected);
    book.answer_all(
        who,
        [&](const Recall& recall, const Examination&) {
          return !recall.id.starts_with("new ") && !reopened.contains(recall.id);
        },
        expected);
    book.look_again_at_unfollowed(who, expected);
  }
  const std::string number = other.number;
  value_of(ledger::reverse_merge(at.ledger, consultant(), protocol_, number, {clinician, "two people"}));
  absorb("unmerge " + number, std::move(expected));
  ++played["unmerged"];
}

}  // namespace year
