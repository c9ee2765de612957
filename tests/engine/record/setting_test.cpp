#include <catch2/catch.hpp>

#include "engine/canonical.h"
#include "engine/record.h"
#include "support/builders.h"

namespace engine {
namespace {

using support::a_record;

Record read(const std::string& text) {
  auto record = read_record(text, "test");
  REQUIRE(record);
  return *record;
}

TEST_CASE("a setting given on the command line is as if it stood in the record", "[record]") {
  struct Row {
    const char* because;
    const char* setting;
    std::vector<const char*> assignments;
    const char* result;
  };
  const auto row = GENERATE(values<Row>({
      {"where there was none", "", {"nation=Scotland"}, R"({"nation":"Scotland"})"},
      {"where it was null", R"(,"setting":null)", {"screening_from_age=50"}, R"({"screening_from_age":50})"},
      {"where it was empty",
       R"(,"setting":{})",
       {"organised_screening=false"},
       R"({"organised_screening":false})"},
      {"beside another",
       R"(,"setting":{"nation":"Wales"})",
       {"adenoma_detection_adequate=true"},
       R"({"adenoma_detection_adequate":true,"nation":"Wales"})"},
      {"in the place of another",
       R"(,"setting":{"nation":"Wales"})",
       {"nation=Northern Ireland"},
       R"({"nation":"Northern Ireland"})"},
      {"one after another",
       "",
       {"screening_from_age=45", "nation=New Zealand", "screening_from_age=60"},
       R"({"nation":"New Zealand","screening_from_age":60})"},
      {"text with an equals sign in it", "", {"nation=a=\"b\""}, R"({"nation":"a=\"b\""})"},
  }));
  INFO(row.because);
  const std::string rest = R"({"exam":{"date":"2026-03-10","lesions":[],"place":"\"setting\":{"})";
  Record record = read(rest + row.setting + "}");
  for (const char* assignment : row.assignments) REQUIRE(apply_setting(record, assignment));
  const Record expected = read(rest + ",\"setting\":" + row.result + "}");
  CHECK(record.canonical == expected.canonical);
  CHECK(record.digest == expected.digest);
  CHECK(record.setting.nation == expected.setting.nation);
  CHECK(record.setting.screening_from_age == expected.setting.screening_from_age);
  CHECK(record.setting.organised_screening == expected.setting.organised_screening);
  CHECK(record.setting.adenoma_detection_adequate == expected.setting.adenoma_detection_adequate);
}

TEST_CASE("a wrong setting is refused as in a record, and changes nothing", "[record][errors]") {
  struct Row {
    const char* because;
    std::string assignment;
    const char* error;
  };
  const auto row = GENERATE(values<Row>({
      {"no equals sign", "nation",
       "--setting: error: `nation` was read, expected `key=value`\n"
       "  help: a setting has `nation`, `screening_from_age`, `organised_screening` and "
       "`adenoma_detection_adequate`, "
       "such as `nation=Scotland`\n"},
      {"no key", "=50",
       "--setting: error: `=50` was read, expected `key=value`\n"
       "  help: a setting has `nation`, `screening_from_age`, `organised_screening` and "
       "`adenoma_detection_adequate`, "
       "such as `nation=Scotland`\n"},
      {"an unknown key", "country=Scotland",
       "--setting: setting.country: error: a setting has no `country`\n"
       "  help: a setting has `nation`, `screening_from_age`, `organised_screening` and "
       "`adenoma_detection_adequate`\n"},
      {"a misspelled nation", "nation=scotland",
       "--setting: setting.nation: error: `scotland` is no term for this, expected `England`, `Scotland`, "
       "`Wales` or "
       "`Northern Ireland`\n"
       "  help: did you mean `Scotland`?\n"},
      {"a number out of bounds", "screening_from_age=-1",
       "--setting: setting.screening_from_age: error: `-1` is out of bounds, expected a whole number from 0 "
       "to 120\n"},
      {"text where a number belongs", "screening_from_age=fifty",
       "--setting: setting.screening_from_age: error: the text `fifty` was read, expected a whole number "
       "from 0 to "
       "120\n"},
      {"`yes` is not true", "organised_screening=yes",
       "--setting: setting.organised_screening: error: the text `yes` was read, expected `true` or "
       "`false`\n"},
      {"no value", "nation=",
       "--setting: setting.nation: error: the text is blank, expected a name\n"
       "  help: leave the key out when it is not known\n"},
      {"points and nothing else", "screening_from_age=1.2.3",
       "--setting: setting.screening_from_age: error: the text `1.2.3` was read, expected a whole number "
       "from 0 to "
       "120\n"},
      {"a byte that is no UTF-8", "nation=Scotland\xFF",
       "--setting: setting.nation: error: `Scotland\xEF\xBF\xBD` is no term for this, expected `England`, "
       "`Scotland`, "
       "`Wales` or `Northern Ireland`\n"
       "  help: did you mean `Scotland`?\n"},
  }));
  INFO(row.because);
  Record record = read(a_record().text());
  const std::string before = record.canonical;
  const auto done = apply_setting(record, row.assignment);
  REQUIRE_FALSE(done);
  CHECK(text_of(done.errors().front()) == row.error);
  CHECK(record.canonical == before);
  CHECK(record.digest == digest_text(before));
}

}  // namespace
}  // namespace engine
