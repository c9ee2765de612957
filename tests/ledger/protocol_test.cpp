#include "ledger/protocol.h"

#include <catch2/catch.hpp>

#include "ledger/lists.h"
#include "ledger/recalls.h"
#include "ledger/signing.h"
#include "support/records.h"
#include "support/verified.h"

using namespace support;
using nlohmann::json;

namespace {

ledger::NewProtocol terms(const char* from) {
  ledger::NewProtocol protocol;
  protocol.from = day(from);
  protocol.clinician = "Dr Rao";
  protocol.reason = "as agreed in the unit";
  return protocol;
}

}  // namespace

TEST_CASE("the protocol in force is the latest that has begun", "[protocol]") {
  TemporaryLedger unit;
  CHECK_FALSE(value_of(ledger::protocol_in_force(unit.ledger, day("2026-03-20"))).has_value());
  const auto first =
      value_of(ledger::adopt_protocol(unit.ledger, unit.author, unit.protocol, terms("2026-03-01")));
  const auto later =
      value_of(ledger::adopt_protocol(unit.ledger, unit.author, unit.protocol, terms("2026-10-01")));
  const auto mended =
      value_of(ledger::adopt_protocol(unit.ledger, unit.author, unit.protocol, terms("2026-10-01")));
  struct Row {
    const char* because;
    const char* day;
    std::uint64_t entry;
  };
  for (const Row& row : {Row{"before any", "2026-02-28", 0}, Row{"its first day", "2026-03-01", first},
                         Row{"the day before the next", "2026-09-30", first},
                         Row{"of two of one day the one adopted last", "2026-10-01", mended}}) {
    INFO(row.because);
    const auto found = value_of(ledger::protocol_in_force(unit.ledger, day(row.day)));
    CHECK((found ? found->entry : 0) == row.entry);
  }
  CHECK(later != mended);
  CHECK(value_of(ledger::protocols(unit.ledger)).size() == 3);
  CHECK(faults_of(unit.path).empty());
}

TEST_CASE("its rulesets come from the ledger's own bytes", "[protocol]") {
  TemporaryLedger unit;
  value_of(ledger::adopt_protocol(unit.ledger, unit.author, unit.protocol, terms("2026-03-01")));
  const auto adopted = value_of(ledger::protocol_in_force(unit.ledger, day("2026-03-20"))).value();
  const auto rulesets = value_of(ledger::rulesets_of(unit.ledger, adopted));
  REQUIRE(rulesets.size() == 1);
  CHECK(rulesets.front().bytes == unit.protocol.front().bytes);
  CHECK(rulesets.front().ruleset->digest == unit.protocol.front().ruleset->digest);
}

TEST_CASE("late dates and the end of the window that is due are the protocol's", "[protocol]") {
  TemporaryLedger unit;
  auto protocol = terms("2026-03-01");
  protocol.terms.late_after_days = 28;
  protocol.terms.interval_end = "to";
  value_of(ledger::adopt_protocol(unit.ledger, unit.author, unit.protocol, protocol));
  auto piece = a_lesion("L1", tubular_adenoma());
  piece["removal"] = "piecemeal";
  piece["size_mm"] = 25;
  unit.record(a_record("H1", "E1", "2026-03-10", {piece}));
  value_of(ledger::sign(unit.ledger, unit.author, "E1", "Dr Rao", 0));
  const auto line =
      value_of(ledger::due(unit.ledger, {day("2026-01-01"), day("2027-01-01")}, day("2026-03-20"), {}))
          .front();
  CHECK(engine::text_of(line.due) == "2026-09-10");
  CHECK(engine::text_of(line.late_on) == "2026-10-08");
  ledger::MoveDetails details;
  details.clinician = "Dr Rao";
  details.reason = "later";
  details.from = day("2026-12-01");
  value_of(ledger::move_recall(unit.ledger, unit.author, line.recall, ledger::Move::redate, details));
  const auto moved =
      value_of(ledger::due(unit.ledger, {day("2026-01-01"), day("2027-01-01")}, day("2026-03-20"), {}))
          .front();
  CHECK(engine::text_of(moved.late_on) == "2026-12-29");
}

TEST_CASE("the unit's settings fill what a record leaves out, and nothing else", "[protocol]") {
  TemporaryLedger unit;
  auto protocol = terms("2026-03-01");
  protocol.settings = {"nation=Scotland", "screening_from_age=50"};
  value_of(ledger::adopt_protocol(unit.ledger, unit.author, unit.protocol, protocol));
  json record = a_record("H1", "E1", "2026-03-10", {});
  record["setting"] = {{"nation", "Wales"}};
  unit.record(record);
  json advised;
  for (const auto& entry : unit.entries()) {
    if (entry.kind == "advice given") advised = json::parse(entry.body)["record"]["setting"];
  }
  CHECK(advised["nation"] == "Wales");
  CHECK(advised["screening_from_age"] == 50);
  CHECK(value_of(ledger::replay(unit.ledger)).faults.empty());
}

TEST_CASE("a protocol that lacks or contradicts something says all of it", "[protocol]") {
  TemporaryLedger unit;
  const auto adopted = ledger::adopt_protocol(unit.ledger, unit.author, {}, {});
  REQUIRE_FALSE(adopted);
  CHECK(adopted.errors().size() == 3);  // ruleset, clinician, reason
  auto protocol = terms("2026-03-01");
  protocol.terms.bands = {10, 7, 14};
  protocol.terms.late_after_days = -1;
  protocol.terms.age_limit = 0;
  protocol.terms.interval_end = "middle";
  const auto bad = ledger::adopt_protocol(unit.ledger, unit.author, unit.protocol, protocol);
  REQUIRE_FALSE(bad);
  CHECK(bad.errors().size() == 4);
  protocol = terms("2026-03-01");
  protocol.settings = {"screening_from_age=soon"};
  CHECK_FALSE(ledger::adopt_protocol(unit.ledger, unit.author, unit.protocol, protocol));
  CHECK(unit.entries().empty());
}

TEST_CASE("the bands of pathology are the protocol's from its first day", "[protocol]") {
  TemporaryLedger unit;
  auto protocol = terms("2026-03-15");
  protocol.terms.bands = {1, 2, 3};
  value_of(ledger::adopt_protocol(unit.ledger, unit.author, unit.protocol, protocol));
  unit.record(a_record("H1", "E1", "2026-03-10", {a_lesion("L1", nullptr)}));
  const auto band = [&](const char* on) {
    return value_of(ledger::awaiting(unit.ledger, day(on), {})).front().band;
  };
  CHECK(band("2026-03-14") == ledger::Band::grey);
  CHECK(band("2026-03-15") == ledger::Band::red);
}
