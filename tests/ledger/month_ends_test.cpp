#include "ledger/month_ends.h"

#include <catch2/catch.hpp>

#include "ledger/recalls.h"
#include "ledger/signing.h"
#include "support/records.h"
#include "support/temporary_ledger.h"

using namespace support;

namespace {

engine::Date day(std::string_view text) {
  return engine::parse_date(text).value();
}

/// Examines and plans on the clock's day; gives the recall.
std::string plan(TemporaryLedger& unit, const std::string& exam, const char* date, const char* due) {
  unit.record(a_record("H" + exam, exam, date, {}));
  const engine::Window window{day(due), day(due)};
  return value_of(ledger::override_advice(unit.ledger, unit.author, exam, "Dr Rao",
                                          {engine::Action::surveillance_colonoscopy, window, "by hand"}, 0))
      .recall;
}

/// `2026-01-31: 0+2-0=2 due 0 late 0; ...`
std::string told(const ledger::MonthEnds& ends) {
  std::string text;
  for (const ledger::MonthEnd& end : ends.months) {
    text += engine::text_of(end.day) + ": " + std::to_string(end.open_before) + "+" +
            std::to_string(end.came()) + "-" + std::to_string(end.went()) + "=" + std::to_string(end.open) +
            " due " + std::to_string(end.due) + " late " + std::to_string(end.late) + "; ";
    CHECK(end.reconciles());
  }
  return text;
}

}  // namespace

TEST_CASE("each month's end follows from the one before", "[census]") {
  TemporaryLedger unit;
  unit.clock.set("2026-01-15");
  const std::string first = plan(unit, "E1", "2025-06-01", "2026-03-01");
  const std::string second = plan(unit, "E2", "2025-06-01", "2026-12-01");
  unit.clock.set("2026-02-10");
  value_of(ledger::move_recall(
      unit.ledger, unit.author, second, ledger::Move::close,
      {.clinician = "Dr Rao", .reason = "declined", .means = {}, .from = {}, .to = {}, .on = {}}));
  plan(unit, "E3", "2025-06-01", "2026-04-20");
  unit.clock.set("2026-04-12");
  value_of(ledger::move_recall(
      unit.ledger, unit.author, second, ledger::Move::reopen,
      {.clinician = {}, .reason = "changed her mind", .means = {}, .from = {}, .to = {}, .on = {}}));
  const auto ends = value_of(ledger::month_ends(unit.ledger, day("2026-04-13"), 4));
  // E1 is due on 1 March: on the list from 18 January, late from 13 April.
  CHECK(told(ends) ==
        "2026-01-31: 0+2-0=2 due 1 late 0; "
        "2026-02-28: 2+1-1=2 due 1 late 0; "
        "2026-03-31: 2+0-0=2 due 2 late 0; "
        "2026-04-13: 2+1-0=3 due 1 late 1; ");
  CHECK(ends.is_now);
  CHECK(ends.listed == 3);
  CHECK(first != second);
}

TEST_CASE("a recall that is stopped when it is vetted is closed once in the census", "[census]") {
  TemporaryLedger unit;
  unit.clock.set("2026-01-15");
  plan(unit, "E1", "2025-06-01", "2026-03-01");
  const std::string stopped = plan(unit, "E2", "2025-06-01", "2026-03-01");
  ledger::MoveDetails details;
  details.clinician = "Dr Rao";
  details.reason = "too frail";
  details.result = ledger::Vetting::stop;
  value_of(ledger::move_recall(unit.ledger, unit.author, stopped, ledger::Move::vet, details));
  const auto ends = value_of(ledger::month_ends(unit.ledger, day("2026-01-31"), 1));
  CHECK(told(ends) == "2026-01-31: 0+2-1=1 due 1 late 0; ");
  CHECK(ends.months.front().closed == 1);
  CHECK(ends.listed == 1);
}

TEST_CASE("a month's end that lies back is counted without what came after", "[census]") {
  TemporaryLedger unit;
  unit.clock.set("2026-01-15");
  plan(unit, "E1", "2025-06-01", "2026-03-01");
  unit.clock.set("2026-02-10");
  plan(unit, "E2", "2025-06-01", "2026-03-01");
  const auto ends = value_of(ledger::month_ends(unit.ledger, day("2026-01-31"), 1));
  CHECK(told(ends) == "2026-01-31: 0+1-0=1 due 1 late 0; ");
  CHECK_FALSE(ends.is_now);
}

TEST_CASE("deferred days move the late date of the census as they move the list's", "[census]") {
  TemporaryLedger unit;
  unit.clock.set("2026-01-15");
  const std::string recall = plan(unit, "E1", "2025-06-01", "2026-02-01");
  value_of(ledger::move_recall(unit.ledger, unit.author, recall, ledger::Move::defer,
                               {.clinician = {},
                                .reason = "a new hip",
                                .means = {},
                                .from = day("2026-02-01"),
                                .to = day("2026-02-20"),
                                .on = {}}));
  const auto lists = [&](const char* today) {
    return told(value_of(ledger::month_ends(unit.ledger, day(today), 1)));
  };
  CHECK(lists("2026-04-04") == "2026-04-04: 1+0-0=1 due 1 late 0; ");
  CHECK(lists("2026-04-05") == "2026-04-05: 1+0-0=1 due 0 late 1; ");
}

TEST_CASE("a ledger without recalls has an empty month", "[census]") {
  const TemporaryLedger unit;
  const auto ends = value_of(ledger::month_ends(unit.ledger, day("2026-03-31"), 12));
  CHECK(told(ends) == "2026-03-31: 0+0-0=0 due 0 late 0; ");
}
