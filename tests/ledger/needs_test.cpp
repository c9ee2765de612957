#include <catch2/catch.hpp>

#include "ledger/particulars.h"

using engine::Examination;
using engine::Fact;
using ledger::NeedLine;

namespace {

Examination last_time() {
  Examination exam;
  exam.id = "E1";
  exam.date = {2023, 3, 10};
  exam.procedure = Fact<engine::Procedure>::known(engine::Procedure::colonoscopy);
  exam.reached = Fact<engine::Segment>::known(engine::Segment::caecum);
  exam.graded = Fact<engine::Grade>::known(engine::Grade::good);
  return exam;
}

/// `flag [source]; `
std::string told(const std::vector<NeedLine>& needs) {
  std::string text;
  for (const NeedLine& need : needs)
    text += need.flag + (need.source.empty() ? "" : " [" + need.source + "]") + "; ";
  return text;
}

}  // namespace

TEST_CASE("needs stand in one order and spelling, and one that is not known is shown as it is", "[lists]") {
  CHECK(told(ledger::in_order({{"Vegan", "", ""},
                               {"format: large print", "", ""},
                               {"Allergy: latex", "", "ward"},
                               {"diabetes, insulin", "", ""},
                               {"MOBILITY", "", ""},
                               {"pacemaker", "", ""},
                               {"anticoagulant", "2024-02-01", "pre-assessment"},
                               {"allergy: nickel", "", ""},
                               {"antiplatelet", "", ""},
                               {"Anticoagulants?", "", ""}},
                              std::nullopt)) ==
        "anticoagulant [pre-assessment]; antiplatelet; diabetes, insulin; pacemaker; allergy: latex [ward]; "
        "allergy: nickel; mobility; format: large print; Vegan; Anticoagulants?; ");
}

TEST_CASE("what went wrong last time follows from the last examination, and names it", "[lists]") {
  struct Row {
    const char* because;
    void (*change)(Examination&);
    const char* told;
  };
  const auto row = GENERATE(values<Row>({
      {"nothing did", [](Examination&) {}, ""},
      {"the preparation was poor",
       [](Examination& exam) { exam.graded = Fact<engine::Grade>::known(engine::Grade::poor); },
       "poor preparation last time [examination E1 on 2023-03-10]; "},
      {"a segment was not clean",
       [](Examination& exam) {
         exam.boston = engine::Boston{Fact<std::int32_t>::known(1), Fact<std::int32_t>::known(3), {}};
       },
       "poor preparation last time [examination E1 on 2023-03-10]; "},
      {"it was not stated how clean", [](Examination& exam) { exam.graded = {}; }, ""},
      {"it was not completed",
       [](Examination& exam) {
         exam.reached = Fact<engine::Segment>::known(engine::Segment::sigmoid_colon);
         exam.id.clear();
       },
       "incomplete last time: reached sigmoid colon [examination on 2023-03-10]; "},
      {"it was not meant to go further",
       [](Examination& exam) {
         exam.reached = Fact<engine::Segment>::known(engine::Segment::sigmoid_colon);
         exam.procedure = Fact<engine::Procedure>::known(engine::Procedure::flexible_sigmoidoscopy);
       },
       ""},
      {"there were no complications", [](Examination& exam) { exam.complications.emplace(); }, ""},
      {"there were two",
       [](Examination& exam) {
         exam.complications = {{engine::ComplicationKind::bleeding, {}, {}},
                               {engine::ComplicationKind::sedation_related, {}, {}}};
       },
       "complication last time: bleeding, sedation-related [examination E1 on 2023-03-10]; "},
  }));
  INFO(row.because);
  Examination exam = last_time();
  row.change(exam);
  CHECK(told(ledger::in_order({}, exam)) == row.told);
}

TEST_CASE("what went wrong last time stands among the needs", "[lists]") {
  Examination exam = last_time();
  exam.graded = Fact<engine::Grade>::known(engine::Grade::inadequate);
  CHECK(told(ledger::in_order(
            {{"pacemaker", "", ""}, {"difficult last time", "", "letter"}, {"diabetes", "", ""}}, exam)) ==
        "diabetes; poor preparation last time [examination E1 on 2023-03-10]; difficult last time [letter]; "
        "pacemaker; ");
}
