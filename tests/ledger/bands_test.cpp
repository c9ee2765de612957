#include "bands.h"

#include <catch2/catch.hpp>

#include "late_clock.h"

// Limits: common practice.
TEST_CASE("pathology that is out has a band by its days", "[awaiting]") {
  struct Row {
    std::int64_t days;
    const char* band;
  };
  const auto row = GENERATE(values<Row>({
      {0, "grey"},
      {6, "grey"},
      {7, "yellow"},
      {10, "yellow"},
      {11, "amber"},
      {14, "amber"},
      {15, "red"},
      {400, "red"},
  }));
  const engine::Date since{2026, 3, 10};
  CHECK(ledger::text_of(ledger::band_of(since, ledger::plus_days(since, row.days), std::nullopt)) ==
        row.band);
}

TEST_CASE("a site check that could fall due by the fourteenth day makes it red at once", "[awaiting]") {
  const engine::Date since{2026, 3, 10};
  CHECK(ledger::band_of(since, since, engine::Date{2026, 3, 24}) == ledger::Band::red);
  CHECK(ledger::band_of(since, since, engine::Date{2026, 3, 25}) == ledger::Band::grey);
}
