#include <catch2/catch.hpp>

#include "ledger/lists.h"
#include "ledger/signing.h"
#include "support/records.h"
#include "support/temporary_ledger.h"

using namespace support;
using ledger::SeenAdvice;
using ledger::SignedInBatch;
using nlohmann::json;

namespace {

json with_adenoma(const std::string& exam) {
  return a_record("H" + exam, exam, "2026-03-10", {a_lesion("L1", tubular_adenoma())});
}

/// `signed, signed before, unknown_exam`
std::string told(const std::vector<SignedInBatch>& batch) {
  std::string text;
  for (const SignedInBatch& one : batch) {
    text += text.empty() ? "" : ", ";
    if (one.what == SignedInBatch::What::refused) {
      text += one.errors.at(0).code;
    } else {
      text += one.what == SignedInBatch::What::signed_now ? "signed" : "signed before";
    }
  }
  return text;
}

std::string sign(TemporaryLedger& unit, const std::vector<SeenAdvice>& batch) {
  return told(value_of(ledger::sign_batch(unit.ledger, unit.author, "Dr Rao", batch)));
}

}  // namespace

TEST_CASE("a batch signs exactly the advices that it names", "[sign]") {
  TemporaryLedger unit;
  const auto first = unit.record(with_adenoma("E1")), second = unit.record(with_adenoma("E2"));
  unit.record(with_adenoma("E3"));
  const std::vector<SeenAdvice> batch = {{"E1", first.advice}, {"E2", second.advice}};
  const auto before = unit.entries().size();
  CHECK(sign(unit, batch) == "signed, signed");
  CHECK(unit.kinds(before + 1) == "advice signed, recall opened, advice signed, recall opened");
  const auto left = value_of(ledger::unplanned(unit.ledger, {2026, 3, 20}, {}));
  REQUIRE(left.size() == 1);
  CHECK(left[0].examination.exam == "E3");
}

TEST_CASE("the same batch again changes nothing", "[sign]") {
  TemporaryLedger unit;
  const auto first = unit.record(with_adenoma("E1"));
  const std::vector<SeenAdvice> batch = {{"E1", first.advice}, {"E1", first.advice}};
  CHECK(sign(unit, batch) == "signed, signed before");
  const auto before = unit.entries().size();
  CHECK(sign(unit, batch) == "signed before, signed before");
  CHECK(unit.entries().size() == before);
}

TEST_CASE("one advice of a batch that cannot be signed stops none of the others", "[sign]") {
  TemporaryLedger unit;
  const auto replaced = unit.record(with_adenoma("replaced")),
             otherwise = unit.record(with_adenoma("otherwise")), good = unit.record(with_adenoma("good"));
  const auto awaited = unit.record(a_record("H4", "awaited", "2026-03-10", {a_lesion("L1", nullptr)}));
  json amended = with_adenoma("replaced");
  amended["exam"]["lesions"][0]["removal"] = "piecemeal";
  amended["exam"]["lesions"][0]["size_mm"] = 30;
  const auto again = unit.record(amended);
  value_of(ledger::override_advice(unit.ledger, unit.author, "otherwise", "Dr Rao",
                                   {engine::Action::no_surveillance, {}, "declined"}, 0));
  CHECK(sign(unit, {{"replaced", replaced.advice},
                    {"unknown", 7},
                    {"awaited", awaited.advice},
                    {"otherwise", otherwise.advice},
                    {"good", 0},
                    {"good", good.advice}}) ==
        "advice_replaced, unknown_exam, advice_not_settled, already_signed, advice_not_named, signed");
  CHECK(sign(unit, {{"replaced", again.advice}}) == "signed");
}

TEST_CASE("a batch needs the clinician who signs it", "[sign]") {
  TemporaryLedger unit;
  CHECK(ledger::sign_batch(unit.ledger, unit.author, "", {{"E1", 1}}).errors().front().code ==
        "clinician_missing");
}
