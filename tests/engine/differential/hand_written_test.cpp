// The engine with rulesets/uk-2020 against the same rules written straight in C++, on every worked case.
// Outside check. Source: hand_written_uk_2020.cpp, by another hand than the ruleset.

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <random>
#include <set>

#include "engine/differential/hand_written_uk_2020.h"
#include "support/places.h"
#include "support/shipped_rulesets.h"

using namespace engine;
using testing::Plan;

namespace {

std::string text_of(const std::optional<Plan>& plan) {
  if (!plan) return "no plan";
  std::string text(engine::text_of(plan->action));
  if (plan->interval) text += " " + text_of(plan->interval->from) + " " + text_of(plan->interval->to);
  return text + " by " + std::string(plan->rule);
}

std::optional<Plan> plan_of(const Advice& advice) {
  if (!advice.action || advice.reasons.empty()) return std::nullopt;
  return Plan{*advice.action, advice.interval, advice.reasons.front().rule};
}

namespace fs = std::filesystem;
const fs::path own_cases = support::rulesets_folder / "uk-2020" / "guideline.cases.jsonl";
const fs::path shared_cases =
    fs::path(support::source()) / ".." / "shared" / "guidelines" / "cases" / "uk-2020.cases.jsonl";

std::shared_ptr<const Ruleset> uk_2020() {
  auto ruleset = support::load_shipped("uk-2020");
  REQUIRE(ruleset);
  return *ruleset;
}

/// Records whose facts are all known, the same for the same seed. Not every one could be.
class RecordGenerator {
 public:
  explicit RecordGenerator(std::uint64_t seed) : random_(seed) {}

  Record record() {
    Record record;
    Date day{2018 + below(4), static_cast<std::uint8_t>(1 + below(12)),
             static_cast<std::uint8_t>(1 + below(28))};
    record.previous.emplace();
    for (int i = below(4); i > 0; --i) {
      record.previous->push_back(exam(day));
      day = *date_from_days(days_since_epoch(day) + one_of({20, 61, 89, 90, 91, 93, 182, 200, 365, 366, 380,
                                                            400, 548, 549, 560, 730, 731, 800, 1200}));
    }
    record.exam = exam(day);
    record.patient.birth_date = Date{one_of({1944, 1950, 1961, 1975, 1985, 2004}), 5, 4};
    record.patient.conditions.emplace();
    if (one_in(4)) add_resection(record, day);
    if (one_in(12)) record.patient.life_expectancy_under_10_years = true;
    if (one_in(4)) record.setting.nation = one_of<std::string>({"Scotland", "Northern Ireland", "France"});
    return record;
  }

 private:
  void add_resection(Record& record, const Date& day) {
    Condition resected;
    resected.name = ConditionName::colorectal_cancer_resected;
    if (!one_in(6))
      resected.resection_date = date_from_days(days_since_epoch(day) - one_of({30, 100, 370, 500, 1200}));
    record.patient.conditions->push_back(resected);
  }

  Examination exam(const Date& day) {
    Examination exam;
    exam.date = day;
    exam.indication =
        Fact<Indication>::known(one_of({Indication::screening, Indication::surveillance, Indication::symptoms,
                                        Indication::site_check, Indication::cancer_follow_up}));
    exam.procedure =
        Fact<Procedure>::known(one_of({Procedure::colonoscopy, Procedure::colonoscopy, Procedure::colonoscopy,
                                       Procedure::flexible_sigmoidoscopy, Procedure::ct_colonography}));
    exam.reached =
        Fact<Segment>::known(one_of({Segment::caecum, Segment::caecum, Segment::caecum,
                                     Segment::terminal_ileum, Segment::sigmoid_colon, Segment::anastomosis}));
    exam.graded = Fact<Grade>::known(
        one_of({Grade::good, Grade::adequate, Grade::fair, Grade::excellent, Grade::poor}));
    if (one_in(10)) exam.cleared = Fact<bool>::known(one_in(2));
    for (int i = below(6); i > 0; --i) exam.lesions.push_back(lesion());
    return exam;
  }

