#include "letters/unit.h"

#include <catch2/catch.hpp>

#include "support/letters.h"
#include "support/temporary_unit.h"

using namespace support;

TEST_CASE("a unit file says who writes and whom to ring", "[cli][letter]") {
  const TemporaryFolder folder;
  write_file(folder.file("unit.json"), unit_file);
  const auto unit = value_of(cli::read_unit(folder.file("unit.json")));
  CHECK(unit.name == "Endoscopy Unit, Example Hospital");
  CHECK(unit.address == std::vector<std::string>{"1 Example Street", "Exampletown EX1 1EX"});
  CHECK(unit.telephone == "01632 960000");
  CHECK(unit.email.empty());
}

TEST_CASE("a fault of a unit file names the place, what was read and what was expected", "[cli][letter]") {
  const TemporaryFolder folder;
  write_file(folder.file("unit.json"),
             R"({"name": "A", "telephone": "1", "blood_thinners": ["apixaban", "a"]})");
  const auto unit = cli::read_unit(folder.file("unit.json"));
  REQUIRE_FALSE(unit);
  REQUIRE(unit.errors().size() == 1);
  CHECK(unit.errors().front().place.source == folder.file("unit.json"));
  CHECK(unit.errors().front().message ==
        R"(expected the name of a medicine, at least 4 letters, without blanks around it, read `"a"`)");
}

TEST_CASE("a unit file that lacks something says all that it lacks", "[cli][letter]") {
  const TemporaryFolder folder;
  struct Row {
    const char* because;
    const char* text;
    std::vector<std::string> paths;
  };
  const auto row = GENERATE(values<Row>({
      {"nothing in it", "{}", {"name", "telephone"}},
      {"no JSON", "Example Hospital", {""}},
      {"a telephone of blanks", R"({"name": "A", "telephone": " "})", {"telephone"}},
      {"an address in one line", R"({"name": "A", "telephone": "1", "address": "1 Street"})", {"address"}},
      {"an empty line in it", R"({"name": "A", "telephone": "1", "address": ["1 Street", ""]})", {"address"}},
      {"one blood thinner without a list",
       R"({"name": "A", "telephone": "1", "blood_thinners": "apixaban"})",
       {"blood_thinners"}},
      {"names that are none, each",
       R"({"name": "A", "telephone": "1", "blood_thinners": ["apixaban", "", 7, "ass", " warfarin"]})",
       {"blood_thinners[1]", "blood_thinners[2]", "blood_thinners[3]", "blood_thinners[4]"}},
      {"a key that is none", R"({"name": "A", "telephone": "1", "phone": "2"})", {"phone"}},
  }));
  INFO(row.because);
  write_file(folder.file("unit.json"), row.text);
  const auto unit = cli::read_unit(folder.file("unit.json"));
  REQUIRE_FALSE(unit);
  std::vector<std::string> paths;
  for (const engine::Error& error : unit.errors()) {
    CHECK(error.code == "malformed_unit");
    CHECK_FALSE(error.help.empty());
    paths.push_back(error.place.path);
  }
  CHECK(paths == row.paths);
}
