// Two numbers that are one person, and that they are not.

#include <set>
#include <utility>

#include "advising/advise.h"
#include "advising/answer.h"
#include "database/people.h"
#include "database/store.h"
#include "ledger/people.h"
#include "reception/input.h"

namespace ledger {

using engine::Done;
using engine::Error;
using engine::Errors;
using engine::Result;
using nlohmann::json;

namespace {

Error fault(std::string code, std::string message, std::string help) {
  return {std::move(code), std::move(message), {}, std::move(help)};
}

Errors faults_of(const PersonDecision& decision) {
  Errors errors;
  if (decision.clinician.empty())
    errors.push_back(fault("clinician_missing", "no clinician is named",
                           "name who decides whose records these are; it is kept with the entry"));
  if (decision.reason.empty())
    errors.push_back(fault("reason_missing", "no reason is given", "say how it is known, in a sentence"));
  return errors;
}

json body_of(const Author& author, const PersonDecision& decision, json body) {
  body["clinician"] = decision.clinician;
  body["reason"] = decision.reason;
  body["on"] = engine::text_of(author.clock.today());
  return body;
}

std::set<std::string> ids_of(const std::vector<KnownExamination>& examinations) {
  std::set<std::string> ids;
  for (const KnownExamination& examination : examinations) ids.insert(examination.exam);
  return ids;
}

void note(std::vector<std::string>& notes, const std::vector<std::string>& more) {
  notes.insert(notes.end(), more.begin(), more.end());
}

void note_advised(std::vector<std::string>& notes, const std::vector<std::string>& exams) {
  for (const std::string& exam : exams)
    notes.push_back("advice was given again for examination `" + exam + "`");
}

/// Advice first: what an examination had signed without knowing of the other number's does not stand in the
/// way of the next step of a plan.
void join(Transaction& transaction, const Author& author, Advisers& advisers, Merged& result,
          const std::set<std::string>& of_other) {
  const std::vector<std::string> advised = give_changed_advice(transaction, author, advisers, result.survivor,
                                                               result.merged + " is the same person");
  Rematched rematched;
  answer_newly(
      transaction, author, result.survivor,
      [&](const KnownRecall& recall, const KnownExamination& examination) {
        return of_other.contains(recall.exam) == of_other.contains(examination.exam);
      },
      rematched);
  note(result.notes, rematched.notes);
  note_advised(result.notes, advised);
}

/// Each number as if the other had never been taken for it.
void part(Transaction& transaction, const Author& author, Advisers& advisers, const std::string& person,
          const PersonDecision& decision, Merged& result) {
  const std::string because = result.survivor + " and " + result.merged + " are two people";
  const auto closed = close_steps_of_others(transaction, author, person, decision.clinician);
  Rematched rematched =
      reopen_unanswered(transaction, author, person, [](const KnownRecall&) { return true; });
  const auto advised = give_changed_advice(transaction, author, advisers, person, because);
  answer_newly(
      transaction, author, person, [](const KnownRecall&, const KnownExamination&) { return true; },
      rematched);
  note(result.notes, rematched.notes);
  note(result.notes, closed);
  note_advised(result.notes, advised);
  note_advised(result.notes, give_unfollowed_advice(transaction, author, advisers, person, because));
}

Result<Done> may_merge(const PersonLine& survivor, const PersonLine& merged) {
  if (survivor.person != merged.person) return Done{};
  return fault("same_person", "both are " + survivor.person + " already", "name two people");
}

}  // namespace

Result<Merged> merge_people(Ledger& ledger, const Author& author, const Protocol& protocol,
                            const std::string& survivor, const std::string& merged,
                            const PersonDecision& decision) {
  if (protocol.empty()) return no_ruleset();
  if (Errors errors = faults_of(decision); !errors.empty()) return errors;
  Merged result;
  Advisers advisers(protocol);
  const auto done = ledger.store().write([&](Transaction& transaction) -> Result<Done> {
    const auto kept = find_person_in(transaction, survivor), other = find_person_in(transaction, merged);
    if (!kept) return kept.errors();
    if (!other) return other.errors();
    if (auto may = may_merge(*kept, *other); !may) return may;
    if (auto installed = install(transaction, author, protocol); !installed) return installed;
    result = {kept->person, other->person, 0, {}};
    const std::set<std::string> of_other = ids_of(examinations_of(transaction, other->person));
    result.entry =
        transaction.append(author, Kind::person_merged, "person:" + kept->person,
                           body_of(author, decision, {{"person", kept->person}, {"merged", other->person}}));
    join(transaction, author, advisers, result, of_other);
    return Done{};
  });
  if (!done) return done.errors();
  return result;
}

namespace {

Result<KnownNumber> merged_number(Transaction& transaction, const std::string& text) {
  const auto number = find_number(transaction, text);
  if (!number)
    return fault("unknown_person", "no person has our number `" + text + "`",
                 "give the number of the one that was merged: `P17`");
  if (number->merged_into.empty())
    return fault("not_merged", number->person + " was not merged into another",
                 "there is nothing to reverse");
  if (number->merged_into != number->survivor)
    return fault("merged_further", number->merged_into + " was itself merged into " + number->survivor,
                 "reverse that merge first");
  return *number;
}

}  // namespace

Result<Merged> reverse_merge(Ledger& ledger, const Author& author, const Protocol& protocol,
                             const std::string& merged, const PersonDecision& decision) {
  if (protocol.empty()) return no_ruleset();
  if (Errors errors = faults_of(decision); !errors.empty()) return errors;
  Merged result;
  Advisers advisers(protocol);
  const auto done = ledger.store().write([&](Transaction& transaction) -> Result<Done> {
    const auto number = merged_number(transaction, merged);
    if (!number) return number.errors();
    if (auto installed = install(transaction, author, protocol); !installed) return installed;
    const std::string person = number->merged_into, other = number->person;
    result = {person, other, 0, {}};
    result.entry = transaction.append(
        author, Kind::person_merge_reversed, "person:" + other,
        body_of(author, decision, {{"person", person}, {"merged", other}, {"merge", number->merge}}));
    for (const std::string& each : {person, other})
      part(transaction, author, advisers, each, decision, result);
    return Done{};
  });
  if (!done) return done.errors();
  return result;
}

Result<Done> tell_apart(Ledger& ledger, const Author& author, const std::string& person,
                        const std::string& other, const PersonDecision& decision) {
  if (Errors errors = faults_of(decision); !errors.empty()) return errors;
  return ledger.store().write([&](Transaction& transaction) -> Result<Done> {
    const auto first = find_person_in(transaction, person), second = find_person_in(transaction, other);
    if (!first) return first.errors();
    if (!second) return second.errors();
    if (auto may = may_merge(*first, *second); !may) return may;
    transaction.append(author, Kind::person_told_apart, "person:" + first->person,
                       body_of(author, decision, {{"person", first->person}, {"other", second->person}}));
    return Done{};
  });
}

}  // namespace ledger
