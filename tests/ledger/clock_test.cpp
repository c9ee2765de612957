#include "ledger/clock.h"

#include <catch2/catch.hpp>

#include "support/shell.h"

TEST_CASE("an instant is ISO 8601 in UTC with milliseconds", "[clock]") {
  struct Row {
    std::int64_t milliseconds;
    const char* text;
  };
  const auto row = GENERATE(values<Row>({
      {0, "1970-01-01T00:00:00.000Z"},
      {1, "1970-01-01T00:00:00.001Z"},
      {-1, "1969-12-31T23:59:59.999Z"},
      {1'773'134'100'250, "2026-03-10T09:15:00.250Z"},
      {951'782'400'000, "2000-02-29T00:00:00.000Z"},
      {4'102'444'799'999, "2099-12-31T23:59:59.999Z"},
  }));
  CHECK(ledger::text_of(ledger::Instant{row.milliseconds}) == row.text);
}

// Outside check: date (GNU coreutils).
TEST_CASE("an instant is the one that date gives", "[clock]") {
  const auto seconds = GENERATE(86'399, 68'169'600, 1'709'164'800, 2'147'483'648);
  const auto printed =
      support::shell("date -u -d @" + std::to_string(seconds) + " +%Y-%m-%dT%H:%M:%S.000Z").printed;
  CHECK(ledger::text_of(ledger::Instant{std::int64_t{seconds} * 1'000}) + "\n" == printed);
}
