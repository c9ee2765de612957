// When something turns out to have been wrong - an endoscopist, a laboratory, an instrument at a place, a
// ruleset - the examinations that it concerns, and what stands for each patient now.

#pragma once

#include <string>
#include <vector>

#include "engine/result.h"
#include "ledger/ledger.h"
#include "ledger/lists.h"
#include "ledger/measures.h"

namespace ledger {

/// Empty text: any. Names are compared as they stand on the record, letter case aside.
struct LookbackFilter {
  Period period;  ///< Day of the examination.
  std::string endoscopist, place, reporter, ruleset;
  std::string preparation;  ///< `adequate`, `inadequate` or `not stated`.
};

struct LookbackLine {
  PersonLine person;
  ExaminationLine examination;
  std::string preparation;
  std::string reporter, reported;    ///< Of the last report; empty when histology came with the record.
  std::string outcome, action, due;  ///< `signed`, `overridden` or empty; what was signed.
  std::string ruleset, rule;
  std::string stands;  ///< `recall R12 is booked, due 2029-03-10`; `stopped`; `examined again on 2028-01-02`.
};

/// By person, then by day.
engine::Result<std::vector<LookbackLine>> lookback(const Ledger& ledger, const LookbackFilter& filter);

}  // namespace ledger
