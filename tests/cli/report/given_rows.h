// Rows of a list that a test has at hand.

#pragma once

#include <utility>
#include <vector>

#include "report/work_list_rows.h"

namespace support {

inline cli::Rows given_rows(std::vector<cli::WorkListRow> rows) {
  return cli::rows_of(std::move(rows), [](const cli::WorkListRow& row) { return row; });
}

}  // namespace support
