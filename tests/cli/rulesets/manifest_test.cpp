#include "rulesets/manifest.h"

#include <catch2/catch.hpp>

#include "support/places.h"
#include "support/shell.h"
#include "support/small_protocol.h"
#include "support/temporary_unit.h"

using support::Finished;
using support::TemporaryUnit;

namespace {

Finished verify(const TemporaryUnit& unit, std::vector<std::string> words = {}) {
  words.insert(words.begin(), {"rulesets", "verify"});
  words.insert(words.end(), {"--rulesets", unit.rulesets});
  return support::run_program(words);
}

std::string manifest_of(const TemporaryUnit& unit) {
  return support::read_text(unit.rulesets + "/MANIFEST");
}

}  // namespace

// Outside check: sha256sum of GNU coreutils reads the manifest without its prefix.
TEST_CASE("the manifest states the digest of every ruleset and shared file, and sha256sum agrees", "[cli]") {
  const TemporaryUnit unit;
  support::write_file(unit.rulesets + "/shared/words.dmn", "not looked into");
  support::write_file(unit.rulesets + "/shared/notes.txt", "no model");
  unit.write_manifest();
  const std::string manifest = manifest_of(unit);
  CHECK(manifest.find("  shared/words.dmn\n") != std::string::npos);
  CHECK(manifest.find("notes.txt") == std::string::npos);
  CHECK(manifest.find("  test-a/ruleset.dmn\n") < manifest.find("  test-b/ruleset.dmn\n"));
  const auto sums =
      support::shell("cd " + unit.rulesets + " && sed s/^sha256:// MANIFEST | sha256sum -c --quiet");
  CHECK(sums.exit_code == 0);
  CHECK(verify(unit).code == 0);
}

TEST_CASE("a file that is not the manifest's is named", "[cli]") {
  const TemporaryUnit unit;
  const std::string changed = unit.rulesets + "/test-a/ruleset.dmn";
  SECTION("changed") {
    support::write_file(changed, support::read_text(changed) + "\n");
    const Finished finished = verify(unit);
    CHECK(finished.code == 1);
    CHECK(finished.err.find("`test-a/ruleset.dmn` has the digest `sha256:") != std::string::npos);
    CHECK(finished.err.find("test-b") == std::string::npos);
    CHECK(verify(unit, {"test-b"}).code == 0);
  }
  SECTION("new") {
    support::write_file(unit.rulesets + "/test-c/ruleset.dmn",
                        support::small_dmn("test-c", support::small_answer("refer", "", "", "T-01")));
    const Finished finished = verify(unit);
    CHECK(finished.code == 1);
    CHECK(finished.err.find("`test-c/ruleset.dmn` is not in the manifest") != std::string::npos);
  }
  SECTION("gone") {
    std::filesystem::remove_all(unit.rulesets + "/test-b");
    const Finished finished = verify(unit);
    CHECK(finished.code == 1);
    CHECK(finished.err.find("states `test-b/ruleset.dmn`, which is not there") != std::string::npos);
  }
  SECTION("a line that is none") {
    support::write_file(unit.rulesets + "/MANIFEST", manifest_of(unit) + "sha256:12  x\n");
    const Finished finished = verify(unit);
    CHECK(finished.code == 3);
    CHECK(finished.err.find("MANIFEST:3:1: error: expected `sha256:`") != std::string::npos);
  }
  SECTION("no manifest") {
    std::filesystem::remove(unit.rulesets + "/MANIFEST");
    CHECK(verify(unit).code == 3);
  }
}

TEST_CASE("the rulesets of this tree are those of their manifest", "[cli]") {
  const Finished finished =
      support::run_program({"rulesets", "verify", "--rulesets", support::source("rulesets")});
  INFO(finished.err);
  CHECK(finished.code == 0);
}
