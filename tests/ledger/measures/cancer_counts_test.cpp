// The 3-year method against an example that was worked by hand.

#include <catch2/catch.hpp>

#include "measures/counting.h"

using ledger::Course;
using ledger::CourseExamination;
using ledger::Measure;

namespace {

engine::Date day(std::string_view text) {
  return engine::parse_date(text).value();
}

enum class Shows { nothing, cancer };

CourseExamination colonoscopy(const std::string& exam, const char* date, Shows shows,
                              const char* due = nullptr) {
  CourseExamination one;
  one.line.exam = exam;
  one.date = day(date);
  one.exam.procedure = engine::Fact<engine::Procedure>::known(engine::Procedure::colonoscopy);
  if (shows == Shows::cancer) {
    engine::Lesion lesion;
    lesion.histology.emplace();
    lesion.histology->type = engine::Fact<engine::LesionType>::known(engine::LesionType::adenocarcinoma);
    one.exam.lesions.push_back(lesion);
  }
  if (due != nullptr) one.due = one.due_to = day(due);
  return one;
}

Course course(std::vector<CourseExamination> examinations) {
  Course made;
  made.person.person = "P1";
  made.examinations = std::move(examinations);
  return made;
}

std::string told(const Course& given, const ledger::MeasureContext& context) {
  Measure measure;
  ledger::count_post_colonoscopy_cancers(given, context, measure);
  std::string text;
  for (const ledger::MeasuredCase& one : measure.cases) {
    const char* const verdicts[] = {"missed", "detected", "excluded"};
    text += one.exam + " " + verdicts[static_cast<int>(one.verdict)] + ": " + one.note;
  }
  return text;
}

}  // namespace

TEST_CASE("a cancer belongs to the colonoscopy that found it or to the one that did not", "[measures]") {
  struct Row {
    const char* because;
    std::vector<CourseExamination> examinations;
    const char* told;
  };
  const auto nothing = Shows::nothing, cancer = Shows::cancer;
  const std::vector<Row> rows = {
      {"no cancer is no case", {colonoscopy("A", "2020-01-10", nothing)}, ""},
      {"found at the colonoscopy itself",
       {colonoscopy("A", "2020-01-10", cancer)},
       "A detected: diagnosed 2020-01-10, detected"},
      {"six months to the day after still counts as detected",
       {colonoscopy("A", "2020-01-10", nothing), colonoscopy("B", "2020-07-10", cancer)},
       "A detected: diagnosed 2020-07-10, detected"},
      {"a day later it was missed",
       {colonoscopy("A", "2020-01-10", nothing), colonoscopy("B", "2020-07-11", cancer)},
       "A missed: diagnosed 2020-07-11, non-interval type C: no examination was planned"},
      {"three years to the day after it was missed",
       {colonoscopy("A", "2020-01-10", nothing), colonoscopy("B", "2023-01-10", cancer)},
       "A missed: diagnosed 2023-01-10, non-interval type C: no examination was planned"},
      {"a day later it is the next colonoscopy's own",
       {colonoscopy("A", "2020-01-10", nothing), colonoscopy("B", "2023-01-11", cancer)},
       "B detected: diagnosed 2023-01-11, detected"},
      {"of two that missed it the last one counts",
       {colonoscopy("A", "2020-01-10", nothing), colonoscopy("B", "2021-01-10", nothing),
        colonoscopy("C", "2022-01-10", cancer)},
       "B missed: diagnosed 2022-01-10, non-interval type C: no examination was planned"},
      {"before the planned examination",
       {colonoscopy("A", "2020-01-10", nothing, "2023-01-10"), colonoscopy("B", "2022-01-10", cancer)},
       "A missed: diagnosed 2022-01-10, interval: before the planned examination"},
      {"at the planned examination",
       {colonoscopy("A", "2020-01-10", nothing, "2021-01-10"), colonoscopy("B", "2021-02-21", cancer)},
       "A missed: diagnosed 2021-02-21, non-interval type A: at the planned examination"},
      {"after the planned examination",
       {colonoscopy("A", "2020-01-10", nothing, "2021-01-10"), colonoscopy("B", "2021-02-22", cancer)},
       "A missed: diagnosed 2021-02-22, non-interval type B: after the planned examination"},
      {"too short ago to know",
       {colonoscopy("A", "2024-01-10", cancer)},
       "A excluded: less than 3 years ago"},
  };
  for (const Row& row : rows) {
    INFO(row.because);
    CHECK(told(course(row.examinations), {{}, day("2026-03-20")}) == row.told);
  }
}

// A year of 1,000 colonoscopies, worked by hand: 38 cancers found within 6 months, 2 found 6 to 36 months
// after, one found after 40 months at a further colonoscopy, which lies in a later year. 2 / (2 + 38) = 5.0
// %.
TEST_CASE("the 3-year rate of a worked example is that worked out by hand", "[measures]") {
  Measure measure;
  const ledger::MeasureContext context{{day("2020-01-01"), day("2020-12-31")}, day("2026-03-20")};
  const auto count = [&](const Course& one) {
    ledger::count_post_colonoscopy_cancers(one, context, measure);
  };
  for (int i = 0; i < 959; ++i) count(course({colonoscopy("clear", "2020-06-01", Shows::nothing)}));
  for (int i = 0; i < 38; ++i) count(course({colonoscopy("found", "2020-06-01", Shows::cancer)}));
  for (int i = 0; i < 2; ++i) {
    count(course({colonoscopy("missed", "2020-06-01", Shows::nothing),
                  colonoscopy("later", "2022-06-01", Shows::cancer)}));
  }
  count(course({colonoscopy("long ago", "2020-06-01", Shows::nothing),
                colonoscopy("much later", "2023-10-01", Shows::cancer)}));
  CHECK(measure.numerator() == 2);
  CHECK(measure.denominator() == 40);
}
