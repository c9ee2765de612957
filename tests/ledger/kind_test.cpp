#include "ledger/kind.h"

#include <catch2/catch.hpp>
#include <set>
#include <string>

TEST_CASE("every kind of entry has a text of its own that reads back", "[kind]") {
  std::set<std::string_view> texts;
  for (int i = 0; i <= static_cast<int>(ledger::Kind::letter_withheld); ++i) {
    const auto kind = static_cast<ledger::Kind>(i);
    CHECK(ledger::kind_of(ledger::text_of(kind)) == kind);
    CHECK(texts.insert(ledger::text_of(kind)).second);
  }
  CHECK_FALSE(ledger::kind_of("recall forgotten").has_value());
}

TEST_CASE("the texts are those of the format", "[kind]") {
  CHECK(ledger::text_of(ledger::Kind::person_registered) == "person registered");
  CHECK(ledger::text_of(ledger::Kind::histology_amended) == "histology amended");
  CHECK(ledger::text_of(ledger::Kind::advice_superseded) == "advice superseded");
  CHECK(ledger::text_of(ledger::Kind::recall_did_not_attend) == "recall did not attend");
  CHECK(ledger::text_of(ledger::Kind::recall_answered) == "recall answered");
  CHECK(ledger::text_of(ledger::Kind::ruleset_installed) == "ruleset installed");
  CHECK(ledger::text_of(ledger::Kind::input_unmatched) == "input unmatched");
}
