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
      {"person merged", R"({"person":"P2","merged":"P9","clinician":"Dr Rao","reason":"one passport"})",
       "person merged: merged was P9; one passport; by Dr Rao"},
      {"account named", R"({"account":"rao","name":"Dr Rao","role":"consultant","reason":"head"})",
       "account named: rao; Dr Rao; consultant; head"},
      {"recall invited", R"({"recall":"R9","attempt":5,"means":"final","owner":"Sister Example"})",
       "recall invited: recall R9; by final; owner Sister Example"},
      {"recall vetted", R"({"recall":"R9","result":"clinic","reason":"frail","clinician":"Dr Rao"})",
       "recall vetted: recall R9; clinic; frail; by Dr Rao"},
      {"letter issued", R"({"exam":"E1","letter":"result","to":"patient","action":"site check"})",
       "letter issued: examination E1; result; site check; to patient"},
      {"protocol adopted", R"({"from":"2026-04-01","clinician":"Dr Rao","reason":"agreed"})",
       "protocol adopted: agreed; by Dr Rao; from 2026-04-01"},
      {"checkpoint", R"({"size":7,"head":"sha256:00"})", "checkpoint: at entry 7"},
      {"person registered", R"({"person":"P2"})", "person registered: the subject"},
      {"broken", "{", "broken: the subject"},
  }));
  CHECK(ledger::summary_of({1, "", "", row.kind, "the subject", row.body, {}, {}}) == row.line);
}
