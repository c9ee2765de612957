#include <catch2/catch.hpp>

#include "ledger/lists.h"
#include "ledger/reception.h"
#include "ledger/signing.h"
#include "support/records.h"
#include "support/temporary_ledger.h"

using namespace support;
using ledger::Received;
using nlohmann::json;

namespace {

/// E1 of H1: L1 and L2 in pot A, both awaited; L3 left where it is.
json two_awaited() {
  json left = a_lesion("L3", nullptr);
  left["removal"] = "not removed";
  left.erase("retrieved");
  left.erase("specimen");
  left.erase("histology");
  return a_record("H1", "E1", "2026-03-10", {a_lesion("L1", nullptr), a_lesion("L2", nullptr), left});
}

std::string codes(const ledger::Receipt& receipt) {
  std::string line;
  for (const auto& error : receipt.errors)
    line += (line.empty() ? "" : ", ") + error.place.path + ": " + error.code;
  return line;
}

}  // namespace

TEST_CASE("results complete an examination pot by pot", "[result]") {
  TemporaryLedger unit;
  CHECK(unit.record(two_awaited()).answers[0].state == engine::AdviceState::awaiting_pathology);
  CHECK(value_of(ledger::awaiting(unit.ledger, {2026, 3, 20}, {})).front().pots == "A 26HE1 (2 lesions)");

  const auto part = unit.result(a_result("E1", "L2", hyperplastic_polyp()));
  CHECK(part.received == Received::entered);
  CHECK(part.answers[0].state == engine::AdviceState::awaiting_pathology);
  CHECK(value_of(ledger::awaiting(unit.ledger, {2026, 3, 20}, {})).front().pots == "A 26HE1 (1 lesion)");

  const auto whole = unit.result(a_result("E1", "L1", tubular_adenoma()));
  CHECK(whole.answers[0].state == engine::AdviceState::settled);
  CHECK(value_of(ledger::awaiting(unit.ledger, {2026, 3, 20}, {})).empty());
  const auto unplanned = value_of(ledger::unplanned(unit.ledger, {2026, 3, 20}, {}));
  REQUIRE(unplanned.size() == 1);
  CHECK(unplanned[0].reason == "to be signed: surveillance colonoscopy, due 2029-03-10");
  CHECK(unplanned[0].advice == whole.advice);
}

TEST_CASE("a result is found by its accession number", "[result]") {
  TemporaryLedger unit;
  unit.record(two_awaited());
  json result = a_result("E1", "L1", tubular_adenoma());
  result.erase("exam");
  result["accession"] = "26HE1";
  result["specimens"][0].erase("id");
  result["specimens"][0]["accession"] = "26HE1";
  const auto receipt = unit.result(result);
  CHECK(receipt.received == Received::entered);
  CHECK(receipt.exam == "E1");
}

TEST_CASE("the same histology twice changes nothing", "[result]") {
  TemporaryLedger unit;
  unit.record(two_awaited());
  unit.result(a_result("E1", "L1", tubular_adenoma()));
  const auto before = unit.entries().size();
  json again = a_result("E1", "L1", tubular_adenoma());
  again["reported"] = "2026-03-20";
  CHECK(unit.result(again).received == Received::already_entered);
  CHECK(unit.entries().size() == before);
}

TEST_CASE("amended histology supersedes the signed advice, and the recall stands until it is signed again",
          "[result]") {
  TemporaryLedger unit;
  unit.record(a_record("H1", "E1", "2026-03-10", {a_lesion("L1", tubular_adenoma())}));
  const auto recall = value_of(ledger::sign(unit.ledger, unit.author, "E1", "Dr Rao", 0)).recall;
  const auto before = unit.entries().size();

  const auto receipt = unit.result(a_result("E1", "L1", hyperplastic_polyp()));
  CHECK(receipt.received == Received::histology_amended);
  CHECK(unit.kinds(before + 1) == "histology amended, advice given, advice superseded");
  CHECK(receipt.notes == std::vector<std::string>{"the advice was signed; the new one must be signed"});
  CHECK(value_of(ledger::unplanned(unit.ledger, {2026, 3, 20}, {})).front().reason ==
        "to be signed: return to screening");
  const auto due = value_of(ledger::due(unit.ledger, {}, {2029, 3, 1}, {}));
  REQUIRE(due.size() == 1);
  CHECK(due[0].recall == recall);
  CHECK(due[0].under_review);

  const auto again = value_of(ledger::sign(unit.ledger, unit.author, "E1", "Dr Rao", receipt.advice));
  CHECK(again.recall == recall);
  CHECK(value_of(ledger::due(unit.ledger, {}, {2029, 3, 1}, {})).empty());
  CHECK(value_of(ledger::unplanned(unit.ledger, {2026, 3, 20}, {})).empty());
}

TEST_CASE("a result that cannot be acted on is kept and listed", "[result]") {
  struct Row {
    const char* because;
    const char* changes;
    const char* received;
    const char* codes;
  };
  const auto row = GENERATE(values<Row>({
      {"an examination that is not on the ledger", R"({"exam":"E9"})", "unmatched", "exam: unknown_exam"},
      {"an accession that no pot has", R"({"exam":null,"accession":"26H9"})", "unmatched",
       "accession: unknown_accession"},
      {"a pot that the examination does not have", R"({"specimens":[{"id":"C","histology":{}}]})",
       "unmatched", "specimens[0].id: unknown_pot"},
      {"a lesion that it does not have",
       R"({"specimens":[{"id":"A","lesions":[{"id":"L9","histology":{}}]}]})", "unmatched",
       "specimens[0].lesions[0].id: unknown_lesion"},
      {"a lesion that was not removed",
       R"({"specimens":[{"id":"A","lesions":[{"id":"L3","histology":{}}]}]})", "unmatched",
       "specimens[0].lesions[0].id: other_pot"},
      {"a term that no one knows",
       R"({"specimens":[{"id":"A","lesions":[{"id":"L1","histology":{"type":"tubular adenomo"}}]}]})",
       "refused", "specimens[0].lesions[0].histology.type: unknown_term"},
      {"a key that no one knows", R"({"exams":"E1"})", "refused", "exams: unknown_key"},
  }));
  INFO(row.because);
  TemporaryLedger unit;
  unit.record(two_awaited());
  const auto before = unit.entries().size();
  json result = a_result("E1", "L1", tubular_adenoma());
  result.merge_patch(json::parse(row.changes));
  const auto receipt = unit.result(result);
  CHECK(ledger::text_of(receipt.received) == row.received);
  CHECK(codes(receipt) == row.codes);
  CHECK(unit.kinds(before + 1) == std::string("input ") + row.received);
  CHECK(value_of(ledger::waiting_inputs(unit.ledger, {})).size() == 1);
}

TEST_CASE("a result for an earlier examination gives the later ones new advice", "[result]") {
  TemporaryLedger unit;
  unit.record(a_record("H1", "E1", "2020-03-10", {a_lesion("L1", nullptr)}));
  unit.record(a_record("H1", "E2", "2026-03-10", {}));
  const auto before = unit.entries().size();
  unit.result(a_result("E1", "L1", tubular_adenoma()));
  CHECK(unit.kinds(before + 1) ==
        "histology entered, advice given, advice superseded, advice given, advice superseded");
}
