// A ledger in a temporary folder, with a clock that stands still and the small protocol in force.

#pragma once

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "ledger/ledger.h"
#include "ledger/reception.h"
#include "support/fixed_clock.h"
#include "support/small_protocol.h"
#include "support/temporary_folder.h"

namespace support {

/// The value; without one, the test fails with the errors.
template <class T>
T value_of(engine::Result<T> result) {
  if (!result) {
    for (const engine::Error& error : result.errors()) UNSCOPED_INFO(engine::text_of(error));
    FAIL("the operation failed");
  }
  return std::move(*result);
}

struct TemporaryLedger {
  TemporaryFolder folder;
  std::string path = folder.file("unit.ledger");
  ledger::Ledger ledger = value_of(ledger::Ledger::create(path));
  FixedClock clock{"2026-03-20"};
  ledger::Author author{"test", clock};
  ledger::Protocol protocol = small_protocol();

  /// Records one record and gives the only receipt.
  ledger::Receipt record(const nlohmann::json& given) {
    return only(value_of(ledger::record(ledger, author, protocol, given.dump(), "test.json")));
  }
  ledger::Receipt result(const nlohmann::json& given) {
    return only(value_of(ledger::result(ledger, author, protocol, given.dump(), "test.json")));
  }
  std::vector<ledger::Entry> entries() const {
    std::vector<ledger::Entry> all;
    value_of(ledger.each_entry(1, [&](const ledger::Entry& entry) { all.push_back(entry); }));
    return all;
  }
  /// The kinds of all entries from number `from` on, with commas between.
  std::string kinds(std::uint64_t from = 1) const {
    std::string line;
    for (const ledger::Entry& entry : entries()) {
      if (entry.sequence >= from) line += (line.empty() ? "" : ", ") + entry.kind;
    }
    return line;
  }

 private:
  static ledger::Receipt only(std::vector<ledger::Receipt> receipts) {
    REQUIRE(receipts.size() == 1);
    return std::move(receipts.front());
  }
};

}  // namespace support
