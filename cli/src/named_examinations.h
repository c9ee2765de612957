// Which examinations a person has looked at and named: the JSON of a list, with the rows that were left out
// taken away, or one object a line.

#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "engine/result.h"

namespace cli {

struct NamedExamination {
  engine::Place place;       ///< File, and the row or line that names it.
  std::string exam;          ///< Empty when `errors` says why.
  std::uint64_t advice = 0;  ///< Number of its `advice given` entry; 0 when the row has none.
  engine::Errors errors;     ///< `malformed_row`
};

/// `{"rows": [{"exam": .., "advice": ..}, ..]}` as every list prints it, or such rows one a line; other keys
/// are passed over. A row that cannot be read stops none of the others. `source` names the text in errors.
/// Fails with `nothing_named` when there is no row at all.
engine::Result<std::vector<NamedExamination>> read_named_examinations(std::string_view text,
                                                                      const std::string& source);

/// The same from a file, `-` for standard input; the command ends as unreadable input when it cannot be read.
std::vector<NamedExamination> examinations_named_in(const std::string& file);

}  // namespace cli
