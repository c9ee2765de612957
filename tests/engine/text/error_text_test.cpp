#include <catch2/catch.hpp>

#include "engine/result.h"

namespace engine {
namespace {

TEST_CASE("an error shows its place, its words and its help", "[text]") {
  struct Row {
    const char* because;
    Error error;
    const char* text;
  };
  const auto row = GENERATE(values<Row>({
      {"a point in a text is drawn",
       {"unknown_name",
        "a lesion has no `size`",
        {"surveillance.dmn", "", 41, 26, 4, "    <text>largest lesion.size >= 10</text>"},
        "did you mean `size_mm`?"},
       "surveillance.dmn:41:26: error: a lesion has no `size`\n"
       "   41 |     <text>largest lesion.size >= 10</text>\n"
       "      |                          ^^^^\n"
       "  help: did you mean `size_mm`?\n"},
      {"a path into a document is named",
       {"unknown_key", "a lesion has no `size`", {"a.json", "exam.lesions[1].size", 0, 0, 0, ""}, ""},
       "a.json: exam.lesions[1].size: error: a lesion has no `size`\n"},
      {"without a place there is only the message",
       {"x", "the file is empty", {}, ""},
       "error: the file is empty\n"},
      {"a line of unknown column has no caret",
       {"x", "no", {"a.json", "", 7, 0, 0, "seven"}, ""},
       "a.json:7: error: no\n    7 | seven\n"},
      {"a length of 0 draws one caret",
       {"x", "no", {"", "", 1, 2, 0, "abc"}, ""},
       "1:2: error: no\n    1 | abc\n      |  ^\n"},
      {"a caret may stand behind the last letter",
       {"x", "no", {"", "", 1, 4, 1, "abc"}, ""},
       "1:4: error: no\n    1 | abc\n      |    ^\n"},
      {"columns count letters, not bytes",
       {"x", "no", {"", "", 1, 4, 1, "äöü!"}, ""},
       "1:4: error: no\n    1 | äöü!\n      |    ^\n"},
      {"a tab takes one column, so that the caret stands right",
       {"x", "no", {"", "", 1, 2, 1, "\tx"}, ""},
       "1:2: error: no\n    1 |  x\n      |  ^\n"},
      {"what could steer a terminal is not passed on",
       {"x", "no", {"", "", 1, 1, 1, "\x1b[2J"}, ""},
       "1:1: error: no\n    1 | \xEF\xBF\xBD[2J\n      | ^\n"},
  }));
  INFO(row.because);
  CHECK(text_of(row.error) == row.text);
}

TEST_CASE("of a long line only what stands around the fault is shown", "[text]") {
  std::string line(1000, '.');
  line[499] = 'X';
  const Error error{"x", "no", {"", "", 1, 500, 1, line}, ""};
  const std::string dots_before(60, '.'), dots_after(39, '.');
  CHECK(text_of(error) == "1:500: error: no\n    1 | …" + dots_before + "X" + dots_after + "…\n      | " +
                              std::string(61, ' ') + "^\n");
}

TEST_CASE("carets end where the shown text ends", "[text]") {
  const Error error{"x", "no", {"", "", 1, 2, 5000, "abc"}, ""};
  CHECK(text_of(error) == "1:2: error: no\n    1 | abc\n      |  ^^\n");
}

}  // namespace
}  // namespace engine
