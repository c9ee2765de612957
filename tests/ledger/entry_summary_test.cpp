#include <catch2/catch.hpp>

#include "ledger/entry.h"

TEST_CASE("an entry is told in a line", "[entry]") {
  struct Row {
    const char* kind;
    const char* body;
    const char* line;
  };
  const auto row = GENERATE(values<Row>({
      {"advice signed",
       R"({"exam":"E1","person":"P2","action":"surveillance colonoscopy","due":{"from":"2029-03-10","to":"2029-03-10"},"clinician":"Dr Rao","on":"2026-03-20"})",
       "advice signed: examination E1; surveillance colonoscopy; by Dr Rao; on 2026-03-20; due 2029-03-10"},
      {"recall redated", R"({"recall":"R9","reason":"frail","due":"2029-06-01"})",
       "recall redated: recall R9; frail; due 2029-06-01"},
      {"advice signed", R"({"exam":"E1","action":"no surveillance","due":null})",
       "advice signed: examination E1; no surveillance"},
      {"checkpoint", R"({"size":7,"head":"sha256:00"})", "checkpoint: at entry 7"},
      {"person registered", R"({"person":"P2"})", "person registered: the subject"},
      {"broken", "{", "broken: the subject"},
  }));
  CHECK(ledger::summary_of({1, "", "", row.kind, "the subject", row.body, {}, {}}) == row.line);
}
