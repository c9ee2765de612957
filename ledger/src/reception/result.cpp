#include <algorithm>
#include <utility>

#include "advising/advise.h"
#include "database/store.h"
#include "engine/canonical.h"
#include "ledger/reception.h"
#include "places.h"
#include "reception/input.h"
#include "reception/result_format.h"
#include "reception/result_matching.h"
#include "utf8.h"

namespace ledger {

using engine::Done;
using engine::Error;
using engine::Errors;
using engine::Result;
using nlohmann::json;

namespace {

/// The examination's JSON with the histology put on, and which lesions that changes.
struct Entered {
  json record;
  std::vector<MatchedLesion> changed;
  bool replaces = false;  ///< At least one of them had other histology.
};

Entered enter(json record, const std::vector<MatchedLesion>& matched) {
  Entered entered{std::move(record), {}, false};
  for (const MatchedLesion& report : matched) {
    json& histology = entered.record["exam"]["lesions"][report.index]["histology"];
    if (histology == report.histology) continue;
    entered.replaces = entered.replaces || !histology.is_null();
    histology = report.histology;
    entered.changed.push_back(report);
  }
  return entered;
}

/// The reader of records names `exam.lesions[1].histology.type`; the sender of the result knows it as
/// `specimens[0].lesions[1].histology.type`.
void rename_paths(Errors& errors, const std::vector<MatchedLesion>& matched) {
  for (Error& error : errors) {
    for (const MatchedLesion& report : matched) {
      const std::string prefix = "exam.lesions[" + std::to_string(report.index) + "]";
      if (!error.place.path.starts_with(prefix)) continue;
      error.place.path = report.path + error.place.path.substr(prefix.size());
      break;
    }
  }
}

/// One result inside its transaction.
class ResultReception {
 public:
  ResultReception(Transaction& transaction, const Author& author, Advisers& advisers, const Input& input)
      : transaction_(transaction), author_(author), advisers_(advisers), input_(input) {}

  Result<Receipt> receive();

 private:
  Result<KnownExamination> find(const ResultReport& report);
  Receipt set_aside(Received received, Errors errors);
  Result<Receipt> keep(const ResultReport& report, const KnownExamination& known, const Entered& entered,
                       const engine::Record& record);

  Transaction& transaction_;
  const Author& author_;
  Advisers& advisers_;
  const Input& input_;
};

Receipt ResultReception::set_aside(Received received, Errors errors) {
  return ledger::set_aside(transaction_, author_, input_, received, std::move(errors));
}

Result<KnownExamination> ResultReception::find(const ResultReport& report) {
  if (!report.exam.empty()) {
    if (auto known = find_examination(transaction_, report.exam)) return *known;
    return Error{"unknown_exam", "no examination `" + report.exam + "` is on the ledger", at_path("exam"),
                 "record the examination first, then send the result again"};
  }
  const auto exams = examinations_with(transaction_, report.accession);
  if (exams.size() == 1) return find_examination(transaction_, exams.front()).value();
  if (exams.empty()) {
    return Error{"unknown_accession", "no pot has the accession `" + report.accession + "`",
                 at_path("accession"),
                 "name the examination with `exam`, or record it with its specimens first"};
  }
  return Error{
      "several_examinations",
      "accession `" + report.accession + "` stands on " + std::to_string(exams.size()) + " examinations",
      at_path("accession"), "name the examination with `exam`"};
}

Result<Receipt> ResultReception::receive() {
  const auto report = read_result(input_.part.text);
  if (!report) return set_aside(Received::refused, report.errors());
  const auto known = find(*report);
  if (!known) return set_aside(Received::unmatched, known.errors());
  json before = record_of(transaction_, *known);
  const auto matched = match(*report, before.at("exam"));
  if (!matched) return set_aside(Received::unmatched, matched.errors());
  const Entered entered = enter(std::move(before), *matched);
  if (entered.changed.empty()) {
    settle_waiting(transaction_, author_, engine::digest_text(input_.part.text),
                   "what it says was known already");
    return Receipt{
        Received::already_entered, input_.part.line, known->exam, known->person, 0, 0, {}, 0, {}, {}};
  }
  const auto record = engine::read_record(engine::canonical_json(entered.record), input_.source);
  if (!record) {
    Errors errors = record.errors();
    rename_paths(errors, *matched);
    return set_aside(Received::refused, std::move(errors));
  }
  return keep(*report, *known, entered, *record);
}

json body_of(const ResultReport& report, const KnownExamination& known, const Entered& entered,
             const engine::Record& record) {
  json body = standing_of(record.exam);
  body["person"] = known.person;
  body["exam"] = known.exam;
  body["reported"] = report.reported;
  body["reporter"] = report.reporter;
  body["lesions"] = json::array();
  for (const MatchedLesion& changed : entered.changed) {
    body["lesions"].push_back(
        {{"lesion", changed.lesion}, {"specimen", changed.specimen}, {"histology", changed.histology}});
  }
  return body;
}

Result<Receipt> ResultReception::keep(const ResultReport& report, const KnownExamination& known,
                                      const Entered& entered, const engine::Record& record) {
  if (auto installed = install(transaction_, author_, advisers_.protocol()); !installed) {
    return installed.errors();
  }
  const std::string document = transaction_.keep(input_.part.text);
  json body = body_of(report, known, entered, record);
  body["document"] = document;
  body["source"] = input_.source;
  body["line"] = input_.part.line;
  Receipt receipt{entered.replaces ? Received::histology_amended : Received::entered,
                  input_.part.line,
                  known.exam,
                  known.person,
                  0,
                  0,
                  {},
                  0,
                  {},
                  {}};
  receipt.entry =
      transaction_.append(author_, entered.replaces ? Kind::histology_amended : Kind::histology_entered,
                          "examination:" + known.exam, body);
  const std::string because = entered.replaces ? "histology was amended" : "histology was entered";
  Given given = give_advice(transaction_, author_, advisers_, known.exam, because);
  receipt.advice = given.entry;
  receipt.answers = std::move(given.answers);
  receipt.chosen = given.choice.chosen;
  if (!known.outcome.empty()) {
    receipt.notes.push_back("the advice was " + known.outcome + "; the new one must be signed");
  }
  give_later_advice(transaction_, author_, advisers_, known,
                    because + " for earlier examination `" + known.exam + "`");
  settle_waiting(transaction_, author_, document, acted_on_by(receipt.entry));
  return receipt;
}

}  // namespace

Result<std::vector<Receipt>> result(Ledger& ledger, const Author& author, const Protocol& protocol,
                                    std::string_view bytes, std::string_view source) {
  if (protocol.empty()) return no_ruleset();
  Advisers advisers(protocol);
  const std::vector<Part> parts = parts_of(bytes);
  const std::string from = as_utf8(source);
  std::vector<Receipt> receipts(parts.size());
  const auto done = ledger.store().write_each(
      parts.size(), author.clock, [&](Transaction& transaction, std::size_t i) -> Result<Done> {
        const Input input{"result", from, parts[i]};
        auto receipt = ResultReception(transaction, author, advisers, input).receive();
        if (!receipt) return receipt.errors();
        receipts[i] = std::move(*receipt);
        return Done{};
      });
  if (!done) return done.errors();
  return receipts;
}

}  // namespace ledger
