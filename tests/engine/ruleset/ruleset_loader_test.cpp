// What makes a DMN file a ruleset, and every way in which it may fall short.

#include <catch2/catch.hpp>

#include "engine/advice/small_ruleset.h"
#include "engine/canonical.h"

using namespace engine;
using namespace engine::testing;

namespace {

const char* const an_answer =
    R"({action: "no surveillance", from: null, to: null, counted from: null, counted from date: null, then: [],
        rule: "T-01", because: "nothing was found", also: [], ask instead: null})";

SmallRuleset good() {
  SmallRuleset ruleset;
  ruleset.next_step = an_answer;
  return ruleset;
}

std::string about_with(const std::string& from, const std::string& to) {
  std::string about = SmallRuleset{}.about;
  return about.replace(about.find(from), from.size(), to);
}

SmallRuleset with_about(const std::string& from, const std::string& to) {
  SmallRuleset ruleset = good();
  ruleset.about = about_with(from, to);
  return ruleset;
}

SmallRuleset with_rows(std::vector<SmallRow> rows) {
  SmallRuleset ruleset = good();
  ruleset.rows = std::move(rows);
  return ruleset;
}

std::vector<std::string> messages(const SmallRuleset& ruleset) {
  const auto result = load_ruleset(dmn_of(ruleset), "test.dmn");
  std::vector<std::string> texts;
  if (result) return texts;
  for (const Error& error : result.errors()) {
    CHECK(error.place.source == "test.dmn");
    texts.push_back(error.code + ": " + error.message);
  }
  return texts;
}

}  // namespace

TEST_CASE("a ruleset that is in order is loaded with its rows and the digest of its bytes", "[ruleset]") {
  SmallRuleset small = good();
  small.flags = "[]";
  small.about = about_with("supersedes: []", "supersedes: [\"test-2010\"]");
  const std::string xml = dmn_of(small);
  const auto result = load_ruleset(xml, "test.dmn");
  REQUIRE(result);
  const Ruleset& ruleset = **result;
  CHECK(ruleset.about.id == "test-2026");
  CHECK(ruleset.about.title == "Test guideline");
  CHECK(ruleset.about.supersedes == std::vector<std::string>{"test-2010"});
  CHECK_FALSE(ruleset.about.superseded_by);
  CHECK(ruleset.digest == digest_text(xml));
  CHECK(ruleset.flags);
  CHECK_FALSE(ruleset.facts);
  REQUIRE(ruleset.row("T-04") != nullptr);
  CHECK(ruleset.row("T-04")->evidence == "memory");
  CHECK(ruleset.row("T-04")->source == "Test guideline 2026, table 1");
  CHECK(ruleset.row("T-99") == nullptr);
}

TEST_CASE("one row may stand in two rules when it says the same", "[ruleset]") {
  CHECK(messages(with_rows({{"T-01"}, {"T-02"}, {"T-01"}})).empty());
}

TEST_CASE("a ruleset that falls short is refused, and the place is named", "[ruleset]") {
  using Row = std::tuple<const char*, SmallRuleset, std::vector<std::string>>;
  const auto row = GENERATE(values<Row>({
      Row{"no `About`",
          [] {
            SmallRuleset r = good();
            r.about.clear();
            return r;
          }(),
          {"missing_decision: the ruleset has no decision `About`"}},
      Row{"no `Next step`",
          [] {
            SmallRuleset r = good();
            r.next_step.clear();
            return r;
          }(),
          {"missing_decision: the ruleset has no decision `Next step`"}},
      Row{"no state",
          with_about("state: \"current\", ", ""),
          {"wrong_type: `About.state` is `null`, expected a string that is not empty"}},
      Row{"an unknown state",
          with_about("\"current\"", "\"draft\""),
          {"unknown_term: `About.state` is `draft`, expected `current`, `superseded` or `withdrawn`"}},
      Row{"current and superseded at once",
          with_about("superseded by: null", "superseded by: \"test-2027\""),
          {"contradiction: `About.state` is `current`, but `About.superseded by` is `test-2027`"}},
      Row{"a key that is misspelt",
          with_about("publisher:", "publsher:"),
          {"wrong_type: `About.publisher` is `null`, expected a string that is not empty",
           "unknown_key: `About` has no key `publsher`"}},
      Row{"an id that is no folder name",
          with_about("\"test-2026\"", "\"Test 2026\""),
          {"malformed_id: `About.id` is `Test 2026`, expected lower-case letters, digits and hyphens: "
           "`uk-2020`"}},
      Row{"no row at all", with_rows({}), {"no_rows: no table has a row with an annotation `row`"}},
      Row{"a row without source and evidence",
          with_rows({{"T-01", "", "it says so", ""}}),
          {"missing_annotation: table `Rows`, rule 1: row `T-01` has no `source`",
           "missing_annotation: table `Rows`, rule 1: row `T-01` has no `evidence`"}},
      Row{"a source without a row id",
          with_rows({{"T-01"}, {""}}),
          {"missing_row_id: table `Rows`, rule 2: has a source but no `row`"}},
      Row{"an unknown word for evidence",
          with_rows({{"T-01", "opinion"}}),
          {"unknown_term: table `Rows`, rule 1: row `T-01` has the evidence `opinion`, expected `guideline`, "
           "`secondary`, `memory` or `engine`"}},
      Row{"one row id with two sources",
          with_rows({{"T-01"}, {"T-01", "guideline", "what the row says", "another paper"}}),
          {"row_says_two_things: table `Rows`, rule 2: row `T-01` has the source `another paper`, and "
           "elsewhere "
           "`Test guideline 2026, table 1`"}},
      Row{"one row id with two evidences",
          with_rows({{"T-01"}, {"T-01", "memory"}}),
          {"row_says_two_things: table `Rows`, rule 2: row `T-01` has the evidence `memory`, and elsewhere "
           "`guideline`"}},
      Row{"an input that no record has",
          [] {
            SmallRuleset r = good();
            r.more = R"(<inputData id="weather" name="weather"><variable name="weather"/></inputData>)";
            return r;
          }(),
          {"unknown_input: the input `weather` is none that a record has"}},
      Row{"several faults are told in one run",
          [] {
            SmallRuleset r = with_about("state: \"current\", ", "");
            r.next_step.clear();
            r.rows = {{"T-01", ""}};
            return r;
          }(),
          {"wrong_type: `About.state` is `null`, expected a string that is not empty",
           "missing_decision: the ruleset has no decision `Next step`",
           "missing_annotation: table `Rows`, rule 1: row `T-01` has no `evidence`"}},
  }));
  INFO(std::get<0>(row));
  CHECK(messages(std::get<1>(row)) == std::get<2>(row));
}

TEST_CASE("an `About` that cannot be worked out is refused with what the evaluation noted", "[ruleset]") {
  const auto texts = messages(with_about("\"1.0.0\"", "1 + \"0\""));
  REQUIRE(texts.size() == 1);
  CHECK(texts[0].find("`About`") != std::string::npos);
}

TEST_CASE("a file that is no DMN is refused", "[ruleset]") {
  CHECK_FALSE(load_ruleset("", "test.dmn"));
  CHECK_FALSE(load_ruleset("<definitions", "test.dmn"));
}
