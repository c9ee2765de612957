#include "report/work_list_rows.h"

#include <algorithm>

#include "failure.h"

namespace cli {

void Rows::each(const std::function<void(const WorkListRow&)>& visit) const {
  if (!make_) return;
  std::uint64_t made = 0;
  make_([&](const WorkListRow& row) {
    ++made;
    visit(row);
    return true;
  });
  if (made == size_) return;
  fail(ExitCode::ledger_fault, {"list_incomplete",
                                "the list has " + std::to_string(made) + " rows where " +
                                    std::to_string(size_) + " were counted: do not work from it",
                                {},
                                "run `dueward audit verify`"});
}

Rows Rows::where(std::function<bool(const WorkListRow&)> wanted) const {
  std::uint64_t count = 0;
  each([&](const WorkListRow& row) { count += wanted(row) ? 1 : 0; });
  return {count, [all = *this, wanted = std::move(wanted)](const Visit& visit) {
            all.make_([&](const WorkListRow& row) { return !wanted(row) || visit(row); });
          }};
}

Rows Rows::first(std::uint64_t limit) const {
  if (size_ <= limit) return *this;
  return {limit, [all = *this, limit](const Visit& visit) {
            std::uint64_t made = 0;
            all.make_([&](const WorkListRow& row) { return visit(row) && ++made < limit; });
          }};
}

}  // namespace cli
