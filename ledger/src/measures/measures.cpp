#include "ledger/measures.h"

#include <algorithm>

#include "database/courses.h"
#include "measures/counting.h"

namespace ledger {

namespace {

using Verdict = MeasuredCase::Verdict;

struct Definition {
  const char *id, *title;
  Count count;
};

// In the order of docs/measures.md.
constexpr Definition definitions[] = {
    {"in-line", "outcome signed as the ruleset advises", count_in_line},
    {"on-time-0", "examined by the due date", count_on_time<0>},
    {"on-time-42", "examined within 42 days of the due date", count_on_time<42>},
    {"on-time-90", "examined within 90 days of the due date", count_on_time<90>},
    {"on-time-180", "examined within 180 days of the due date", count_on_time<180>},
    {"pathology-7", "pathology back within 7 days", count_pathology_within<7>},
    {"pathology-10", "pathology back within 10 days", count_pathology_within<10>},
    {"pathology-14", "pathology back within 14 days", count_pathology_within<14>},
    {"acted-on", "outcome signed within 5 working days of the report", count_acted_on},
    {"caecal-intubation", "caecum reached", count_caecal_intubation},
    {"adenoma-detection", "an adenoma found", count_adenoma_detection},
    {"preparation", "preparation adequate", count_preparation},
    {"polyp-retrieval", "polyps retrieved of those removed", count_retrieval},
    {"complications", "any complication", count_complications},
    {"perforation", "a perforation", count_perforations},
    {"polypectomy-complications", "any complication where a polyp was removed",
     count_polypectomy_complications},
    {"polypectomy-bleeding", "bleeding where a polyp was removed", count_polypectomy_bleedings},
    {"pccrc-3y", "post-colonoscopy cancers, 3-year method", count_post_colonoscopy_cancers},
};

std::uint64_t count(const Measure& measure, Verdict verdict) {
  return static_cast<std::uint64_t>(
      std::count_if(measure.cases.begin(), measure.cases.end(),
                    [&](const MeasuredCase& one) { return one.verdict == verdict; }));
}

}  // namespace

std::uint64_t Measure::numerator() const {
  return count(*this, Verdict::met);
}

std::uint64_t Measure::denominator() const {
  return numerator() + count(*this, Verdict::not_met);
}

std::map<std::string, std::uint64_t> Measure::excluded() const {
  std::map<std::string, std::uint64_t> reasons;
  for (const MeasuredCase& one : cases) {
    if (one.verdict == Verdict::excluded) ++reasons[one.note];
  }
  return reasons;
}

engine::Result<std::vector<Measure>> measures(const Ledger& ledger, const Period& period,
                                              const engine::Date& today) {
  std::vector<Measure> all;
  for (const Definition& definition : definitions) all.push_back({definition.id, definition.title, {}});
  const MeasureContext context{period, today};
  const auto done = each_course(ledger, [&](const Course& course) {
    for (std::size_t i = 0; i < all.size(); ++i) definitions[i].count(course, context, all[i]);
  });
  if (!done) return done.errors();
  return all;
}

}  // namespace ledger
