// What the consultant and the office do with the book's lists.

#include "ledger/year/play.h"

namespace year {

using engine::Action;
using ledger::Move;

void Play::clinic() {
  auto lists = unit_.book.lists();
  for (const std::string& exam : lists["to-sign"]) {
    if (!dice_.percent(80)) continue;
    if (dice_.percent(5)) {
      decide_on(exam);
    } else {
      unit_.sign(exam);
    }
  }
  for (const std::string& exam : lists["unplanned"]) {
    if (!lists["to-sign"].contains(exam) && dice_.percent(40)) decide_on(exam);
  }
  for (const std::string& id : lists["to-vet"]) {
    if (!unit_.book.recalls.at(id).is_open() || !dice_.percent(60)) continue;
    if (unit_.book.recalls.at(id).state != "opened") continue;
    ledger::MoveDetails details;
    details.reason = "seen in the notes";
    if (dice_.percent(6)) details.result = ledger::Vetting::clinic;
    if (dice_.percent(2)) details.result = ledger::Vetting::stop;
    unit_.move(id, Move::vet, details);
  }
}

// By the person and not by the rule: soon, in some time, or not at all.
void Play::decide_on(const std::string& exam) {
  const int thrown = dice_.between(1, 100);
  if (thrown <= 45)
    return unit_.decide(exam, Action::repeat_examination, plus(unit_.book.today, dice_.between(14, 70)));
  if (thrown <= 70)
    return unit_.decide(exam, Action::surveillance_colonoscopy,
                        plus(unit_.book.today, dice_.between(60, 900)));
  if (thrown <= 80)
    return unit_.decide(exam, Action::site_check, plus(unit_.book.today, dice_.between(60, 120)));
  unit_.decide(exam, thrown <= 90 ? Action::refer : Action::no_surveillance, std::nullopt);
}

void Play::letters() {
  const auto sent = unit_.book.letters;
  for (const Letter& letter : sent) {
    if (!unit_.book.is_wrong(letter) || unit_.book.exams.at(letter.exam).outcome.empty()) continue;
    if (dice_.percent(70)) unit_.letter(letter.exam, letter.recipient);
  }
  for (int i = 0; i < 12; ++i) {
    const std::string exam =
        any_exam([](const Examination& candidate) { return !candidate.outcome.empty(); });
    if (!exam.empty()) unit_.letter(exam, dice_.percent(70) ? "patient" : "family doctor");
  }
}

void Play::office() {
  const Date soon = plus(unit_.book.today, 42);
  std::vector<std::string> recalls;
  for (const auto& [id, recall] : unit_.book.recalls) {
    if (!recall.has_ended() && (recall.due <= soon || recall.state == "booked" || recall.state == "attended"))
      recalls.push_back(id);
  }
  for (const std::string& id : recalls) {
    if (!unit_.book.recalls.at(id).has_ended() && dice_.percent(45)) work_on(id);
  }
  // Somebody thinks better of it.
  if (dice_.percent(25)) {
    const std::string id =
        any_recall([&](const Recall& recall) { return unit_.book.can_be_reopened(recall); });
    ledger::MoveDetails details;
    details.reason = "the patient asked for it";
    if (!id.empty()) unit_.move(id, Move::reopen, details);
  }
}

void Play::invite(const std::string& id) {
  if (unit_.book.recalls.at(id).attempts < 5) return unit_.move(id, Move::invite, {});
  unit_.try_in_vain(id, Move::invite,
                    unit_.book.recalls.at(id).state == "no reply" ? "move_not_allowed" : "ladder_used_up");
}

void Play::work_on(const std::string& id) {
  const Recall& recall = unit_.book.recalls.at(id);
  ledger::MoveDetails details;
  if (recall.state == "booked" || recall.state == "attended") return after_appointment(id);
  if (recall.state == "handed over") {
    if (dice_.percent(15)) unit_.move(id, Move::take_back, {});
    return;
  }
  if (recall.state == "clinic") {
    if (dice_.percent(40)) unit_.move(id, Move::vet, {});
    return;
  }
  const int thrown = dice_.between(1, 100);
  details.reason = "as the patient wishes";
  if (thrown <= 50 && recall.state != "no reply") return invite(id);
  if (thrown <= 75) {
    details.on = plus(unit_.book.today, dice_.between(3, 30));
    return unit_.move(id, Move::book, details);
  }
  if (thrown <= 80) {
    details.from = plus(unit_.book.today, dice_.between(-5, 10));
    details.to = plus(*details.from, dice_.between(5, 60));
    return unit_.move(id, Move::defer, details);
  }
  if (thrown <= 82) {
    details.from = plus(unit_.book.today, dice_.between(20, 90));
    in_days(2, 30, [this, id] { move_back(id); });
    return unit_.move(id, Move::redate, details);
  }
  if (thrown <= 83) return unit_.move(id, Move::hand_over, details);
  if (thrown <= 85 || (thrown <= 90 && recall.state == "no reply"))
    return unit_.move(id, Move::close, details);
  if (thrown <= 87) unit_.try_in_vain(id, Move::take_back, "move_not_allowed");
}

// To the day that was signed, whatever came in between.
void Play::move_back(const std::string& id) {
  const Recall& recall = unit_.book.recalls.at(id);
  const auto signed_for = unit_.book.exams.at(recall.exam).step.due;
  if (!recall.is_open() || !recall.is_moved || !signed_for || *signed_for == recall.due) return;
  ledger::MoveDetails details;
  details.reason = "thought better of it";
  details.from = signed_for;
  unit_.move(id, Move::redate, details);
}

void Play::after_appointment(const std::string& id) {
  const Recall& recall = unit_.book.recalls.at(id);
  const int who = unit_.book.who_of(recall);
  const std::string indication = recall.action == "site check" ? "site check" : "surveillance";
  ledger::MoveDetails details;
  details.reason = "rang to cancel";
  if (recall.state == "attended") {
    if (dice_.percent(60)) examine(who, unit_.book.today, indication);
    return;
  }
  if (unit_.book.today < *recall.booked_for) {
    if (dice_.percent(8)) unit_.move(id, Move::cancel, details);
    return;
  }
  const int thrown = dice_.between(1, 100);
  if (thrown <= 25) return unit_.move(id, Move::miss, {});
  if (thrown <= 50) return unit_.move(id, Move::attend, {});
  if (thrown <= 90) examine(who, *recall.booked_for, indication);
}

void Play::close_those_to_be_closed() {
  auto lists = unit_.book.lists();
  for (const std::string& id : lists["to-close"]) {
    const Recall& recall = unit_.book.recalls.at(id);
    const bool is_gone = !unit_.book.gone(unit_.book.who_of(recall)).empty();
    ledger::MoveDetails details;
    details.reason = is_gone ? "gone" : "too frail for another";
    if (dice_.percent(30) && (is_gone || dice_.percent(20))) unit_.move(id, Move::close, details);
  }
}

void Play::settle_inputs() {
  for (std::size_t i = unit_.book.waiting.size(); i > 0; --i) {
    const bool is_old = days_from(unit_.book.waiting[i - 1].day, unit_.book.today) > 14;
    if (is_old && dice_.percent(50)) unit_.settle(i - 1);
  }
}

}  // namespace year
