#include "report/layout.h"

#include <catch2/catch.hpp>
#include <sstream>
#include <string>

TEST_CASE("text is broken between words", "[cli]") {
  struct Row {
    const char* because;
    const char* text;
    std::size_t indent, width;
    const char* lines;
  };
  const auto row = GENERATE(values<Row>({
      {"what fits stays on one line", "due in May", 0, 20, "due in May\n"},
      {"a line ends before the word that does not fit", "due in May or June", 0, 10, "due in May\nor June\n"},
      {"later lines are indented", "due in May or June", 2, 10, "due in May\n  or June\n"},
      {"spaces that align stay", "R1    due", 0, 20, "R1    due\n"},
      {"spaces in front stay", "  due", 2, 20, "  due\n"},
      {"a word that is too long stands alone", "a extraordinarily b", 0, 8, "a\nextraordinarily\nb\n"},
      {"accents count as one character", "é é é", 0, 5, "é é é\n"},
      {"nothing is an empty line", "", 0, 10, "\n"},
  }));
  INFO(row.because);
  CHECK(cli::wrapped(row.text, row.indent, row.width) == row.lines);
}

TEST_CASE("text is cut by characters, not bytes", "[cli]") {
  CHECK(cli::cut_to("Zoë", 3) == "Zoë");
  CHECK(cli::cut_to("Zoë Yarrow", 5) == "Zoë …");
  CHECK(cli::cut_to("", 0).empty());
}

TEST_CASE("columns are never wider than the page", "[cli]") {
  cli::Columns columns({"id", "title", "words"});
  columns.add({"1", std::string(90, 't'), std::string(300, 'w')});
  columns.add({"2", "short", "short"});
  std::istringstream text(columns.text());
  for (std::string line; std::getline(text, line);) CHECK(cli::width_of(line) <= cli::page_width);
}
