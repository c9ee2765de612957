#include <algorithm>
#include <utility>

#include "advising/advise.h"
#include "advising/answer.h"
#include "database/people.h"
#include "database/store.h"
#include "engine/canonical.h"
#include "json_fields.h"
#include "ledger/reception.h"
#include "places.h"
#include "reception/identity.h"
#include "reception/input.h"
#include "reception/merge.h"
#include "risk.h"
#include "utf8.h"

namespace ledger {

using engine::Done;
using engine::Errors;
using engine::Result;
using nlohmann::json;

namespace {

/// One record inside its transaction.
class RecordReception {
 public:
  RecordReception(Transaction& transaction, const Author& author, Advisers& advisers, const Input& input)
      : transaction_(transaction), author_(author), advisers_(advisers), input_(input) {}

  Result<Receipt> receive();

 private:
  Errors missing() const;
  Result<Receipt> receive(const std::optional<KnownExamination>& known);
  Receipt set_aside(Received received, Errors errors);
  Receipt already(const KnownExamination& known, std::uint64_t version);
  std::string describe_person(const std::optional<std::string>& known);
  bool is_latest(const std::string& person);
  json without_identifiers_of_others(json patient, const std::string& person);
  std::uint64_t append_record(const std::string& person, bool is_new, const std::string& document);
  void append_specimens(const std::string& person, const json& before);
  json standing();
  void answer_recalls();
  void advise(const std::optional<KnownExamination>& known);
  void correct_day(const KnownExamination& known);
  void note_death();

