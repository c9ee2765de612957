// A newcomer's walk through the invented unit: a few words, the command line to type, and what it really
// prints.

#pragma once

#include <string>

#include "engine/calendar.h"

namespace cli {

struct Tour {
  std::string program;  ///< How the program was called: what the newcomer types.
  std::string ledger;
  std::string record;  ///< File with one examination record, for `advise`.
  std::string ruleset;
  std::string exam_to_sign;  ///< Empty when there is none.
  engine::Date today;
};

void walk(const Tour& tour);

}  // namespace cli
