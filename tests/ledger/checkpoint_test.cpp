#include "ledger/checkpoint.h"

#include <catch2/catch.hpp>

namespace {

const std::string zeros(64, '0');

}  // namespace

TEST_CASE("a checkpoint is one line, and reads back", "[checkpoint]") {
  ledger::Checkpoint checkpoint{1234, engine::sha256("any")};
  const std::string line = ledger::text_of(checkpoint);
  CHECK(line == "1234 sha256:" + engine::hexadecimal(engine::sha256("any")));
  const auto read = ledger::parse_checkpoint("  " + line + "\n");
  REQUIRE(read);
  CHECK(*read == checkpoint);
}

TEST_CASE("the checkpoint of an empty ledger has number 0 and no hash", "[checkpoint]") {
  CHECK(ledger::text_of(ledger::Checkpoint{}) == "0 sha256:" + zeros);
}

TEST_CASE("another line is not a checkpoint", "[checkpoint]") {
  struct Row {
    const char* because;
    std::string line;
  };
  const auto row = GENERATE(values<Row>({
      {"nothing", ""},
      {"no digest", "12"},
      {"no number", " sha256:" + zeros},
      {"a negative number", "-1 sha256:" + zeros},
      {"a number too large for 64 bits", "99999999999999999999 sha256:" + zeros},
      {"another digest", "1 md5:" + zeros},
      {"a short digest", "1 sha256:" + zeros.substr(1)},
      {"a long digest", "1 sha256:0" + zeros},
      {"capital letters", "1 sha256:A" + zeros.substr(1)},
      {"words after it", "1 sha256:" + zeros + " yes"},
  }));
  INFO(row.because);
  const auto read = ledger::parse_checkpoint(row.line);
  REQUIRE_FALSE(read);
  CHECK(read.errors().front().code == "bad_checkpoint");
}
