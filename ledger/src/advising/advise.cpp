#include "advising/advise.h"

#include <initializer_list>
#include <utility>

#include "advising/plan.h"
#include "database/inputs.h"
#include "database/known_recalls.h"
#include "database/protocols.h"
#include "database/store.h"
#include "engine/canonical.h"
#include "json_fields.h"
#include "reception/merge.h"
#include "risk.h"

namespace ledger {

using engine::Done;
using engine::Result;
using nlohmann::json;

Advisers::Advisers(const Protocol& protocol) : protocol_(protocol) {
  for (const RulesetInForce& in_force : protocol) {
    advisers_.push_back(std::make_unique<engine::Adviser>(in_force.ruleset));
  }
}

std::vector<engine::Advice> Advisers::advise(const engine::Record& record, const engine::Date& today,
                                             const std::string& exam) {
  std::vector<engine::Advice> answers;
  for (const auto& adviser : advisers_) answers.push_back(adviser->advise(record, today, exam));
  return answers;
}

Result<Done> install(Transaction& transaction, const Author& author, const Protocol& protocol) {
  for (const RulesetInForce& in_force : protocol) {
    const engine::Ruleset& ruleset = *in_force.ruleset;
    if (is_installed(transaction, ruleset.digest)) continue;
    if (engine::digest_text(in_force.bytes) != ruleset.digest) {
      return engine::Error{"ruleset_bytes_differ",
                           "the bytes of ruleset `" + ruleset.about.id + "` are not those that were loaded",
                           {},
                           "load the ruleset again"};
    }
    json imports = json::array();
    for (const engine::ImportedFile& imported : ruleset.imports)
      imports.push_back(transaction.keep(imported.bytes));
    const std::string document = transaction.keep(in_force.bytes);
    transaction.append(author, Kind::ruleset_installed, "ruleset:" + ruleset.about.id,
                       {{"ruleset", ruleset.about.id},
                        {"edition", ruleset.about.edition},
                        {"document", document},
                        {"imports", std::move(imports)}});
  }
  return Done{};
}

Result<Done> install(Ledger& ledger, const Author& author, const Protocol& protocol) {
  return ledger.store().write(
      [&](Transaction& transaction) { return install(transaction, author, protocol); });
}

json record_of(Transaction& transaction, const KnownExamination& examination) {
  json record = transaction.body(examination.recorded).at("record");
  put_histology(record.at("exam"), examination.recorded, histologies_of(transaction, examination.exam));
  for (const std::uint64_t version : replaced_versions_of(transaction, examination)) {
    const json replaced = transaction.body(version).at("record");
    add_background(record, {replaced});
    keep_previous(record, replaced);
  }
  return record;
}

namespace {

/// What the unit's protocol says of its setting, where the record says nothing.
void add_settings(json& record, const ProtocolTerms& terms) {
  const json settings = json::parse(terms.settings);
  if (settings.empty()) return;
  json& setting = record["setting"];
  if (!setting.is_object()) setting = json::object();
  for (const auto& [key, value] : settings.items()) {
    if (!setting.contains(key) || setting.at(key).is_null()) setting[key] = value;
  }
}

/// The record with the person's earlier examinations, with those that their records tell of, with the
/// background that they state and it leaves out, and with the unit's setting.
json advised_record(Transaction& transaction, const Author& author, const KnownExamination& examination) {
  json record = record_of(transaction, examination);
  std::vector<json> earlier, told, records;
  for (const KnownExamination& other : examinations_of(transaction, examination.person)) {
    if (other.date >= examination.date) break;
    json earlier_record = record_of(transaction, other);
    for (json& exam : earlier_record["previous"]) told.push_back(std::move(exam));
    earlier.push_back(std::move(earlier_record.at("exam")));
    records.push_back(std::move(earlier_record));
  }
  add_background(record, records);
  earlier.insert(earlier.end(), told.begin(), told.end());
  add_previous(record, earlier);
  add_settings(record, terms_on(transaction.connection(), author.clock.today()));
  return record;
}

std::vector<engine::Advice> ask(Advisers& advisers, const Result<engine::Record>& record,
                                const engine::Date& today, const std::string& exam) {
  if (record) return advisers.advise(*record, today, exam);
  // Each part could be read, the whole contradicts itself: that is an answer too, and a person's to resolve.
  return std::vector<engine::Advice>(advisers.protocol().size(), engine::refused(exam, record.errors()));
}

json date_or_null(const std::optional<engine::Date>& date) {
  return date ? json(engine::text_of(*date)) : json();
}

/// A list puts a site check first, also one that may yet come of it; a decision against it needs the other
/// risk.
struct Risks {
  Risk risk{}, without_site_check{};
};

Risks risks_of(const Result<engine::Record>& record, const Given& given,
               const KnownExamination& examination) {
  const Risk other = record ? risk_of(*record, std::nullopt) : static_cast<Risk>(examination.risk);
  return {given.choice.earliest_site_check ? Risk::site_check : other, other};
}

json body_of(const KnownExamination& examination, const json& record, const Given& given, const Risks& risks,
             const engine::Date& today) {
  json answers = json::array();
  for (const engine::Advice& answer : given.answers) answers.push_back(json::parse(engine::json_of(answer)));
  const engine::Advice& chosen = given.answers[given.choice.chosen];
  return {{"person", examination.person},
          {"exam", examination.exam},
          {"today", engine::text_of(today)},
          {"record", record},
          {"answers", std::move(answers)},
          {"chosen", given.choice.chosen},
          {"state", std::string(engine::text_of(chosen.state))},
          {"reason", given.choice.reason},
          {"risk", static_cast<int>(risks.risk)},
          {"risk_without_site_check", static_cast<int>(risks.without_site_check)},
          {"earliest", date_or_null(given.choice.earliest)},
          {"earliest_site_check", date_or_null(given.choice.earliest_site_check)}};
}

Given give(Transaction& transaction, const Author& author, Advisers& advisers,
           const KnownExamination& examination, const json& record, const std::string& because) {
  Given given;
  const engine::Date today = author.clock.today();
  const auto read = engine::read_record(engine::canonical_json(record), examination.exam);
  given.answers = ask(advisers, read, today, examination.exam);
  given.choice = choose(given.answers);
  const std::string subject = "examination:" + examination.exam;
  given.entry =
      transaction.append(author, Kind::advice_given, subject,
                         body_of(examination, record, given, risks_of(read, given, examination), today));
  if (!examination.advice) return given;
  transaction.append(author, Kind::advice_superseded, subject,
                     {{"person", examination.person},
                      {"exam", examination.exam},
                      {"advice", *examination.advice},
                      {"by", given.entry},
                      {"outcome", examination.outcome},
                      {"because", because}});
  return given;
}

}  // namespace

Given give_advice(Transaction& transaction, const Author& author, Advisers& advisers, const std::string& exam,
                  const std::string& because) {
  const KnownExamination examination = find_examination(transaction, exam).value();
  return give(transaction, author, advisers, examination, advised_record(transaction, author, examination),
              because);
}

namespace {

void erase(json& object, std::initializer_list<const char*> keys) {
  if (!object.is_object()) return;
  for (const char* key : keys) object.erase(key);
}

/// Without what people alone see (docs/record-format.md): no rule can answer otherwise for it.
json as_rules_see(json record) {
  erase(record["patient"], {"identifiers", "name", "contact", "family_doctor", "needs"});
  erase(record["exam"], {"specimens", "complications"});
  for (json& earlier : record["previous"]) erase(earlier, {"specimens", "complications"});
  return record;
}

/// Entry 0: nothing that a rule sees has changed, and the advice that was given stands.
Given give_if_changed(Transaction& transaction, const Author& author, Advisers& advisers,
                      const KnownExamination& examination, const std::string& because) {
  const json record = advised_record(transaction, author, examination);
  if (examination.advice &&
      as_rules_see(transaction.body(*examination.advice).at("record")) == as_rules_see(record)) {
    return {};
  }
  return give(transaction, author, advisers, examination, record, because);
}

}  // namespace

Given give_advice_if_changed(Transaction& transaction, const Author& author, Advisers& advisers,
                             const std::string& exam, const std::string& because) {
  return give_if_changed(transaction, author, advisers, find_examination(transaction, exam).value(), because);
}

void give_later_advice(Transaction& transaction, const Author& author, Advisers& advisers,
                       const KnownExamination& changed, const std::string& because) {
  for (const KnownExamination& examination : examinations_of(transaction, changed.person)) {
    if (examination.date <= changed.date) continue;
    give_if_changed(transaction, author, advisers, examination, because);
  }
}

std::vector<std::string> give_changed_advice(Transaction& transaction, const Author& author,
                                             Advisers& advisers, const std::string& person,
                                             const std::string& because) {
  std::vector<std::string> exams;
  for (const KnownExamination& examination : examinations_of(transaction, person)) {
    if (give_if_changed(transaction, author, advisers, examination, because).entry != 0)
      exams.push_back(examination.exam);
  }
  return exams;
}

namespace {

bool asks_for_recall(const json& signature) {
  const auto action = engine::action_of(text_at(signature, "action"));
  return action && opens_recall(*action);
}

/// What was signed is carried out: there is, or was, a recall by this very signature, or none is wanted.
bool is_followed(Transaction& transaction, const KnownExamination& examination,
                 const std::vector<KnownRecall>& recalls, bool is_latest) {
  const std::uint64_t signature = signature_of(transaction, examination.exam);
  bool was_carried_out = false;
  for (const KnownRecall& recall : recalls) {
    if (recall.exam != examination.exam) continue;
    const bool is_by_it = recall.signature.value_or(signature) == signature;
    if (!recall.ended() && !is_by_it) return false;
    was_carried_out = was_carried_out || is_by_it;
  }
  return !is_latest || was_carried_out || !asks_for_recall(transaction.body(signature));
}

}  // namespace

std::vector<std::string> give_unfollowed_advice(Transaction& transaction, const Author& author,
                                                Advisers& advisers, const std::string& person,
                                                const std::string& because) {
  std::vector<std::string> exams;
  const auto examinations = examinations_of(transaction, person);
  const auto recalls = recalls_of(transaction, person);
  for (const KnownExamination& examination : examinations) {
    const bool is_latest = examination.date == examinations.back().date;
    if (examination.outcome.empty() || is_followed(transaction, examination, recalls, is_latest)) continue;
    give_advice(transaction, author, advisers, examination.exam, because);
    exams.push_back(examination.exam);
  }
  return exams;
}

std::vector<std::string> digests_of(const Protocol& protocol) {
  std::vector<std::string> digests;
  for (const RulesetInForce& in_force : protocol) digests.push_back(in_force.ruleset->digest);
  return digests;
}

bool are_answers_of(const json& answers, const std::vector<std::string>& digests) {
  if (answers.size() != digests.size()) return false;
  for (std::size_t i = 0; i < digests.size(); ++i) {
    const json ruleset = answers[i].value("ruleset", json());
    // A record that contradicts itself has no answer by any ruleset.
    if (ruleset.is_object() && text_at(ruleset, "digest") != digests[i]) return false;
  }
  return true;
}

std::optional<Given> give_outdated_advice(Transaction& transaction, const Author& author, Advisers& advisers,
                                          const KnownExamination& examination, const std::string& because) {
  const json record = advised_record(transaction, author, examination);
  if (examination.advice) {
    const json before = transaction.body(*examination.advice);
    if (as_rules_see(before.at("record")) == as_rules_see(record) &&
        are_answers_of(before.at("answers"), digests_of(advisers.protocol())))
      return std::nullopt;
  }
  return give(transaction, author, advisers, examination, record, because);
}

}  // namespace ledger
