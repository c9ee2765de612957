// What the consultant signs and decides, and the letters that follow.

#include "engine/canonical.h"
#include "ledger/advising.h"
#include "ledger/signing.h"
#include "ledger/year/unit.h"

namespace year {

using support::value_of;

namespace {

std::optional<Date> date_at(const json& due, const char* end) {
  if (!due.is_object()) return std::nullopt;
  return engine::parse_date(due.at(end).get<std::string>());
}

}  // namespace

void Unit::sign(const std::string& id) {
  Examination& exam = book.exams.at(id);
  Expected expected;
  expected.add("advice signed", id);
  const Step step{exam.action(), date_at(exam.chosen.at("due"), "from"),
                  date_at(exam.chosen.at("due"), "to")};
  exam.outcome = "signed";
  book.carry_out(exam, step, exam.chosen.at("then"), exam.chosen.at("counted_from"), expected);
  value_of(ledger::sign(at.ledger, consultant(), id, clinician, exam.advice));
  absorb("sign " + id, std::move(expected));
  ++played["signed"];
}

void Unit::decide(const std::string& id, engine::Action action, std::optional<Date> due) {
  Examination& exam = book.exams.at(id);
  Expected expected;
  expected.add("advice overridden", id);
  ledger::Decision decision{action, std::nullopt, "as discussed with the patient"};
  if (due) decision.due = engine::Window{*due, plus(*due, 30)};
  const Step step{std::string(engine::text_of(action)), due,
                  due ? std::optional(plus(*due, 30)) : std::nullopt};
  exam.outcome = "overridden";
  book.carry_out(exam, step, json::array(), json(), expected);
  value_of(ledger::override_advice(at.ledger, consultant(), id, clinician, decision, exam.advice));
  absorb("override " + id, std::move(expected));
  ++played["overridden"];
}

void Unit::advise_again(const std::string& id) {
  Examination& exam = book.exams.at(id);
  bool is_by_others = false;
  for (std::size_t i = 0; i < exam.answers.size(); ++i) {
    const json& ruleset = exam.answers[i].at("ruleset");
    is_by_others = is_by_others || (ruleset.is_object() && ruleset.at("id") != in_force_.rulesets.at(i));
  }
  Expected expected;
  const std::size_t before = expected.entries.size();
  if (is_by_others) {
    book.give_advice(exam, expected);
  } else {
    book.give_changed_advice({&exam}, expected);
  }
  if (expected.entries.size() != before) ++played["advised again"];
  value_of(ledger::advise_again(at.ledger, office(), protocol_, id));
  absorb("advise again on " + id, std::move(expected));
}

void Unit::letter(const std::string& id, const std::string& recipient) {
  const Step said = book.told_of(book.exams.at(id));
  std::erase_if(book.letters,
                [&](const Letter& other) { return other.exam == id && other.recipient == recipient; });
  book.letters.push_back({id, recipient, said});
  Expected expected;
  expected.add("letter issued", id);
  const std::string text = "Examination " + id + ": " + said.action +
                           (said.due ? ", due " + engine::text_of(*said.due) : std::string());
  value_of(ledger::note_letter(at.ledger, office(), {id, "result", recipient, text}));
  absorb("letter about " + id, std::move(expected));
  ++played["letter"];
}

}  // namespace year
