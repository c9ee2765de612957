// A report that was taken back.

#include <algorithm>
#include <set>

#include "advising/advise.h"
#include "database/store.h"
#include "engine/canonical.h"
#include "json_fields.h"
#include "ledger/reception.h"
#include "reception/input.h"

namespace ledger {

using engine::Done;
using engine::Error;
using engine::Result;
using nlohmann::json;

namespace {

Error fault(std::string code, std::string message, std::string help) {
  return {std::move(code), std::move(message), {}, std::move(help)};
}

Result<Done> knows_pots(const json& exam, const std::vector<std::string>& specimens) {
  std::set<std::string> known;
  for (const char* list : {"specimens", "lesions"}) {
    for (const json& item : exam.value(list, json::array()))
      known.insert(text_at(item, std::string_view(list) == "lesions" ? "specimen" : "id"));
  }
  for (const std::string& specimen : specimens) {
    if (known.contains(specimen)) continue;
    std::string names;
    for (const std::string& id : known) {
      if (!id.empty()) names += (names.empty() ? "`" : ", `") + id + "`";
    }
    return fault("unknown_pot", "the examination has no pot `" + specimen + "`", "it has " + names);
  }
  return Done{};
}

/// Takes the histology off the record's lesions. Gives those that had one.
json take_off(json& record, const std::vector<std::string>& specimens) {
  json lesions = json::array();
  for (json& lesion : record.at("exam").at("lesions")) {
    const std::string specimen = text_at(lesion, "specimen");
    const bool is_meant =
        specimens.empty() || std::find(specimens.begin(), specimens.end(), specimen) != specimens.end();
    const auto histology = lesion.find("histology");
    if (!is_meant || histology == lesion.end() || histology->is_null()) continue;
    *histology = nullptr;
    lesions.push_back({{"lesion", text_at(lesion, "id")}, {"specimen", specimen}, {"histology", nullptr}});
  }
  return lesions;
}

json body_of(const Author& author, const KnownExamination& known, const Withdrawal& withdrawal,
             const engine::Record& record, json lesions) {
  json body = standing_of(record.exam);
  body["person"] = known.person;
  body["exam"] = known.exam;
  body["lesions"] = std::move(lesions);
  body["reason"] = withdrawal.reason;
  body["on"] = engine::text_of(author.clock.today());
  return body;
}

Result<Receipt> withdraw(Transaction& transaction, const Author& author, Advisers& advisers,
                         const Withdrawal& withdrawal) {
  const auto known = find_examination(transaction, withdrawal.exam);
  if (!known)
    return fault("unknown_exam", "no examination `" + withdrawal.exam + "` is on the ledger",
                 "`patient` lists the examinations of a person");
  json record = record_of(transaction, *known);
  if (auto knows = knows_pots(record.at("exam"), withdrawal.specimens); !knows) return knows.errors();
  json lesions = take_off(record, withdrawal.specimens);
  if (lesions.empty())
    return fault("nothing_to_withdraw", "no histology of examination `" + known->exam + "` stands there",
                 "it is awaited already, or the pots hold nothing");
  const auto read = engine::read_record(engine::canonical_json(record), known->exam);
  if (!read) return read.errors();
  if (auto installed = install(transaction, author, advisers.protocol()); !installed)
    return installed.errors();
  Receipt receipt;
  receipt.received = Received::histology_withdrawn;
  receipt.exam = known->exam;
  receipt.person = known->person;
  receipt.entry = transaction.append(author, Kind::histology_withdrawn, "examination:" + known->exam,
                                     body_of(author, *known, withdrawal, *read, std::move(lesions)));
  const std::string because = "histology was withdrawn";
  Given given = give_advice(transaction, author, advisers, known->exam, because);
  receipt.advice = given.entry;
  receipt.answers = std::move(given.answers);
  receipt.chosen = given.choice.chosen;
  if (!known->outcome.empty())
    receipt.notes.push_back("the advice was " + known->outcome + "; the new one must be signed");
  give_later_advice(transaction, author, advisers, *known,
                    because + " for earlier examination `" + known->exam + "`");
  return receipt;
}

}  // namespace

Result<Receipt> withdraw_histology(Ledger& ledger, const Author& author, const Protocol& protocol,
                                   const Withdrawal& withdrawal) {
  if (protocol.empty()) return no_ruleset();
  if (withdrawal.reason.empty())
    return fault("reason_missing", "no reason is given", "say why the laboratory took its report back");
  Advisers advisers(protocol);
  Receipt receipt;
  const auto done = ledger.store().write([&](Transaction& transaction) -> Result<Done> {
    auto made = withdraw(transaction, author, advisers, withdrawal);
    if (!made) return made.errors();
    receipt = std::move(*made);
    return Done{};
  });
  if (!done) return done.errors();
  return receipt;
}

}  // namespace ledger