  Transaction& transaction_;
  const Author& author_;
  Advisers& advisers_;
  const Input& input_;
  engine::Record record_;
  json given_;  ///< The record's own four keys.
  Receipt receipt_;
};

Result<Receipt> RecordReception::receive() {
  auto record = engine::read_record(input_.part.text, input_.source);
  if (!record) return set_aside(Received::refused, record.errors());
  record_ = std::move(*record);
  receipt_.line = input_.part.line;
  receipt_.exam = record_.exam.id;
  if (Errors errors = missing(); !errors.empty()) return set_aside(Received::refused, std::move(errors));
  given_ = json::parse(record_.canonical);
  const auto known = find_examination(transaction_, record_.exam.id);
  if (known) {
    if (const auto version = version_of(transaction_, known->exam, record_.digest))
      return already(*known, *version);
  }
  return receive(known);
}

/// A record that advice can be given on may still lack what a ledger needs.
Errors RecordReception::missing() const {
  Errors errors;
  if (record_.exam.id.empty()) {
    errors.push_back(
        {"missing_key", "the examination has no id", at_path("exam.id"),
         "give the id that the endoscopy system uses; it must not change when the record is sent again"});
  }
  if (record_.patient.identifiers.empty()) {
    errors.push_back({"missing_key", "the patient has no identifier", at_path("patient.identifiers"),
                      R"(give at least one: {"system":"hospital-number","value":"H123456"})"});
  }
  return errors;
}

Receipt RecordReception::set_aside(Received received, Errors errors) {
  Receipt receipt = ledger::set_aside(transaction_, author_, input_, received, std::move(errors));
  receipt.exam = record_.exam.id;
  return receipt;
}

Receipt RecordReception::already(const KnownExamination& known, std::uint64_t version) {
  Receipt receipt{
      Received::already_recorded, input_.part.line, known.exam, known.person, 0, 0, {}, 0, {}, {}};
  if (version != known.recorded) {
    receipt.notes.push_back("this content was replaced by entry " + std::to_string(known.recorded) +
                            ", which stands; a record to replace that one must differ from both");
  }
  settle_waiting(transaction_, author_, engine::digest_text(input_.part.text),
                 "what it says was known already");
  return receipt;
}

Result<Receipt> RecordReception::receive(const std::optional<KnownExamination>& known) {
  const auto person = identify(transaction_, record_.patient, input_.source);
  if (!person) return set_aside(Received::unmatched, person.errors());
  if (known && *person != known->person) {
    return set_aside(
        Received::unmatched,
        {{"identity_conflict",
          "examination `" + known->exam + "` is that of " + known->person + "; the record names " +
              (*person ? **person : "someone not known yet"),
          at_path("exam.id"), "find out whose examination it is, correct the record, and send it again"}});
  }
  if (auto installed = install(transaction_, author_, advisers_.protocol()); !installed) {
    return installed.errors();
  }
  receipt_.received = known ? Received::amended : Received::recorded;
  receipt_.person = describe_person(*person);
  const json before = known ? transaction_.body(known->recorded).at("record").at("exam") : json::object();
  const std::string document = transaction_.keep(input_.part.text);
  receipt_.entry = append_record(receipt_.person, !known, document);
  append_specimens(receipt_.person, before);
  if (!known) answer_recalls();
  advise(known);
  if (known && known->date != engine::text_of(record_.exam.date)) correct_day(*known);
  settle_waiting(transaction_, author_, document, acted_on_by(receipt_.entry));
  if (author_.clock.today() < record_.exam.date)
    receipt_.notes.push_back("the examination is dated after today");
  note_death();
  return receipt_;
}

/// Whoever is examined after the day of death was not dead: a wrong death would close the recalls of a living
/// person.
void RecordReception::note_death() {
  const auto person = find_person_in(transaction_, receipt_.person);
  constexpr std::string_view died = "died ";
  if (!person || !person->status.starts_with(died)) return;
  if (person->status.substr(died.size()) < engine::text_of(record_.exam.date))
    receipt_.notes.push_back("the person is noted as " + person->status +
                             ", before this examination: find out whether that is right");
}

bool RecordReception::is_latest(const std::string& person) {
  const auto others = examinations_of(transaction_, person);
  return others.empty() || others.back().date <= engine::text_of(record_.exam.date);
}

/// Identifiers of a number that was merged into the person stay with that number.
json RecordReception::without_identifiers_of_others(json patient, const std::string& person) {
  json& identifiers = patient.at("identifiers");
  for (auto given = identifiers.begin(); given != identifiers.end();) {
    const auto number = number_with(transaction_, text_at(*given, "system"), text_at(*given, "value"));
    given = number && *number != person ? identifiers.erase(given) : given + 1;
  }
  return patient;
}

std::string RecordReception::describe_person(const std::optional<std::string>& known) {
  const json& patient = given_.at("patient");
  if (!known) {
    std::string person = "P" + std::to_string(transaction_.next());
    transaction_.append(author_, Kind::person_registered, "person:" + person,
                        describe(person, {}, patient, true));
    return person;
  }
  const json before = description_of(transaction_, *known);
  const json now =
      describe(*known, before, without_identifiers_of_others(patient, *known), is_latest(*known));
  if (now != before) transaction_.append(author_, Kind::person_amended, "person:" + *known, now);
  return *known;
}

/// Findings and pots, with the histology that came as results before this record.
json RecordReception::standing() {
  json record = given_;
  put_histology(record.at("exam"), transaction_.next(), histologies_of(transaction_, record_.exam.id));
  const auto read = engine::read_record(engine::canonical_json(record), input_.source);
  return standing_of(read ? read->exam : record_.exam);
}

std::uint64_t RecordReception::append_record(const std::string& person, bool is_new,
                                             const std::string& document) {
  json body = standing();
  body["person"] = person;
  body["exam"] = record_.exam.id;
  body["document"] = document;
  body["source"] = input_.source;
  body["line"] = input_.part.line;
  body["content"] = record_.digest;
  body["risk"] = static_cast<int>(risk_of(record_, std::nullopt));
  body["record"] = given_;
  body["recorded_for"] = number_of(transaction_, record_.patient, person);
  return transaction_.append(author_, is_new ? Kind::examination_recorded : Kind::examination_amended,
                             "examination:" + record_.exam.id, body);
}

void RecordReception::append_specimens(const std::string& person, const json& before) {
  const json known = before.value("specimens", json::array());
  for (const json& specimen : given_.at("exam").value("specimens", json::array())) {
    if (text_at(specimen, "sent").empty()) continue;
    if (std::find(known.begin(), known.end(), specimen) != known.end()) continue;
    transaction_.append(author_, Kind::specimen_sent, "examination:" + record_.exam.id,
                        {{"person", person},
                         {"exam", record_.exam.id},
                         {"specimen", text_at(specimen, "id")},
                         {"accession", text_at(specimen, "accession")},
                         {"sent", text_at(specimen, "sent")}});
  }
}

void RecordReception::answer_recalls() {
  const KnownExamination examination = find_examination(transaction_, record_.exam.id).value();
  receipt_.notes = ledger::answer_recalls(transaction_, author_, examination);
}

void RecordReception::advise(const std::optional<KnownExamination>& known) {
  const std::string change = known ? " was amended" : " was recorded";
  Given given =
      give_advice_if_changed(transaction_, author_, advisers_, record_.exam.id, "the examination" + change);
  receipt_.advice = given.entry;
  receipt_.answers = std::move(given.answers);
  receipt_.chosen = given.choice.chosen;
  if (given.entry == 0) {
    receipt_.notes.emplace_back("nothing that a rule sees has changed: the advice stands");
  } else if (known && !known->outcome.empty()) {
    receipt_.notes.push_back("the advice was " + known->outcome + "; the new one must be signed");
  }
  KnownExamination changed = find_examination(transaction_, record_.exam.id).value();
  if (known) changed.date = std::min(changed.date, known->date);
  give_later_advice(transaction_, author_, advisers_, changed,
                    "earlier examination `" + changed.exam + "`" + change);
}

/// Recalls that it answered, or that follow it, are looked at again: it came before or after another
/// examination than it was taken for.
void RecordReception::correct_day(const KnownExamination& known) {
  const KnownExamination now = find_examination(transaction_, known.exam).value();
  const auto day_before = [&](const std::string& exam, const std::string& day) {
    return exam == known.exam ? known.date : day;
  };
  Rematched rematched = reopen_unanswered(transaction_, author_, now.person, [&](const KnownRecall& recall) {
    return recall.exam == now.exam || recall.answered_by == now.exam;
  });
  answer_newly(
      transaction_, author_, now.person,
      [&](const KnownRecall& recall, const KnownExamination& examination) {
        return day_before(recall.exam, engine::text_of(recall.exam_date)) <
               day_before(examination.exam, examination.date);
      },
      rematched);
  receipt_.notes.insert(receipt_.notes.end(), rematched.notes.begin(), rematched.notes.end());
  const std::string because = "the day of examination `" + now.exam + "` was corrected";
  for (const std::string& exam :
       give_unfollowed_advice(transaction_, author_, advisers_, now.person, because))
    receipt_.notes.push_back("advice was given again for examination `" + exam + "`");
}

}  // namespace

Result<std::vector<Receipt>> record(Ledger& ledger, const Author& author, const Protocol& protocol,
                                    std::string_view bytes, std::string_view source) {
  if (protocol.empty()) return no_ruleset();
  Advisers advisers(protocol);
  const std::vector<Part> parts = parts_of(bytes);
  const std::string from = as_utf8(source);
  std::vector<Receipt> receipts(parts.size());
  const auto done = ledger.store().write_each(
      parts.size(), author.clock, [&](Transaction& transaction, std::size_t i) -> Result<Done> {
        const Input input{"record", from, parts[i]};
        auto receipt = RecordReception(transaction, author, advisers, input).receive();
        if (!receipt) return receipt.errors();
        receipts[i] = std::move(*receipt);
        return Done{};
      });
  if (!done) return done.errors();
  return receipts;
}

}  // namespace ledger
