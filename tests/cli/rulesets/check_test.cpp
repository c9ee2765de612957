// What `rulesets check` names: each fault with its place and what to do.

#include "rulesets/check.h"

#include <catch2/catch.hpp>

#include "engine/canonical.h"
#include "support/temporary_unit.h"

using support::Finished;
using support::small_answer;
using support::small_dmn;
using support::TemporaryUnit;

namespace {

Finished check(const TemporaryUnit& unit, const std::string& id = {}) {
  std::vector<std::string> words = {"rulesets", "check", "--rulesets", unit.rulesets};
  if (!id.empty()) words.insert(words.begin() + 2, id);
  return support::run_program(words);
}

void put(const TemporaryUnit& unit, const std::string& folder, const std::string& bytes) {
  support::write_file(unit.rulesets + "/" + folder + "/ruleset.dmn", bytes);
  support::write_file(unit.rulesets + "/" + folder + "/guideline.cases.jsonl", "\n");
}

std::string replaced(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  REQUIRE(at != std::string::npos);
  return text.replace(at, from.size(), to);
}

std::string sound(const std::string& id) {
  return small_dmn(id, small_answer("refer", "", "", "T-01"));
}

std::string with_import(const std::string& bytes, const std::string& space, const std::string& location,
                        const std::string& digest) {
  const std::string import =
      "<import name=\"\" namespace=\"" + space + "\" locationURI=\"" + location +
      "\" importType=\"https://www.omg.org/spec/DMN/20230324/MODEL/\" xmlns:d=\"urn:d\"" +
      (digest.empty() ? "" : " d:digest=\"" + digest + "\"") + "/>";
  const std::size_t end = bytes.find('>', bytes.find("<definitions"));
  return bytes.substr(0, end + 1) + import + bytes.substr(end + 1);
}

std::string shared_model(const std::string& space) {
  return "<definitions xmlns=\"https://www.omg.org/spec/DMN/20230324/MODEL/\" id=\"s\" name=\"s\" "
         "namespace=\"" +
         space + "\"></definitions>";
}

}  // namespace

TEST_CASE("a fault of a ruleset is named with what to do", "[cli]") {
  const TemporaryUnit unit;
  struct Row {
    const char* because;
    std::string bytes;
    const char* error;
    const char* help;
  };
  const std::string shared = shared_model("urn:shared");
  support::write_file(unit.rulesets + "/shared/words.dmn", shared);
  const std::string digest = engine::digest_text(shared);
  const Row rows[] = {
      {"no decision that answers",
       replaced(sound("bad"), "name=\"Next step\"><variable name=\"Next step\"",
                "name=\"Other\"><variable name=\"Other\""),
       "the ruleset has no decision `Next step`", "it gives the action"},
      {"a row without its source", replaced(sound("bad"), "none: made for tests", " "),
       "row `T-01` has no `source`", ""},
      {"an action that is none", replaced(sound("bad"), "action: \"refer\"", "action: \"reffer\""),
       "`Next step`: `reffer` is no action", "did you mean `refer`?"},
      {"a ruleset to ask that is not there",
       replaced(sound("bad"), "ask instead: null", "ask instead: \"test-q\""),
       "patients are sent to the ruleset `test-q`, which is not there", "did you mean `test-a`?"},
      {"another name than its folder", sound("worse"), "calls itself `worse`",
       "its folder must have the same name"},
      {"an import without a digest", with_import(sound("bad"), "urn:shared", "../shared/words.dmn", ""),
       "the import of `urn:shared` states no digest", "dueward:digest"},
      {"an import that changed",
       with_import(sound("bad"), "urn:shared", "../shared/words.dmn", "sha256:" + std::string(64, '0')),
       "the import of `urn:shared` states the digest", "put the right file back"},
      {"an import that is not there", with_import(sound("bad"), "urn:gone", "../shared/gone.dmn", digest),
       "the imported model `urn:gone` cannot be found", "folder `shared` beside the rulesets"},
      {"an import from elsewhere", with_import(sound("bad"), "urn:shared", "/etc/hostname", digest),
       "the imported model `urn:shared` cannot be found", "folder `shared`"},
  };
  for (const Row& row : rows) {
    INFO(row.because);
    put(unit, "bad", row.bytes);
    const Finished finished = check(unit, "bad");
    INFO(finished.out << finished.err);
    CHECK(finished.code != 0);
    CHECK(finished.err.find("bad/ruleset.dmn") != std::string::npos);
    CHECK(finished.err.find(row.error) != std::string::npos);
    CHECK(finished.err.find(row.help) != std::string::npos);
  }
}

