// Signatures, against the openssl command in both directions. Keys are made for each test and never kept.

#include <catch2/catch.hpp>
#include <filesystem>

#include "support/shell.h"
#include "support/temporary_unit.h"

using support::Finished;
using support::TemporaryUnit;

namespace {

struct Unit : TemporaryUnit {
  std::string key = new_key("unit"), foreign = new_key("foreign");
  std::string signatures = folder.file("signatures");
  std::string file = rulesets + "/test-a/ruleset.dmn", signature = signatures + "/test-a.sig";

  /// NAME.pem and NAME.pub.pem; gives the path without ending.
  std::string new_key(const std::string& name) const {
    const std::string path = folder.file(name);
    const auto made =
        support::shell("openssl genpkey -algorithm ed25519 -out " + path + ".pem && openssl pkey -in " +
                       path + ".pem -pubout -out " + path + ".pub.pem");
    REQUIRE(made.exit_code == 0);
    return path;
  }
  Finished sign(std::vector<std::string> words) const {
    words.insert(words.begin(), {"rulesets", "sign"});
    words.insert(words.end(), {"--rulesets", rulesets});
    return support::run_program(words);
  }
  Finished verify(const std::string& with) const {
    return support::run_program(
        {"rulesets", "verify", "--key", with + ".pub.pem", "test-a", "--rulesets", rulesets});
  }
};

}  // namespace

TEST_CASE("what is signed with the unit's key passes with its public key", "[cli]") {
  const Unit unit;
  const Finished signed_it = unit.sign({"--key", unit.key + ".pem", "test-a"});
  INFO(signed_it.err);
  CHECK(signed_it.code == 0);
  CHECK(std::filesystem::exists(unit.signature));  // beside the folder of rulesets unless told otherwise
  CHECK(unit.verify(unit.key).code == 0);
  CHECK(support::run_program({"rulesets", "verify", "--key", unit.key + ".pub.pem", "--signatures",
                              unit.signatures, "test-a", "--rulesets", unit.rulesets})
            .code == 0);
}

// Outside check: OpenSSL's command line; Ed25519 is RFC 8032.
TEST_CASE("openssl passes our signature, and we pass openssl's", "[cli]") {
  const Unit unit;
  REQUIRE(unit.sign({"--key", unit.key + ".pem", "test-a"}).code == 0);
  CHECK(support::shell("openssl pkeyutl -verify -rawin -pubin -inkey " + unit.key + ".pub.pem -in " +
                       unit.file + " -sigfile " + unit.signature)
            .exit_code == 0);
  std::filesystem::remove(unit.signature);
  REQUIRE(support::shell("openssl pkeyutl -sign -rawin -inkey " + unit.key + ".pem -in " + unit.file +
                         " -out " + unit.signature)
              .exit_code == 0);
  CHECK(unit.verify(unit.key).code == 0);
}

TEST_CASE("a signature that does not fit is named", "[cli]") {
  const Unit unit;
  REQUIRE(unit.sign({"--key", unit.key + ".pem", "test-a"}).code == 0);
  std::string words;
  Finished finished;
  SECTION("a byte of the ruleset changed, and the manifest with it") {
    support::write_file(unit.file, support::read_text(unit.file) + "\n");
    unit.write_manifest();
    finished = unit.verify(unit.key);
    words = "the signature of the ruleset `test-a` does not fit";
  }
  SECTION("another's key") {
    finished = unit.verify(unit.foreign);
    words = "is not the signer's key";
  }
  SECTION("no signature") {
    std::filesystem::remove(unit.signature);
    finished = unit.verify(unit.key);
    words = "the ruleset `test-a` has no signature";
  }
  SECTION("not a signature at all") {
    support::write_file(unit.signature, "signed, sealed");
    finished = unit.verify(unit.key);
    words = "is no signature: it has 14 bytes";
  }
  SECTION("a byte of the signature changed") {
    std::string bytes = support::read_text(unit.signature);
    bytes[10] = static_cast<char>(bytes[10] ^ 1);
    support::write_file(unit.signature, bytes);
    finished = unit.verify(unit.key);
    words = "does not fit";
  }
  INFO(finished.err);
  CHECK(finished.code == 1);
  CHECK(finished.err.find(words) != std::string::npos);
}

TEST_CASE("a key that cannot be used is refused before anything is written", "[cli]") {
  const Unit unit;
  REQUIRE(support::shell("openssl genpkey -algorithm X25519 -out " + unit.folder.file("x.pem")).exit_code ==
          0);
  struct Row {
    const char* because;
    std::string key;
  };
  const Row rows[] = {{"a public key cannot sign", unit.key + ".pub.pem"},
                      {"a key of another kind", unit.folder.file("x.pem")},
                      {"no key", unit.file}};
  for (const Row& row : rows) {
    INFO(row.because);
    const Finished finished = unit.sign({"--key", row.key, "test-a"});
    CHECK(finished.code == 3);
    CHECK(finished.err.find("holds no Ed25519 private key") != std::string::npos);
    CHECK_FALSE(std::filesystem::exists(unit.signature));
  }
  const Finished finished = support::run_program(
      {"rulesets", "verify", "--key", unit.key + ".pem", "test-a", "--rulesets", unit.rulesets});
  CHECK(finished.code == 3);  // a private key has no business where signatures are checked
}

TEST_CASE("what the manifest does not name is not signed", "[cli]") {
  const Unit unit;
  support::write_file(unit.file, support::read_text(unit.file) + "\n");
  const Finished finished = unit.sign({"--key", unit.key + ".pem", "test-a"});
  CHECK(finished.code == 3);
  CHECK(finished.err.find("is not verified") != std::string::npos);
}
