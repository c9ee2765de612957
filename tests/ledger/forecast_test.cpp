#include "ledger/forecast.h"

#include <catch2/catch.hpp>

#include "ledger/signing.h"
#include "support/records.h"
#include "support/temporary_ledger.h"

using namespace support;

namespace {

engine::Date day(std::string_view text) {
  return engine::parse_date(text).value();
}

void plan(TemporaryLedger& unit, const std::string& exam, const char* from, const char* to) {
  unit.record(a_record("H" + exam, exam, "2025-06-01", {}));
  value_of(ledger::override_advice(
      unit.ledger, unit.author, exam, "Dr Rao",
      {engine::Action::surveillance_colonoscopy, engine::Window{day(from), day(to)}, "by hand"}, 0));
}

/// `2026-03 1 (0 to 1); ...`: due, and the band.
std::string told(const ledger::Forecast& forecast) {
  std::string text;
  for (const ledger::ForecastMonth& month : forecast.months) {
    text += engine::text_of(month.month).substr(0, 7) + " " + std::to_string(month.due()) + " (" +
            std::to_string(month.least) + " to " + std::to_string(month.most) + "); ";
  }
  return text;
}

}  // namespace

TEST_CASE("examinations are counted in the month of their due date, with the band of their windows",
          "[forecast]") {
  TemporaryLedger unit;
  plan(unit, "late", "2025-12-01", "2025-12-01");
  plan(unit, "this-month", "2026-03-25", "2026-03-25");
  plan(unit, "a-window", "2026-04-20", "2026-06-10");
  plan(unit, "far", "2031-01-01", "2031-01-01");
  const auto forecast = value_of(ledger::forecast(unit.ledger, day("2026-03-20"), 4));
  CHECK(told(forecast) == "2026-03 2 (2 to 2); 2026-04 1 (0 to 1); 2026-05 0 (0 to 1); 2026-06 0 (0 to 1); ");
  CHECK(forecast.waiting == 1);
  CHECK(forecast.beyond == 1);
}

TEST_CASE("every open recall is in a month or beyond", "[forecast]") {
  TemporaryLedger unit;
  for (int i = 0; i < 20; ++i) {
    const std::string due = engine::text_of(engine::add(day("2025-11-30"), engine::Months{i * 2}).value());
    plan(unit, "E" + std::to_string(i), due.c_str(), due.c_str());
  }
  const auto forecast = value_of(ledger::forecast(unit.ledger, day("2026-03-20"), 12));
  std::uint64_t all = forecast.beyond;
  for (const auto& month : forecast.months) all += month.recalls;
  CHECK(all == 20);
}

TEST_CASE("the later steps of a plan are counted from the step before", "[forecast]") {
  TemporaryLedger unit;
  const std::string answer =
      R"({action: "site check", from: duration("P2M"), to: duration("P6M"), counted from: null,
          counted from date: null, then: [{action: "surveillance colonoscopy", from: duration("P12M"),
          to: duration("P12M"), counted from: "site check", rule: "T-03", because: "the test says so"}],
          rule: "T-02", because: "the test says so", also: [], ask instead: null})";
  unit.protocol = {small_ruleset("test-plan", answer)};
  unit.record(a_record("H1", "E1", "2026-03-10", {}));
  value_of(ledger::sign(unit.ledger, unit.author, "E1", "Dr Rao", 0));
  const auto forecast = value_of(ledger::forecast(unit.ledger, day("2026-03-20"), 24));
  std::string steps;
  for (const auto& month : forecast.months) {
    if (month.due() > 0)
      steps += engine::text_of(month.month).substr(0, 7) + " " + std::to_string(month.recalls) + "+" +
               std::to_string(month.later) + "; ";
  }
  CHECK(steps == "2026-05 1+0; 2027-05 0+1; ");
}

TEST_CASE("who does not attend is offered an appointment the month after", "[forecast]") {
  ledger::Forecast forecast;
  forecast.months = {
      {day("2026-03-01"), 100, 0, 0, 0}, {day("2026-04-01"), 50, 0, 0, 0}, {day("2026-05-01")}};
  // By hand: 100 offered, 10 missed; 50 + 10 = 60 offered, 6 missed; 6 offered.
  const auto load = ledger::load_of(forecast, 0.1);
  CHECK(load[0].appointments == Approx(100));
  CHECK(load[0].attended == Approx(90));
  CHECK(load[1].appointments == Approx(60));
  CHECK(load[2].appointments == Approx(6));
  CHECK(load[2].attended == Approx(5.4));
}
