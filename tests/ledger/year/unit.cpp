#include "ledger/year/unit.h"

#include <algorithm>

#include "engine/canonical.h"
#include "ledger/accounts.h"
#include "ledger/protocol.h"
#include "support/shipped_rulesets.h"

namespace year {

using support::value_of;

Unit::Unit() {
  at.clock.set("2026-01-01");
  book.today = at.clock.today();
  const auto name = [&](const char* account, const char* person, ledger::Role role) {
    value_of(ledger::name_account(at.ledger, consultant(), {account, person, role}, "works here"));
  };
  name("r.hazelmere", clinician, ledger::Role::consultant);
  name("j.pym", "J. Pym", ledger::Role::administrator);
  name("inbox", "the inbox", ledger::Role::administrator);
  read_to_ = value_of(at.ledger.checkpoint()).size;
}

int Unit::admit(json patient) {
  book.patients.push_back({});
  book.patients.back().described = std::move(patient);
  return static_cast<int>(book.patients.size()) - 1;
}

void Unit::go_to(const Date& day) {
  at.clock.set(day);
  book.today = day;
  for (const Adopted& adopted : adopted_) {
    if (adopted.from != day) continue;
    in_force_ = adopted;
    book.terms = adopted.terms;
    protocol_ =
        value_of(ledger::rulesets_of(at.ledger, value_of(ledger::protocol_in_force(at.ledger, day)).value()));
  }
}

std::string Unit::identifier_of(int who) const {
  const json& identifier = book.patients.at(static_cast<std::size_t>(who)).described.at("identifiers").at(0);
  return identifier.at("system").get<std::string>() + ":" + identifier.at("value").get<std::string>();
}

int Unit::who_has(const std::string& number) const {
  for (std::size_t i = 0; i < book.patients.size(); ++i) {
    if (book.patients[i].number == number) return static_cast<int>(i);
  }
  FAIL("nobody has the number " << number);
  return 0;
}

engine::Adviser& Unit::adviser(const std::string& ruleset) {
  auto& known = advisers_[ruleset];
  if (!known) {
    rulesets_[ruleset] = value_of(support::load_shipped(ruleset));
    known = std::make_unique<engine::Adviser>(rulesets_[ruleset]);
  }
  return *known;
}

std::vector<engine::Advice> Unit::ask(const std::vector<std::string>& rulesets, const Examination& exam,
                                      const json& basis) {
  std::vector<engine::Advice> answers;
  const auto record = engine::read_record(engine::canonical_json(basis), exam.id);
  for (const std::string& ruleset : rulesets) {
    answers.push_back(record ? adviser(ruleset).advise(*record, book.today, exam.id)
                             : engine::refused(exam.id, record.errors()));
  }
  return answers;
}

namespace {

std::string line(std::vector<std::string> words) {
  std::sort(words.begin(), words.end());
  std::string text;
  for (const std::string& word : words) text += (text.empty() ? "" : "; ") + word;
  return text;
}

}  // namespace

/// What an entry is about, in the words of the book.
std::string Unit::about(const std::string& kind, const json& body) {
  if (kind == "recall opened") return body.at("exam");
  if (body.contains("recall")) return body.at("recall");
  if (body.contains("exam")) return body.at("exam");
  if (kind == "person registered") {
    for (std::size_t i = 0; i < book.patients.size(); ++i) {
      Patient& patient = book.patients[i];
      if (!patient.number.empty() || patient.described.at("identifiers") != body.at("identifiers")) continue;
      patient.number = body.at("person");
      return std::to_string(i);
    }
  }
  if (kind.starts_with("person ")) return std::to_string(who_has(body.at("person")));
  if (kind == "input settled") return std::to_string(body.at("input").get<std::uint64_t>());
  return "";
}

void Unit::absorb(const std::string& act, Expected expected) {
  std::vector<ledger::Entry> entries;
  value_of(at.ledger.each_entry(read_to_ + 1, [&](const ledger::Entry& entry) { entries.push_back(entry); }));
  std::vector<std::string> found;
  for (const ledger::Entry& entry : entries) {
    const json body = json::parse(entry.body);
    read_to_ = entry.sequence;
    if (entry.kind == "recall opened") name_recall(body.at("recall"), body, expected);
    found.push_back(entry.kind + " " + about(entry.kind, body));
    INFO(engine::text_of(book.today) << ": " << act << ": entry " << entry.sequence << ", " << entry.kind);
    learn(entry, body, expected);
    attribute(entry, body);
  }
  if (line(found) == line(expected.entries)) return;
  FAIL(engine::text_of(book.today) << ": " << act << "\n  entries:  " << line(found)
                                   << "\n  expected: " << line(expected.entries));
}

/// The ledger has given the recall that the book opened its name.
void Unit::name_recall(const std::string& id, const json& body, Expected& expected) {
  const std::string made = "new " + body.at("exam").get<std::string>();
  const auto planned = book.recalls.find(made);
  if (planned == book.recalls.end()) FAIL("nobody expected recall " << id << " of " << made);
  Recall recall = planned->second;
  book.recalls.erase(planned);
  recall.id = id;
  book.recalls[id] = std::move(recall);
  for (auto& [other, follower] : book.recalls) {
    if (follower.follows == made) follower.follows = id;
  }
  for (std::string& entry : expected.entries) {
    if (entry.ends_with(" " + made) && !entry.starts_with("recall opened"))
      entry.replace(entry.size() - made.size(), made.size(), id);
  }
}

void Unit::learn(const ledger::Entry& entry, const json& body, Expected& expected) {
  if (body.contains("document")) documents.insert(body.at("document").get<std::string>());
  if (entry.kind == "advice given") learn_advice(entry, body);
  if (entry.kind == "recall opened" || entry.kind == "recall redated") check_opened(body);
  if (entry.kind == "recall answered") check_answered(body);
  if (entry.kind == "advice signed" || entry.kind == "advice overridden")
    book.exams.at(body.at("exam")).signature = entry.sequence;
  if ((entry.kind == "recall opened" || entry.kind == "recall redated") && body.contains("signed"))
    learn_signature(body);
  if (entry.kind == "recall closed") book.recalls.at(body.at("recall")).closed_at = entry.sequence;
  if (entry.kind == "person died" || entry.kind == "person moved away") {
    Patient& patient = book.patients.at(static_cast<std::size_t>(who_has(body.at("person"))));
    (entry.kind == "person died" ? patient.died_at : patient.moved_at) = entry.sequence;
  }
  if ((entry.kind == "input refused" || entry.kind == "input unmatched") && !expected.inputs.empty()) {
    book.waiting.push_back({entry.sequence, expected.inputs.front(), book.today});
    expected.inputs.erase(expected.inputs.begin());
  }
}

/// An entry is about the number that its examination was recorded for; a merge about both.
void Unit::attribute(const ledger::Entry& entry, const json& body) {
  const auto note = [&](int who) {
    book.patients.at(static_cast<std::size_t>(who)).entries.insert(entry.sequence);
  };
  if (body.contains("recall")) return note(book.who_of(book.recalls.at(body.at("recall"))));
  if (body.contains("exam")) return note(book.exams.at(body.at("exam")).who);
  if (!body.contains("person")) return;
  note(who_has(body.at("person")));
  if (body.contains("merged")) note(who_has(body.at("merged")));
}

// The answer is computed here once more, from the book's own record and the files of the rulesets.
void Unit::learn_advice(const ledger::Entry& entry, const json& body) {
  Examination& exam = book.exams.at(body.at("exam"));
  exam.advice = entry.sequence;
  exam.answers = body.at("answers");
  exam.chosen = exam.answers.at(body.at("chosen").get<std::size_t>());
  CHECK(body.at("record") == exam.basis);
  const auto again = ask(in_force_.rulesets, exam, exam.basis);
  REQUIRE(again.size() == exam.answers.size());
  for (std::size_t i = 0; i < again.size(); ++i)
    CHECK(engine::json_of(again[i]) == engine::canonical_json(exam.answers[i]));
}

void Unit::learn_signature(const json& body) {
  Recall& recall = book.recalls.at(body.at("recall"));
  const std::uint64_t signature = body.at("signed");
  if (recall.follows.empty() || !body.contains("follows")) {
    CHECK(signature == book.exams.at(recall.exam).signature);
  } else {
    CHECK(signature == recall.signature);
  }
  recall.signature = signature;
}

void Unit::check_opened(const json& body) {
  const Recall& recall = book.recalls.at(body.at("recall"));
  CHECK(body.at("due") == engine::text_of(recall.due));
  CHECK(body.at("due_to") == engine::text_of(recall.due_to));
  CHECK(body.at("late_on") == engine::text_of(recall.last_day_in_time()));
  if (body.contains("action")) CHECK(body.at("action") == recall.action);
  if (body.contains("follows")) CHECK(body.at("follows") == recall.follows);
}

void Unit::check_answered(const json& body) {
  const Recall& recall = book.recalls.at(body.at("recall"));
  const Date examined = book.date_of(body.at("exam"));
  const std::string timing =
      examined < recall.due ? "early" : (recall.is_late(examined) ? "late" : "on time");
  CHECK(body.at("timing") == timing);
  CHECK(body.at("days_after_due") == days_from(recall.due, examined));
  ++played["answered " + timing];
}

void Unit::adopt(const std::vector<std::string>& rulesets, const Date& from, const Terms& terms) {
  ledger::Protocol protocol;
  for (const std::string& id : rulesets) {
    adviser(id);
    protocol.push_back(
        {rulesets_.at(id), support::bytes_of_file(support::rulesets_folder / id / "ruleset.dmn")});
  }
  ledger::NewProtocol adopted;
  for (const auto& [key, value] : terms.settings.items())
    adopted.settings.push_back(key + "=" + value.get<std::string>());
  adopted.terms.late_after_days = terms.late_after;
  adopted.terms.age_limit = terms.age_limit;
  adopted.from = from;
  adopted.clinician = clinician;
  adopted.reason = "agreed by the unit";
  value_of(ledger::adopt_protocol(at.ledger, consultant(), protocol, adopted));
  adopted_.push_back({from, rulesets, terms});
  read_to_ = value_of(at.ledger.checkpoint()).size;
  ++played["protocol adopted"];
}

ledger::Revetted Unit::revet(const std::vector<std::string>& rulesets) {
  ledger::Protocol protocol;
  for (const std::string& id : rulesets) {
    adviser(id);
    protocol.push_back({rulesets_.at(id), ""});
  }
  return value_of(ledger::revet(at.ledger, protocol, book.today, 2));
}

}  // namespace year
