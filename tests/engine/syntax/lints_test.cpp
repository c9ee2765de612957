// What has a meaning in FEEL and is nearly always a slip: a branch that is never reached, a key that hides a name.
// A ruleset with one is refused at load; elsewhere it is a warning.

#include <catch2/catch.hpp>

#include "engine/model.h"
#include "support/dmn_text.h"

using namespace engine;

namespace {

/// Codes of what a clinical model notes at load for a decision over `x`, with an outer name `size_mm`.
std::string lints(const std::string& feel, Profile profile = Profile::clinical) {
  const std::string item =
      "<itemDefinition name=\"tLesion\"><itemComponent name=\"size_mm\"><typeRef>number</typeRef></itemComponent>"
      "<itemComponent name=\"number\"><typeRef>number</typeRef></itemComponent></itemDefinition>"
      "<itemDefinition name=\"tLesions\" isCollection=\"true\"><typeRef>tLesion</typeRef></itemDefinition>";
  const auto loaded = Model::load(
      testing::dmn(item + testing::input("x", "number") + testing::input("lesions", "tLesions") +
                   testing::input("size_mm", "number") +
                   testing::decision("d", testing::needs_input("x") + testing::needs_input("lesions") +
                                              testing::needs_input("size_mm"),
                                     testing::literal(feel))),
      "test.dmn", profile);
  std::string codes;
  for (const Error& error : loaded ? (*loaded)->warnings() : loaded.errors()) {
    codes += (codes.empty() ? "" : "; ") + error.code + ": " + error.message;
  }
  return codes;
}

}  // namespace

TEST_CASE("branches that are never reached are found at load", "[syntax]") {
  struct Row {
    const char* because;
    const char* feel;
    const char* lints;
  };
  const auto row = GENERATE(values<Row>({
      {"both branches can be reached", "if x > 1 then 1 else 2", ""},
      {"a condition that always holds", "if true then 1 else 2",
       "unreachable_branch: this `else` is never reached: the condition is always true"},
      {"a condition that never holds", "if x > 1 and false then 1 else 2",
       "unreachable_branch: this `then` is never reached: the condition is always false"},
      {"`or true` always holds", "if x > 1 or true then 1 else 2",
       "unreachable_branch: this `else` is never reached: the condition is always true"},
      {"`and true` may go either way", "if x > 1 and true then 1 else 2", ""},
      {"the same question twice in a chain", "if x > 1 then 1 else if x > 1 then 2 else 3",
       "unreachable_branch: this `then` is never reached: an `if` around it asks the same and was not true"},
      {"the same question within", "if x > 1 then (if x > 1 then 1 else 2) else 3",
       "unreachable_branch: this `else` is never reached: an `if` around it asks the same and was true"},
      {"another question", "if x > 1 then 1 else if x > 2 then 2 else 3", ""},
      {"a name that means something else inside", "if x > 1 then 0 else sum(for x in [1, 2] return if x > 1 then 1 else 2)", ""},
      {"two at once", "[if true then 1 else 2, if false then 1 else 2]",
       "unreachable_branch: this `else` is never reached: the condition is always true; "
       "unreachable_branch: this `then` is never reached: the condition is always false"},
  }));
  INFO(row.because << ": " << row.feel);
  CHECK(lints(row.feel) == row.lints);
  CHECK(lints(row.feel, Profile::standard) == row.lints);
}

TEST_CASE("a key that hides a name in a filter is found at load", "[syntax]") {
  const std::string hidden =
      "shadowed_name: `size_mm` is a key of the filter's item and hides what has that name outside";
  struct Row {
    const char* because;
    const char* feel;
    std::string lints;
  };
  const auto row = GENERATE_COPY(values<Row>({
      {"which one is meant?", "lesions[size_mm >= 10]", hidden},
      {"the key, plainly", "lesions[item.size_mm >= 10]", ""},
      {"a built-in function of that name hides nothing that is used", "lesions[number >= 2]", ""},
      {"a name outside that no item has", "lesions[item.size_mm >= x]", ""},
      {"a key that the item of the filter around it has as well", "lesions[count(lesions[number > 1]) > 0]",
       "shadowed_name: `number` is a key of the filter's item and hides what has that name outside"},
  }));
  INFO(row.because << ": " << row.feel);
  CHECK(lints(row.feel) == row.lints);
}

TEST_CASE("a constant condition of a boxed conditional is found at load", "[syntax]") {
  const auto loaded = Model::load(
      testing::dmn(testing::decision("d", "",
                                     "<conditional><if>" + testing::literal("true") + "</if><then>" + testing::literal("1") +
                                         "</then><else>" + testing::literal("2") + "</else></conditional>")),
      "test.dmn", Profile::clinical);
  REQUIRE_FALSE(loaded);
  CHECK(loaded.errors().front().code == "unreachable_branch");
  CHECK(loaded.errors().front().message == "`else` is never reached: the condition is always true");
}
