// The day of an examination was written wrongly, and is corrected: it comes before or after another
// examination than it was taken for.

#include <catch2/catch.hpp>

#include "ledger/lists.h"
#include "ledger/signing.h"
#include "support/records.h"
#include "support/verified.h"

using namespace support;
using nlohmann::json;

namespace {

struct TwoExaminations : TemporaryLedger {
  std::string recall;
  explicit TwoExaminations(const char* day_of_second) {
    clock.set("2026-12-20");
    record(adenoma("E1", "2026-03-10"));
    recall = value_of(ledger::sign(ledger, author, "E1", "Dr Rao", 0)).recall;
    record(adenoma("E2", day_of_second));
  }
  static json adenoma(const std::string& exam, const std::string& date) {
    return a_record("H1", exam, date, {a_lesion("L1", tubular_adenoma())});
  }
  /// `E1 opened, E2 opened, under review`
  std::string open() {
    std::string text;
    const auto lines =
        value_of(ledger::due(ledger, {day("2000-01-01"), day("2100-01-01")}, clock.today(), {}));
    for (const auto& line : lines) {
      text += (text.empty() ? "" : ", ") + line.examination.exam + " " + line.state;
      if (line.under_review) text += " under review";
    }
    return text;
  }
  std::string to_sign() {
    std::string text;
    for (const auto& line : value_of(ledger::to_sign(ledger, clock.today(), {})))
      text += (text.empty() ? "" : ", ") + line.examination.exam;
    return text;
  }
};

}  // namespace

TEST_CASE("an examination that was later than its day said answers the recall when that is corrected",
          "[record]") {
  TwoExaminations unit("2026-02-10");
  CHECK(unit.open() == "E1 opened under review");  // E2 came to light before E1
  const auto receipt = unit.record(TwoExaminations::adenoma("E2", "2026-05-10"));
  CHECK(receipt.notes.front() ==
        "examination `E2` answers recall " + unit.recall + " early: due 2029-03-10, examined 2026-05-10");
  CHECK(unit.open().empty());
  CHECK(unit.to_sign() == "E1, E2");
  CHECK(faults_of(unit.path).empty());
}

TEST_CASE("an examination that was earlier than its day said answers nothing any more", "[record]") {
  TwoExaminations unit("2026-05-10");
  value_of(ledger::sign(unit.ledger, unit.author, "E2", "Dr Rao", 0));
  CHECK(unit.open() == "E2 opened");
  const auto receipt = unit.record(TwoExaminations::adenoma("E2", "2026-02-10"));
  CHECK(receipt.notes.at(1) == "recall " + unit.recall + " is open again");
  CHECK(unit.open() == "E1 opened under review");
  CHECK(unit.to_sign() == "E2, E1");
  CHECK(faults_of(unit.path).empty());
}

TEST_CASE(
    "a signed next step that no recall was opened for is signed anew when the later examination was none",
    "[record]") {
  TemporaryLedger unit;
  unit.clock.set("2026-12-20");
  // Its own record tells of an examination of the day that E2 turns out to be of: with E2 it says the same.
  json first = TwoExaminations::adenoma("E1", "2026-03-10");
  first["previous"] = {{{"date", "2026-02-10"}, {"lesions", json::array()}}};
  unit.record(first);
  unit.record(TwoExaminations::adenoma("E2", "2026-05-10"));
  CHECK(value_of(ledger::sign(unit.ledger, unit.author, "E1", "Dr Rao", 0)).recall.empty());
  unit.record(TwoExaminations::adenoma("E2", "2026-02-10"));
  CHECK_FALSE(value_of(ledger::sign(unit.ledger, unit.author, "E1", "Dr Rao", 0)).recall.empty());
  CHECK(faults_of(unit.path).empty());
}

TEST_CASE("a corrected day that changes no order changes no recall", "[record]") {
  TwoExaminations unit("2026-05-10");
  const auto receipt = unit.record(TwoExaminations::adenoma("E2", "2026-05-12"));
  CHECK(receipt.notes.empty());
  CHECK(unit.open().empty());
}