TEST_CASE("imports that go round in a circle are named", "[cli]") {
  const TemporaryUnit unit;
  // Each would have to state the other's digest: a circle can only be written without one.
  support::write_file(unit.rulesets + "/shared/one.dmn",
                      with_import(shared_model("urn:one"), "urn:two", "../shared/two.dmn", ""));
  support::write_file(unit.rulesets + "/shared/two.dmn",
                      with_import(shared_model("urn:two"), "urn:one", "../shared/one.dmn", ""));
  put(unit, "bad", with_import(sound("bad"), "urn:one", "../shared/one.dmn", ""));
  const Finished finished = check(unit, "bad");
  CHECK(finished.code == 3);
  CHECK(finished.err.find("comes back to the file that it starts from") != std::string::npos);
  CHECK(finished.err.find("take one of the imports out") != std::string::npos);
}

TEST_CASE("two folders with one id are both named", "[cli]") {
  const TemporaryUnit unit;
  put(unit, "test-a-new", support::small_protocol().front().bytes);
  const Finished finished = check(unit);
  CHECK(finished.code == 3);
  CHECK(finished.err.find("test-a-new/ruleset.dmn` and `" + unit.rulesets +
                          "/test-a/ruleset.dmn` both call themselves `test-a`") != std::string::npos);
}

TEST_CASE("a ruleset that cannot be loaded does not hide the others", "[cli]") {
  const TemporaryUnit unit;
  put(unit, "bad", "<definitions");
  for (const char* id : {"test-a", "test-b"})
    support::write_file(unit.rulesets + "/" + id + "/guideline.cases.jsonl", "\n");
  const Finished finished = check(unit);
  CHECK(finished.code == 3);
  CHECK(finished.out.find("bad: 1 fault\n") != std::string::npos);
  CHECK(finished.out.find("test-a: 0 of 0 cases") != std::string::npos);
  CHECK(finished.out.find("test-b: 0 of 0 cases") != std::string::npos);
}

TEST_CASE("a protocol that names an unknown ruleset is a fault of the folder", "[cli]") {
  const TemporaryUnit unit;
  for (const char* id : {"test-a", "test-b"})
    support::write_file(unit.rulesets + "/" + id + "/guideline.cases.jsonl", "\n");
  support::write_file(unit.rulesets + "/protocols/unit.json",
                      R"({"id":"unit","title":"t","rulesets":["test-a","test-q"],"interval_end":"from"})");
  const Finished finished = check(unit);
  CHECK(finished.code == 3);
  CHECK(finished.out.find("protocol unit: 1 fault\n") != std::string::npos);
  CHECK(finished.err.find("names the ruleset `test-q`, which is not in") != std::string::npos);
}

TEST_CASE("every fault of a file is told in one run", "[cli]") {
  const TemporaryUnit unit;
  put(unit, "bad",
      replaced(replaced(sound("bad"), "none: made for tests", " "), "state: \"current\"", "state: \"nice\""));
  const Finished finished = check(unit, "bad");
  CHECK(finished.out == "bad: 2 faults\n");
  CHECK(finished.err.find("has no `source`") != std::string::npos);
  CHECK(finished.err.find("`nice`") != std::string::npos);
}

TEST_CASE("a gap in the rules is found by records that are made for it", "[cli]") {
  const TemporaryUnit unit;
  put(unit, "bad",
      small_dmn("bad", "if count(exam.lesions) > 0 and exam.lesions[1].size_mm > 40 then null else " +
                           small_answer("refer", "", "", "T-01")));
  const Finished finished = check(unit, "bad");
  INFO(finished.err);
  CHECK(finished.code == 1);
  CHECK(finished.err.find("`1 tubular adenoma of 41 mm in the sigmoid colon` gets no answer") !=
        std::string::npos);
}
