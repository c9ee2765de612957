// A year in a unit: 2,000 examinations, and whatever happens to them.

#include <catch2/catch.hpp>
#include <cstdlib>

#include "ledger/year/invariants.h"
#include "ledger/year/play.h"

namespace {

void play_year(std::uint64_t seed) {
  year::Unit unit;
  year::Invariants invariants(unit);
  year::Play(unit, seed, 2000).play([&] { invariants.check_month_end(); });
  invariants.check_year_end();
  CHECK(unit.book.exams.size() == 2000);
  struct Row {
    const char* what;
    int at_least;
  };
  const std::vector<Row> rows = {
      {"already recorded", 50},
      {"amended", 50},
      {"amended for people only", 10},
      {"background left out", 10},
      {"day corrected", 10},
      {"refused", 20},
      {"unmatched", 5},
      {"result before its examination", 5},
      {"batch with a faulty line", 5},
      {"input settled by a person", 10},
      {"histology entered", 500},
      {"already entered", 20},
      {"histology amended", 20},
      {"histology withdrawn", 10},
      {"signed", 1000},
      {"overridden", 50},
      {"stopped when vetted", 3},
      {"answered early", 5},
      {"answered on time", 20},
      {"answered late", 5},
      {"contact ladder used up", 3},
      {"defer", 10},
      {"redate", 3},
      {"cancel", 3},
      {"miss", 20},
      {"attend", 20},
      {"hand over", 3},
      {"take back", 1},
      {"reopen", 3},
      {"refused move", 3},
      {"died", 10},
      {"death reversed", 3},
      {"moved away", 5},
      {"moved back", 2},
      {"merged", 8},
      {"merged with an open recall", 1},
      {"merged while histology is awaited", 1},
      {"unmerged", 2},
      {"letter", 100},
      {"protocol adopted", 2},
      {"re-vetted", 100},
      {"advised again", 20},
  };
  for (const Row& row : rows) {
    INFO(row.what << " was played " << unit.played[row.what] << " times");
    CHECK(unit.played[row.what] >= row.at_least);
  }
}

}  // namespace

TEST_CASE("in a year of 2,000 examinations nobody is lost and nothing is acted on twice", "[year][slow]") {
  play_year(2026);
}

// Not among the ordinary tests: DUEWARD_YEAR says which other year is played (DEVELOPERS.md).
TEST_CASE("the same for another year", "[.years]") {
  const char* asked = std::getenv("DUEWARD_YEAR");
  play_year(asked == nullptr ? 1 : std::strtoull(asked, nullptr, 10));
}
