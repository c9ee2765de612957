// Records and results, good and bad, once and twice.

#include <algorithm>

#include "engine/canonical.h"
#include "ledger/year/findings.h"
#include "ledger/year/unit.h"

namespace year {

using ledger::Received;
using support::value_of;

namespace {

bool was_known(const ledger::Receipt& receipt) {
  return receipt.received == Received::already_recorded || receipt.received == Received::already_entered;
}

std::string words_of(const json& record) {
  return engine::canonical_json(record);
}

}  // namespace

ledger::Receipt Unit::hand_in_record(const std::string& bytes) {
  const ledger::Author inbox{"inbox", at.clock};
  auto receipts = value_of(ledger::record(at.ledger, inbox, protocol_, bytes, "endoscopy system"));
  REQUIRE(receipts.size() == 1);
  return std::move(receipts.front());
}

ledger::Receipt Unit::hand_in_result(const std::string& bytes) {
  const ledger::Author inbox{"inbox", at.clock};
  auto receipts = value_of(ledger::result(at.ledger, inbox, protocol_, bytes, "laboratory"));
  REQUIRE(receipts.size() == 1);
  return std::move(receipts.front());
}

/// Whatever came in is kept as it came, or the same was known.
void Unit::expect_kept(const std::string& bytes, const ledger::Receipt& receipt) {
  if (was_known(receipt)) return;
  const std::string digest = engine::digest_text(bytes);
  CHECK(documents.contains(digest));
  CHECK(value_of(at.ledger.document(digest)) == bytes);
}

/// The same bytes that wait already are not put on the list twice.
void Unit::set_aside(const std::string& kind, const std::string& bytes, Expected& expected) {
  const bool waits = std::any_of(book.waiting.begin(), book.waiting.end(),
                                 [&](const Input& input) { return input.bytes == bytes; });
  if (waits) return;
  expected.add(kind, "");
  expected.inputs.push_back(bytes);
}

/// What waited with the same bytes leaves the list.
void Unit::settle_same(const std::string& bytes, Expected& expected) {
  std::erase_if(book.waiting, [&](const Input& input) {
    if (input.bytes != bytes) return false;
    expected.add("input settled", std::to_string(input.entry));
    return true;
  });
}

void Unit::expect_described(int who, Expected& expected) {
  Patient& patient = book.patients.at(static_cast<std::size_t>(who));
  const std::size_t before = patient.told.size();
  for (const json& identifier : patient.described.at("identifiers")) patient.told.insert(identifier.dump());
  if (patient.number.empty()) {
    expected.add("person registered", std::to_string(who));
  } else if (patient.told.size() != before) {
    expected.add("person amended", std::to_string(book.survivor(who)));
  }
}

void Unit::expect_specimens(const json& given, const json& before, Expected& expected) {
  const json known = before.value("specimens", json::array());
  for (const json& specimen : given.value("specimens", json::array())) {
    if (std::find(known.begin(), known.end(), specimen) == known.end())
      expected.add("specimen sent", given.at("id"));
  }
}

namespace {

/// Histology that came as a result stays where the record leaves it open.
json with_reported(json exam, const std::map<std::string, json>& reported) {
  for (json& lesion : exam.at("lesions")) {
    const auto found = reported.find(lesion.at("id"));
    if (found != reported.end() && lesion.at("histology").is_null()) lesion["histology"] = found->second;
  }
  return exam;
}

void describe(Examination& exam, const json& patient) {
  exam.patient = patient;
  if (patient.contains("conditions")) exam.background["conditions"] = patient.at("conditions");
}

}  // namespace

void Unit::take_in(int who, const json& given, const json& truth, Expected& expected) {
  const std::string id = given.at("id");
  const json record = {{"patient", book.patients.at(static_cast<std::size_t>(who)).described},
                       {"exam", given}};
  const auto known = book.exams.find(id);
  if (known != book.exams.end() && known->second.contents.contains(words_of(record))) return;
  expect_described(who, expected);
  if (known != book.exams.end()) {
    known->second.contents.insert(words_of(record));
    describe(known->second, record.at("patient"));
    return amend(known->second, given, truth, expected);
  }
  Examination& exam = book.exams[id];
  exam.id = id;
  exam.who = who;
  exam.date = engine::parse_date(given.at("date").get<std::string>()).value();
  describe(exam, record.at("patient"));
  exam.given = exam.exam = given;
  exam.truth = truth;
  exam.contents.insert(words_of(record));
  book.patients.at(static_cast<std::size_t>(who)).exams.push_back(id);
  expected.add("examination recorded", id);
  expect_specimens(given, json::object(), expected);
  book.answer(
      exam, [](const Recall&, const Examination&) { return false; }, expected);
  book.give_advice(exam, expected);
  book.give_later_advice(exam, exam.date, expected);
}

void Unit::amend(Examination& exam, const json& given, const json& truth, Expected& expected) {
  const Date before = exam.date;
  expected.add("examination amended", exam.id);
  expect_specimens(given, exam.given, expected);
  exam.given = given;
  exam.exam = with_reported(given, exam.reported);
  exam.truth = truth;
  exam.date = engine::parse_date(given.at("date").get<std::string>()).value();
  const std::size_t before_advice = expected.entries.size();
  book.give_changed_advice({&exam}, expected);
  if (expected.entries.size() == before_advice) ++played["amended for people only"];
  book.give_later_advice(exam, std::min(before, exam.date), expected);
  if (exam.date == before) return;
  ++played["day corrected"];
  const auto day_before = [&](const std::string& id) { return id == exam.id ? before : book.date_of(id); };
  std::set<std::string> reopened;
  for (auto& [id, recall] : book.recalls) {
    if (recall.state != "answered" || !book.are_one(book.who_of(recall), exam.who)) continue;
    if (recall.exam != exam.id && recall.answered_by != exam.id) continue;
    if (book.date_of(recall.exam) < book.date_of(recall.answered_by)) continue;
    if (book.open_recall_following(recall.exam) != nullptr) continue;
    book.reopen(recall, expected);
    reopened.insert(id);
  }
  book.answer_all(
      exam.who,
      [&](const Recall& recall, const Examination& other) {
        if (recall.id.starts_with("new ") || reopened.contains(recall.id)) return false;
        return day_before(recall.exam) < day_before(other.id);
      },
      expected);
  book.look_again_at_unfollowed(exam.who, expected);
}

void Unit::record(int who, const json& given, const json& truth) {
  const std::string bytes =
      json({{"patient", book.patients.at(static_cast<std::size_t>(who)).described}, {"exam", given}}).dump();
  const bool is_new = !book.exams.contains(given.at("id"));
  Expected expected;
  take_in(who, given, truth, expected);
  const bool changes = !expected.entries.empty();
  settle_same(bytes, expected);
  const auto receipt = hand_in_record(bytes);
  CHECK(receipt.received ==
        (!changes ? Received::already_recorded : (is_new ? Received::recorded : Received::amended)));
  absorb("record " + given.at("id").get<std::string>(), std::move(expected));
  expect_kept(bytes, receipt);
  ++played[std::string(ledger::text_of(receipt.received))];
}

// Good lines are acted on whatever stands between them.
void Unit::record_batch(const std::vector<std::pair<int, json>>& given) {
  Expected expected;
  std::string lines;
  for (const auto& [who, exam] : given) {
    take_in(who, exam, exam, expected);
    lines += json({{"patient", book.patients.at(static_cast<std::size_t>(who)).described}, {"exam", exam}})
                 .dump() +
             "\n";
    if (lines.find("no record") != std::string::npos) continue;
    const std::string faulty = "this is no record " + exam.at("id").get<std::string>();
    lines += faulty + "\n";
    set_aside("input refused", faulty, expected);
  }
  const ledger::Author inbox{"inbox", at.clock};
  const auto receipts = value_of(ledger::record(at.ledger, inbox, protocol_, lines, "old list"));
  CHECK(receipts.size() == given.size() + 1);
  absorb("a batch", std::move(expected));
  played["recorded"] += static_cast<int>(given.size());
  ++played["batch with a faulty line"];
}

void Unit::refuse_record(int who, const json& faulty) {
  const std::string bytes =
      json({{"patient", book.patients.at(static_cast<std::size_t>(who)).described}, {"exam", faulty}}).dump();
  Expected expected;
  set_aside("input refused", bytes, expected);
  const auto receipt = hand_in_record(bytes);
  CHECK(receipt.received == Received::refused);
  absorb("refused record", std::move(expected));
  expect_kept(bytes, receipt);
  ++played["refused"];
}

void Unit::misidentify(int who, const json& given) {
  json patient = book.patients.at(static_cast<std::size_t>(who)).described;
  patient["birth_date"] = "1950-02-02";
  const std::string bytes = json({{"patient", patient}, {"exam", given}}).dump();
  Expected expected;
  set_aside("input unmatched", bytes, expected);
  const auto receipt = hand_in_record(bytes);
  CHECK(receipt.received == Received::unmatched);
  absorb("another birth date", std::move(expected));
  expect_kept(bytes, receipt);
  ++played["unmatched"];
}

void Unit::result(const std::string& id, const json& report) {
  Examination& exam = book.exams.at(id);
  const std::string bytes = report.dump();
  Expected expected;
  bool changes = false, replaces = false;
  for (const json& pot : report.at("specimens")) {
    for (const json& reported : pot.at("lesions")) {
      for (json& lesion : exam.exam.at("lesions")) {
        if (lesion.at("id") != reported.at("id")) continue;
        if (lesion.at("histology") == reported.at("histology")) continue;
        changes = true;
        replaces = replaces || !lesion.at("histology").is_null();
        lesion["histology"] = exam.reported[lesion.at("id")] = reported.at("histology");
      }
    }
  }
  if (changes) {
    expected.add(replaces ? "histology amended" : "histology entered", id);
    book.give_advice(exam, expected);
    book.give_later_advice(exam, exam.date, expected);
  }
  settle_same(bytes, expected);
  const auto receipt = hand_in_result(bytes);
  CHECK(receipt.received == (!changes ? Received::already_entered
                                      : (replaces ? Received::histology_amended : Received::entered)));
  absorb("result for " + id, std::move(expected));
  expect_kept(bytes, receipt);
  ++played[std::string(ledger::text_of(receipt.received))];
}

void Unit::result_too_early(const json& report) {
  const std::string bytes = report.dump();
  Expected expected;
  set_aside("input unmatched", bytes, expected);
  const auto receipt = hand_in_result(bytes);
  CHECK(receipt.received == Received::unmatched);
  absorb("result before its examination", std::move(expected));
  expect_kept(bytes, receipt);
  ++played["result before its examination"];
}

void Unit::refuse_result(const json& faulty) {
  const std::string bytes = faulty.dump();
  Expected expected;
  set_aside("input refused", bytes, expected);
  const auto receipt = hand_in_result(bytes);
  CHECK(receipt.received == Received::refused);
  absorb("refused result", std::move(expected));
  expect_kept(bytes, receipt);
  ++played["refused"];
}

void Unit::withdraw(const std::string& id) {
  Examination& exam = book.exams.at(id);
  Expected expected;
  for (json& lesion : exam.exam.at("lesions")) {
    if (lesion.at("histology").is_null()) continue;
    lesion["histology"] = exam.reported[lesion.at("id")] = json();
  }
  expected.add("histology withdrawn", id);
  book.give_advice(exam, expected);
  book.give_later_advice(exam, exam.date, expected);
  const ledger::Author inbox{"inbox", at.clock};
  value_of(ledger::withdraw_histology(at.ledger, inbox, protocol_, {id, {}, "reported on the wrong slide"}));
  absorb("withdraw histology of " + id, std::move(expected));
  ++played["histology withdrawn"];
}

void Unit::settle(std::size_t index) {
  const Input input = book.waiting.at(index);
  book.waiting.erase(book.waiting.begin() + static_cast<std::ptrdiff_t>(index));
  Expected expected;
  expected.add("input settled", std::to_string(input.entry));
  value_of(ledger::settle_input(at.ledger, office(), input.entry, "sent again, corrected"));
  absorb("settle an input", std::move(expected));
  ++played["input settled by a person"];
}

}  // namespace year
