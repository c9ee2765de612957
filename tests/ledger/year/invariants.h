// What must hold at every month's end (docs/safety.md): the ledger's lists, lines, counts and histories are
// held against the book, and the chain against itself.

#pragma once

#include "ledger/checkpoint.h"
#include "ledger/year/unit.h"

namespace year {

class Invariants {
 public:
  explicit Invariants(Unit& unit) : unit_(unit) {}

  /// On the last day of a month, before the book begins the next one.
  void check_month_end();
  void check_year_end();

 private:
  void check_lists();
  void check_lines();
  void check_nobody_is_lost();
  void check_census();
  void check_chain();
  void check_histories(bool all);
  void compare(const char* list, const std::set<std::string>& found);

  Unit& unit_;
  ledger::Checkpoint kept_;
  std::map<std::string, std::set<std::string>> expected_;
};

}  // namespace year
