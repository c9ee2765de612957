#include "ledger/chain.h"

#include <catch2/catch.hpp>
#include <fstream>
#include <sstream>

#include "support/places.h"
#include "support/shell.h"

using ledger::Entry;

namespace {

/// Entries linked as they should be.
std::vector<Entry> a_chain(std::size_t length) {
  std::vector<Entry> entries;
  engine::Digest previous{};
  for (std::uint64_t sequence = 1; sequence <= length; ++sequence) {
    Entry entry{sequence,  "2026-03-10T09:15:00.000Z",
                "j.smith", "checkpoint",
                "ledger",  R"({"size":)" + std::to_string(sequence) + "}",
                previous,  {}};
    entry.hash = ledger::hash_of(entry);
    previous = entry.hash;
    entries.push_back(entry);
  }
  return entries;
}

}  // namespace

// Outside check: sha256sum (GNU coreutils). The example is that of docs/ledger-format.md.
TEST_CASE("the hash of an entry is what sha256sum gives", "[chain]") {
  Entry entry{1,        "2026-03-10T09:15:00.000Z",         "j.smith", "checkpoint",
              "ledger", R"({"head":"sha256:00","size":0})", {},        {}};
  const auto sum = support::shell(
      R"({ printf '\0'; head -c 32 /dev/zero; printf '\0\0\0\0\0\0\0\1'; )"
      R"(printf '%s' '{"actor":"j.smith","at":"2026-03-10T09:15:00.000Z","body":{"head":"sha256:00","size":0},)"
      R"("kind":"checkpoint","subject":"ledger"}'; } | sha256sum)");
  REQUIRE(sum.exit_code == 0);
  CHECK(engine::hexadecimal(ledger::hash_of(entry)) == sum.printed.substr(0, 64));
}

TEST_CASE("the worked example of docs/ledger-format.md is right", "[chain]") {
  std::stringstream page;
  page << std::ifstream(support::source("docs/ledger-format.md")).rdbuf();
  Entry first{1,        "2026-03-10T09:15:00.000Z",         "j.smith", "checkpoint",
              "ledger", R"({"head":"sha256:00","size":0})", {},        {}};
  Entry second{2,
               "2026-03-10T09:16:00.000Z",
               "j.smith",
               "checkpoint",
               "ledger",
               R"({"head":"sha256:00","size":1})",
               ledger::hash_of(first),
               {}};
  for (const Entry& entry : {first, second}) {
    CHECK_THAT(page.str(), Catch::Contains(engine::hexadecimal(ledger::hash_of(entry)) + "  -"));
    CHECK_THAT(page.str(), Catch::Contains(ledger::payload_of(entry)));
  }
}

TEST_CASE("the sequence number is hashed as eight bytes, the highest first", "[chain]") {
  Entry entry{258, "t", "a", "k", "s", "{}", {}, {}};
  const auto sum = support::shell(
      R"({ printf '\0'; head -c 32 /dev/zero; printf '\0\0\0\0\0\0\1\2'; )"
      R"(printf '%s' '{"actor":"a","at":"t","body":{},"kind":"k","subject":"s"}'; } | sha256sum)");
  CHECK(engine::hexadecimal(ledger::hash_of(entry)) == sum.printed.substr(0, 64));
}

TEST_CASE("a payload is canonical JSON whatever the texts hold", "[chain]") {
  const Entry entry{1, "t", "a \"quoted\" \\ name\n", "k", "s", R"({"x":1})", {}, {}};
  CHECK(ledger::payload_of(entry) ==
        R"({"actor":"a \"quoted\" \\ name\n","at":"t","body":{"x":1},"kind":"k","subject":"s"})");
}

TEST_CASE("a sound chain has no broken entry", "[chain]") {
  const auto length = GENERATE(0u, 1u, 2u, 17u);
  CHECK_FALSE(ledger::first_broken(a_chain(length)).has_value());
}

TEST_CASE("the first broken entry is named", "[chain]") {
  struct Row {
    const char* because;
    void (*falsify)(std::vector<Entry>&);
    std::uint64_t sequence;
    const char* fault;
  };
  const auto row = GENERATE(values<Row>({
      {"another body", [](std::vector<Entry>& e) { e[2].body = "{}"; }, 3,
       "the hash does not fit what the entry says"},
      {"another actor", [](std::vector<Entry>& e) { e[2].actor = "k.jones"; }, 3,
       "the hash does not fit what the entry says"},
      {"another hash", [](std::vector<Entry>& e) { e[1].hash[0] ^= 1; }, 2,
       "the hash does not fit what the entry says"},
      {"another link", [](std::vector<Entry>& e) { e[3].previous[31] ^= 1; }, 4,
       "the link does not fit: `previous` is not the hash of the entry before"},
      {"an entry taken out", [](std::vector<Entry>& e) { e.erase(e.begin() + 1); }, 2,
       "the entry is missing: number 3 comes next"},
      {"the first taken out", [](std::vector<Entry>& e) { e.erase(e.begin()); }, 1,
       "the entry is missing: number 2 comes next"},
      {"a body edited and hashed anew",
       [](std::vector<Entry>& e) {
         e[2].body = "{}";
         e[2].hash = ledger::hash_of(e[2]);
       },
       4, "the link does not fit: `previous` is not the hash of the entry before"},
  }));
  INFO(row.because);
  auto entries = a_chain(5);
  row.falsify(entries);
  const auto broken = ledger::first_broken(entries);
  REQUIRE(broken.has_value());
  CHECK(broken->sequence == row.sequence);
  CHECK(broken->fault == row.fault);
}

TEST_CASE("after a broken entry the rest is still followed", "[chain]") {
  auto entries = a_chain(5);
  entries[1].body = "{}";
  ledger::ChainFollower follower;
  std::string broken;
  for (const Entry& entry : entries) {
    if (const auto found = follower.next(entry)) broken += std::to_string(found->sequence) + " ";
  }
  CHECK(broken == "2 ");
  CHECK(follower.size() == 5);
  CHECK(follower.head() == entries.back().hash);
}
