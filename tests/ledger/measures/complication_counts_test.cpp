// A unit of seven examinations, counted by hand.

#include <algorithm>
#include <catch2/catch.hpp>

#include "ledger/measures.h"
#include "support/records.h"
#include "support/temporary_ledger.h"

using namespace support;
using nlohmann::json;

namespace {

using Verdict = ledger::MeasuredCase::Verdict;

json examined(const std::string& exam, const json& complications, const std::vector<json>& lesions) {
  json record = a_record("H" + exam, exam, "2026-03-10", lesions);
  if (!complications.is_null()) record["exam"]["complications"] = complications;
  return record;
}

json removed_as(const char* removal) {
  json lesion = a_lesion("L1", tubular_adenoma());
  lesion["removal"] = removal;
  return lesion;
}

void fill(TemporaryLedger& unit) {
  const json bleeding = {{"kind", "bleeding"}, {"on", "2026-03-14"}, {"severity", "mild"}};
  const json perforation = {{"kind", "perforation"}};
  unit.record(examined("none", json::array(), {removed_as("en bloc")}));
  unit.record(examined("bled", json::array({bleeding}), {removed_as("piecemeal")}));
  unit.record(examined("both", {perforation, bleeding, bleeding},
                       {removed_as("biopsy only"), a_lesion("L2", tubular_adenoma())}));
  unit.record(examined("biopsy", json::array({perforation}), {removed_as("biopsy only")}));
  unit.record(examined("silent", nullptr, {removed_as("en bloc")}));
  json unclear = a_lesion("L1", tubular_adenoma());
  unclear.erase("removal");
  unit.record(examined("unclear", json::array({bleeding}), {unclear}));
  json sigmoidoscopy = examined("sigmoidoscopy", json::array({perforation}), {removed_as("en bloc")});
  sigmoidoscopy["exam"]["procedure"] = "flexible sigmoidoscopy";
  unit.record(sigmoidoscopy);
}

ledger::Measure measure(const TemporaryLedger& unit, const std::string& id,
                        const ledger::Period& period = {}) {
  const auto all = value_of(ledger::measures(unit.ledger, period, {2026, 4, 20}));
  const auto found = std::find_if(all.begin(), all.end(), [&](const auto& one) { return one.id == id; });
  REQUIRE(found != all.end());
  return *found;
}

/// The examinations of the cases with that verdict, each with its note.
std::string behind(const ledger::Measure& measure, Verdict verdict) {
  std::string text;
  for (const ledger::MeasuredCase& one : measure.cases) {
    if (one.verdict == verdict) text += one.exam + (one.note.empty() ? "" : " (" + one.note + ")") + "; ";
  }
  return text;
}

}  // namespace

TEST_CASE("complications are counted of colonoscopies, and what is not stated is left out", "[measures]") {
  TemporaryLedger unit;
  fill(unit);
  const auto any = measure(unit, "complications");
  CHECK(any.numerator() == 4);
  CHECK(any.denominator() == 5);
  CHECK(behind(any, Verdict::not_met) == "none; ");
  CHECK(behind(any, Verdict::excluded) == "silent (complications not stated); ");
  CHECK(behind(any, Verdict::met) ==
        "bled (bleeding 2026-03-14, mild); "
        "both (perforation; bleeding 2026-03-14, mild; bleeding 2026-03-14, mild); "
        "biopsy (perforation); unclear (bleeding 2026-03-14, mild); ");

  const auto perforations = measure(unit, "perforation");
  CHECK(perforations.numerator() == 2);
  CHECK(perforations.denominator() == 5);
  CHECK(behind(perforations, Verdict::met) == "both (perforation); biopsy (perforation); ");
}

TEST_CASE("complications are counted of examinations with a polypectomy, which a biopsy is not",
          "[measures]") {
  TemporaryLedger unit;
  fill(unit);
  const auto any = measure(unit, "polypectomy-complications");
  CHECK(any.numerator() == 2);
  CHECK(any.denominator() == 3);
  CHECK(behind(any, Verdict::not_met) == "none; ");
  CHECK(any.excluded() ==
        std::map<std::string, std::uint64_t>{{"complications not stated", 1},
                                             {"not stated whether a polyp was removed", 1}});

  const auto bleedings = measure(unit, "polypectomy-bleeding");
  CHECK(bleedings.numerator() == 2);
  CHECK(bleedings.denominator() == 3);
  CHECK(behind(bleedings, Verdict::excluded) ==
        "silent (complications not stated); unclear (not stated whether a polyp was removed); ");
}

TEST_CASE("complications count in the period of their examination", "[measures]") {
  TemporaryLedger unit;
  fill(unit);
  const ledger::Period later{engine::Date{2026, 3, 11}, {}};
  CHECK(measure(unit, "complications", later).cases.empty());
  CHECK(measure(unit, "polypectomy-complications", later).cases.empty());
}

TEST_CASE("a complication that is told later is counted", "[measures]") {
  TemporaryLedger unit;
  unit.record(examined("E1", json::array(), {removed_as("en bloc")}));
  CHECK(measure(unit, "complications").numerator() == 0);
  unit.record(examined("E1", {{{"kind", "bleeding"}, {"on", "2026-03-14"}}}, {removed_as("en bloc")}));
  CHECK(measure(unit, "complications").numerator() == 1);
}
