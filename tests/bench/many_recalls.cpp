#include "bench/many_recalls.h"

#include <utility>

#include "bench/bare_sqlite.h"
#include "bench/large_unit.h"
#include "ledger/lists.h"

namespace bench {

ledger::Ledger many_recalls(const ledger::Ledger& unit, const std::string& path, int recalls) {
  const int times = recalls / static_cast<int>(ledger::sweep(unit, unit_day)->open);
  BareSqlite(unit.path()).run(("VACUUM INTO '" + path + "'").c_str());
  BareSqlite(path).run(
      ("WITH RECURSIVE copies (copy) AS (SELECT 1 UNION ALL SELECT copy + 1 FROM copies WHERE copy < " +
       std::to_string(times) +
       ") INSERT INTO recalls (number, person, exam, advice, action, ruleset, rule, clinician,"
       " risk, state, open, due, due_to, late_on, interval_days, under_review, signed, later_steps, "
       "counted_from,"
       " follows, answered_by, attempts, last_attempt, invited, means, owner, vetted_by, vetted_on, "
       "vetted_result,"
       " age_at_due, lane, entry) SELECT number + copy * 100000000, person, exam, advice, action, ruleset, "
       "rule,"
       " clinician, risk, state, open, date(due, (copy % 29) || ' days'), date(due_to, (copy % 29) || ' "
       "days'),"
       " date(late_on, (copy % 29) || ' days'), interval_days, under_review, signed, later_steps, "
       "counted_from,"
       " follows, answered_by, attempts, last_attempt, invited, means, owner, vetted_by, vetted_on, "
       "vetted_result,"
       " age_at_due, lane, entry FROM recalls, copies WHERE open = 1 AND copy < " +
       std::to_string(times))
          .c_str());
  return std::move(*ledger::Ledger::open(path, ledger::Ledger::Access::read));
}

}  // namespace bench
