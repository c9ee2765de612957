#include "ledger/choice.h"

#include <catch2/catch.hpp>

using engine::Action;
using engine::Advice;
using engine::AdviceState;

namespace {

engine::Date day(std::string_view text) {
  return engine::parse_date(text).value();
}

Advice settled(Action action, std::string_view due = {}) {
  Advice advice;
  advice.state = AdviceState::settled;
  advice.action = action;
  if (!due.empty()) advice.due = engine::Window{day(due), day(due)};
  return advice;
}

Advice open(AdviceState state, Action possible, std::string_view due = {}) {
  Advice advice;
  advice.state = state;
  engine::Possibility outcome;
  outcome.action = possible;
  if (!due.empty()) outcome.due = engine::Window{day(due), day(due)};
  advice.possible.push_back(outcome);
  return advice;
}

Advice outside(const std::string& ask) {
  Advice advice;
  advice.state = AdviceState::outside;
  advice.ask_instead = ask;
  return advice;
}

Advice refused() {
  Advice advice;
  advice.state = AdviceState::refused;
  advice.errors.push_back({"x", "the ruleset met an error", {}, ""});
  return advice;
}

constexpr auto colonoscopy = Action::surveillance_colonoscopy;
constexpr auto awaiting = AdviceState::awaiting_pathology;
constexpr auto depends = AdviceState::depends;

}  // namespace

TEST_CASE("of several answers one counts", "[choose]") {
  struct Row {
    const char* because;
    std::vector<Advice> answers;
    std::size_t chosen;
  };
  const auto row = GENERATE(values<Row>({
      {"the only one", {settled(Action::no_surveillance)}, 0},
      {"the earlier date", {settled(colonoscopy, "2029-03-10"), settled(colonoscopy, "2027-03-10")}, 1},
      {"the first of two equal ones",
       {settled(colonoscopy, "2029-03-10"), settled(colonoscopy, "2029-03-10")},
       0},
      {"a date before none", {settled(Action::return_to_screening), settled(colonoscopy, "2029-03-10")}, 1},
      {"as soon as can be before a date",
       {settled(colonoscopy, "2027-03-10"), settled(Action::repeat_examination)},
       1},
      {"a referral before a stop", {settled(Action::no_surveillance), settled(Action::refer)}, 1},
      {"screening before nothing at all",
       {settled(Action::no_surveillance), settled(Action::return_to_screening)},
       1},
      {"not one that is outside", {outside("uk-2020"), settled(Action::no_surveillance)}, 1},
      {"outside when all are", {outside("uk-2020"), outside("uk-2020")}, 0},
      {"an open answer that could be earlier",
       {settled(colonoscopy, "2029-03-10"), open(awaiting, Action::site_check, "2026-05-10")},
       1},
      {"not an open answer that can only be later",
       {settled(colonoscopy, "2027-03-10"), open(awaiting, colonoscopy, "2029-03-10")},
       0},
      {"not an open answer that can only be the same",
       {settled(colonoscopy, "2027-03-10"), open(depends, colonoscopy, "2027-03-10")},
       0},
      {"a refused answer could be anything", {settled(colonoscopy, "2027-03-10"), refused()}, 1},
      {"refused before depends before awaiting",
       {open(awaiting, colonoscopy, "2027-01-01"), open(depends, colonoscopy, "2028-01-01"), refused()},
       2},
      {"depends before awaiting",
       {open(awaiting, colonoscopy, "2027-01-01"), open(depends, colonoscopy, "2028-01-01")},
       1},
  }));
  INFO(row.because);
  CHECK(ledger::choose(row.answers).chosen == row.chosen);
}

TEST_CASE("the reason says what is to be done", "[choose]") {
  Advice doubtful = open(depends, colonoscopy, "2029-03-10");
  doubtful.questions.push_back({"exam.lesions[0].size_mm", "10 mm decides"});
  struct Row {
    Advice answer;
    const char* reason;
  };
  const auto row = GENERATE_COPY(values<Row>({
      {settled(colonoscopy, "2029-03-10"), "to be signed: surveillance colonoscopy, due 2029-03-10"},
      {settled(Action::no_surveillance), "to be signed: no surveillance"},
      {settled(Action::individualise), "to be decided: individualise"},
      {settled(Action::repeat_examination),
       "to be decided: repeat examination, and when: the guideline sets no date"},
      {open(awaiting, colonoscopy), "awaiting pathology"},
      {doubtful, "depends: exam.lesions[0].size_mm: 10 mm decides"},
      {open(depends, colonoscopy), "depends on a doubtful fact"},
      {outside("uk-2020"), "outside: ask uk-2020"},
      {outside(""), "outside every ruleset in force"},
      {refused(), "refused: the ruleset met an error"},
  }));
  CHECK(ledger::choose({row.answer}).reason == row.reason);
}

TEST_CASE("the earliest date that could come of it bounds the chase", "[choose]") {
  const auto choice =
      ledger::choose({open(awaiting, Action::site_check, "2026-05-10"), settled(colonoscopy, "2029-03-10"),
                      open(depends, colonoscopy, "2026-04-01")});
  CHECK(choice.earliest == day("2026-04-01"));
  CHECK(choice.earliest_site_check == day("2026-05-10"));
  CHECK_FALSE(ledger::choose({settled(Action::no_surveillance)}).earliest.has_value());
}
