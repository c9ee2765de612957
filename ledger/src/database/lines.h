// What the lists print about a person and an examination: the columns, and how they are read.

#pragma once

#include "database/connection.h"
#include "ledger/lists.h"
#include "ledger/patients.h"

namespace ledger {

#define LEDGER_PERSON_COLUMNS "p.person, p.name, p.birth_date, p.sex, p.identifiers, p.needs, p.status"
#define LEDGER_EXAMINATION_COLUMNS "x.exam, x.date, x.place, x.endoscopist, x.findings"

inline constexpr int person_columns = 7;
inline constexpr int examination_columns = 5;

inline PersonLine person_of(const Row& row, int first) {
  return {row.text(first),     row.text(first + 1), row.text(first + 2), row.text(first + 3),
          row.text(first + 4), row.text(first + 5), row.text(first + 6)};
}

inline ExaminationLine examination_of(const Row& row, int first) {
  return {row.text(first), row.text(first + 1), row.text(first + 2), row.text(first + 3),
          row.text(first + 4)};
}

/// A date from a derived table. Those hold nothing but real dates; a falsified one counts as 1970-01-01.
inline engine::Date date_of(const std::string& text) {
  return engine::parse_date(text).value_or(engine::Date{});
}

}  // namespace ledger
