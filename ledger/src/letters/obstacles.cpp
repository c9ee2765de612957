#include "letters/obstacles.h"

#include "database/examinations.h"
#include "database/people.h"
#include "json_fields.h"

namespace ledger {

using engine::Error;
using nlohmann::json;

namespace {

/// The record that was kept, as far as it can be read.
json record_in(Transaction& transaction, const std::string& document) {
  json text = json::parse(transaction.document(document).value_or(""), nullptr, false);
  if (!text.is_object()) return json::object();
  const auto given = text.find("given");
  return given != text.end() && given->is_object() ? *given : text;
}

void add(Disputes& disputes, const std::optional<std::string>& person, std::uint64_t entry) {
  if (person) disputes.emplace(*person, entry);
}

void add_holders(Transaction& transaction, const json& record, std::uint64_t entry, Disputes& disputes) {
  for (const json& identifier : record.value("/patient/identifiers"_json_pointer, json::array())) {
    add(disputes, person_with(transaction, text_at(identifier, "system"), text_at(identifier, "value")),
        entry);
  }
  const auto exam = find_examination(transaction, record.value("/exam/id"_json_pointer, std::string()));
  if (exam) add(disputes, exam->person, entry);
}

std::string on_day(const std::string& status) {
  return status.substr(status.rfind(' ') + 1);
}

}  // namespace

Disputes disputes_in(Transaction& transaction) {
  Disputes disputes;
  for (const WaitingConflict& waiting : waiting_conflicts(transaction)) {
    add_holders(transaction, record_in(transaction, waiting.document), waiting.entry, disputes);
  }
  return disputes;
}

std::optional<Error> obstacle_of(const PersonLine& person, const Disputes& disputes) {
  if (person.status.starts_with("died")) {
    return Error{"person_died",
                 person.person + " died on " + on_day(person.status) + ": no letter is made",
                 {},
                 "a person decides whether anyone is written to; then `letter withhold`"};
  }
  if (person.status.starts_with("moved away")) {
    return Error{"person_moved_away",
                 person.person + " moved away on " + on_day(person.status) + ": no letter is made",
                 {},
                 "find out who cares for them now; then `letter note` or `letter withhold`"};
  }
  if (const auto dispute = disputes.find(person.person); dispute != disputes.end()) {
    return Error{"identity_in_dispute",
                 "it is not certain who " + person.person + " is: input " + std::to_string(dispute->second) +
                     " waits with a conflict of identity",
                 {},
                 "settle the input first: `inputs` shows it"};
  }
  if (person.name.empty()) {
    return Error{"no_name", person.person + " has no name on record", {}, "send a record with the name"};
  }
  return std::nullopt;
}

std::optional<Error> obstacle_of(const CaseRecall& recall) {
  if (!recall.is_under_review) return std::nullopt;
  return Error{"advice_superseded",
               "recall " + recall.id() + " is under review: its advice was superseded after it was signed",
               {},
               "a clinician signs the new answer first"};
}

std::optional<Error> obstacle_of_signature(const LetterCase& about) {
  const std::string& exam = about.examination.exam;
  if (!about.later_exam.empty()) {
    return Error{"later_examination",
                 "examination `" + exam + "` was overtaken by `" + about.later_exam + "`",
                 {},
                 "the letter about the later one says what comes next"};
  }
  const bool is_its_recall = about.recall && about.recall->signature == about.signature;
  if (is_its_recall && about.recall->state == RecallState::closed) {
    return Error{"recall_ended",
                 "recall " + about.recall->id() + " was closed after examination `" + exam + "` was signed",
                 {},
                 "a person writes; then `letter note` or `letter withhold`"};
  }
  return std::nullopt;
}

Error person_first(const std::string& exam) {
  return {
      "person_first",
      "a cancer was found at examination `" + exam + "`: the patient hears of it from a person first",
      {},
      "when that is done, make the letter by itself and say who has spoken with the patient: `--told NAME`"};
}

}  // namespace ledger
