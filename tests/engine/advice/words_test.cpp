#include "advice/words.h"

#include <catch2/catch.hpp>

#include "advice/paragraphs.h"
#include "text/printable.h"

using namespace engine;

TEST_CASE("steps are said as a clinician says them", "[advice]") {
  struct Row {
    Action action;
    std::optional<Interval> interval;
    const char* words;
  };
  const auto row = GENERATE(values<Row>({
      {Action::surveillance_colonoscopy, Interval{{36}, {36}}, "surveillance colonoscopy in 3 years"},
      {Action::surveillance_colonoscopy, Interval{{12}, {12}}, "surveillance colonoscopy in 1 year"},
      {Action::surveillance_colonoscopy, Interval{{60}, {120}}, "surveillance colonoscopy in 5 to 10 years"},
      {Action::site_check, Interval{{2}, {6}}, "site check in 2 to 6 months"},
      {Action::site_check, Interval{{1}, {1}}, "site check in 1 month"},
      {Action::site_check, Interval{{6}, {12}}, "site check in 6 to 12 months"},
      {Action::surveillance_colonoscopy, Interval{{18}, {18}}, "surveillance colonoscopy in 18 months"},
      {Action::repeat_examination, Interval{{0}, {0}}, "repeat examination now"},
      {Action::no_surveillance, std::nullopt, "no surveillance"},
  }));
  CHECK(in_words(row.action, row.interval) == row.words);
}

TEST_CASE("paths that differ in one number alone are told together", "[advice]") {
  using Paths = std::vector<std::string>;
  struct Row {
    Paths paths;
    const char* words;
  };
  const auto row = GENERATE(values<Row>({
      Row{Paths{"exam.date"}, "exam.date"},
      Row{Paths{"lesions[0].site"}, "lesions[0].site"},
      Row{Paths{"lesions[0].site", "lesions[1].site"}, "lesions[0], [1].site"},
      Row{Paths{"lesions[0].site", "lesions[1].site", "lesions[2].site"}, "lesions[0] to [2].site"},
      Row{Paths{"lesions[0].site", "lesions[1].site", "lesions[2].site", "lesions[5].site"},
          "lesions[0] to [2], [5].site"},
      Row{Paths{"lesions[3].site", "lesions[0].site"}, "lesions[3], [0].site"},
      Row{Paths{"lesions[0].site", "lesions[1].size_mm", "exam.date", "lesions[2].size_mm"},
          "lesions[0].site, lesions[1].size_mm, exam.date, lesions[2].size_mm"},
      Row{Paths{"previous[0].lesions[1].site", "previous[1].lesions[2].site"},
          "previous[0].lesions[1].site, previous[1].lesions[2].site"},
      Row{Paths{}, ""},
  }));
  CHECK(paths_in_words(row.paths) == row.words);
}

TEST_CASE("dates and windows are written in the British way", "[advice]") {
  CHECK(in_words(Date{2029, 3, 10}) == "10 March 2029");
  CHECK(in_words(Window{{2026, 5, 1}, {2026, 5, 1}}) == "1 May 2026");
  CHECK(in_words(Window{{2026, 5, 10}, {2026, 9, 10}}) == "10 May 2026 to 10 September 2026");
}

TEST_CASE("states and actions have the words of the contract, and actions are read back", "[advice]") {
  CHECK(text_of(AdviceState::awaiting_pathology) == "awaiting pathology");
  CHECK(text_of(AdviceState::refused) == "refused");
  CHECK_FALSE(action_of("watch and wait"));
  for (std::uint8_t i = 0; i <= static_cast<std::uint8_t>(Action::await_pathology); ++i) {
    const auto action = static_cast<Action>(i);
    CHECK(action_of(text_of(action)) == action);
  }
}

TEST_CASE("paragraphs keep to 100 columns, counted in characters", "[advice]") {
  Paragraphs page;
  std::string long_text;
  for (int i = 0; i < 60; ++i) long_text += "größer \xE2\x89\xA5 ";  // two-byte and three-byte characters
  page.headline(long_text);
  page.add("why", long_text);
  page.add("why", "again");
  page.add_below(long_text, 2);
  const std::string text = std::move(page).text();
  CHECK(text.find("\n             again\n") != std::string::npos);
  std::size_t lines = 0, widest = 0;
  for (std::size_t from = 0; from < text.size(); from = text.find('\n', from) + 1) {
    widest = std::max(widest,
                      count_code_points(std::string_view(text).substr(from, text.find('\n', from) - from)));
    ++lines;
  }
  CHECK(lines > 10);
  CHECK(widest <= 100);
  CHECK(widest > 90);
}

TEST_CASE("control characters in a record's words do not reach the terminal", "[advice]") {
  Paragraphs page;
  page.headline("a\x1b[31mb");
  CHECK(std::move(page).text() == "a\xEF\xBF\xBD[31mb\n");
}