  Lesion lesion() {
    Lesion lesion;
    lesion.site = Fact<Segment>::known(one_of({Segment::rectum, Segment::rectosigmoid, Segment::sigmoid_colon,
                                               Segment::transverse_colon, Segment::caecum}));
    lesion.size = Fact<Millimetres>::known(one_of({3_mm, 5_mm, 6_mm, 9_mm, 10_mm, 15_mm, 20_mm, 30_mm}));
    lesion.paris = Fact<Paris>::known(one_of({Paris::ip, Paris::isp, Paris::is, Paris::iia}));
    lesion.removal =
        Fact<Removal>::known(one_of({Removal::en_bloc, Removal::en_bloc, Removal::en_bloc, Removal::piecemeal,
                                     Removal::biopsy_only, Removal::not_removed}));
    lesion.retrieved = Fact<bool>::known(true);
    lesion.number = Fact<std::int32_t>::known(one_in(8) ? 3 : 1);
    lesion.histology = histology();
    return lesion;
  }

  Histology histology() {
    const LesionType type =
        one_in(40)
            ? LesionType::adenocarcinoma
            : one_of({LesionType::tubular_adenoma, LesionType::tubular_adenoma, LesionType::villous_adenoma,
                      LesionType::sessile_serrated_lesion, LesionType::traditional_serrated_adenoma,
                      LesionType::hyperplastic_polyp, LesionType::normal_mucosa});
    const Dysplasia dysplasia =
        one_of({Dysplasia::none, Dysplasia::low_grade, Dysplasia::low_grade, Dysplasia::high_grade});
    const Margin margin = one_of({Margin::clear, Margin::clear, Margin::involved, Margin::not_assessable});
    return {
        Fact<LesionType>::known(type), Fact<Dysplasia>::known(dysplasia), Fact<Margin>::known(margin), {}};
  }

  int below(int limit) { return std::uniform_int_distribution<int>(0, limit - 1)(random_); }
  bool one_in(int n) { return below(n) == 0; }
  template <class T>
  T one_of(std::initializer_list<T> all) {
    return *(all.begin() + below(static_cast<int>(all.size())));
  }

  std::mt19937_64 random_;
};

}  // namespace

TEST_CASE(
    "the engine gives every worked case of uk-2020 the action, interval and row of rules written by hand",
    "[differential]") {
  Adviser adviser(uk_2020());
  int cases = 0;
  for (const fs::path& file : {own_cases, shared_cases}) {
    std::ifstream lines(file);
    if (!lines) WARN("skipped: there is no " << file.filename().string() << " beside the project");
    for (std::string line; std::getline(lines, line);) {
      if (line.empty()) continue;
      ++cases;
      const Result<Record> record = read_record(line, "case");
      REQUIRE(record);
      INFO(caller_id(line));
      CHECK(text_of(testing::hand_written_uk_2020(*record)) ==
            text_of(plan_of(adviser.advise(*record, {2026, 3, 10}))));
    }
  }
  CHECK(cases > 100);
}

TEST_CASE(
    "the engine gives a record that was made at random the action, interval and row of rules written by hand",
    "[differential]") {
  constexpr int records = 10'000;
  Adviser adviser(uk_2020());
  RecordGenerator generator(20260313);
  std::set<std::string> rows;
  int failures = 0;
  for (int i = 0; i < records && failures < 20; ++i) {
    const Record record = generator.record();
    const Advice advice = adviser.advise(record, {2026, 3, 10});
    const std::string ours = text_of(plan_of(advice)),
                      by_hand = text_of(testing::hand_written_uk_2020(record));
    if (!advice.reasons.empty()) rows.insert(advice.reasons.front().rule);
    if (ours == by_hand) continue;
    ++failures;
    FAIL_CHECK("record " << i << ": engine: " << ours
                         << (advice.errors.empty() ? "" : ", " + advice.errors.front().message)
                         << "; by hand: " << by_hand);
  }
  CHECK(rows.size() >= 25);  // a generator that reaches few rows would show little
}
