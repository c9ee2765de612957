// What is advised on again: open recalls, and examinations that a rule closed, a few hundred at a time so
// that a ledger of any size takes little memory.

#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "database/transaction.h"
#include "ledger/ledger.h"
#include "ledger/revet.h"

namespace ledger {

struct RevetCase {
  std::uint64_t recall = 0;  ///< 0: a rule closed it.
  bool later_step = false;   ///< Of a plan: the answer's own date is not this recall's.
  std::string exam;
  std::uint64_t advice = 0;
  std::string action, due, ruleset, rule;  ///< Of a case that a rule closed: from its advice.
  std::int64_t risk = 0;
};

class RevetCases {
 public:
  explicit RevetCases(const Ledger& ledger) : ledger_(ledger) {}
  /// The next cases; none when all were given. By one thread at a time.
  engine::Result<std::vector<RevetCase>> next();

 private:
  const Ledger& ledger_;
  std::uint64_t last_recall_ = 0;
  std::string last_exam_;
  bool recalls_done_ = false;
};

/// The record of the examination as it was last advised on, and the answer of `advice` that counted, as JSON
/// text. A recall under review follows an older answer than the record that stands by now.
struct StoredAdvice {
  std::string record, chosen;
};
StoredAdvice stored_advice(Connection& connection, std::uint64_t advice);

}  // namespace ledger
