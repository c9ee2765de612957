#include "text/printable.h"

#include <catch2/catch.hpp>

namespace engine {
namespace {

TEST_CASE("text of unknown origin is made fit to be shown", "[text]") {
  struct Row {
    const char* because;
    std::string text;
    std::string shown;
  };
  const std::string no_character = "\xEF\xBF\xBD";
  const auto row = GENERATE_COPY(values<Row>({
      {"plain text stays", "caecum", "caecum"},
      {"letters beyond ASCII stay", "Müller, 山田, 😀", "Müller, 山田, 😀"},
      {"a tab becomes a space", "a\tb", "a b"},
      {"an escape becomes U+FFFD", "\x1b[31m", no_character + "[31m"},
      {"so does a control character of two bytes", "\xC2\x9B", no_character},
      {"a byte that begins no character", "a\xFFz", "a" + no_character + "z"},
      {"a character cut short", "a\xC3", "a" + no_character},
      {"an overlong form", "\xC0\xAF", no_character + no_character},
      {"half of a surrogate pair", "\xED\xA0\x80", no_character + no_character + no_character},
      {"beyond the last code point", "\xF4\x90\x80\x80",
       no_character + no_character + no_character + no_character},
  }));
  INFO(row.because);
  CHECK(printable(row.text) == row.shown);
  CHECK(count_code_points(row.text) == count_code_points(row.shown));
}

TEST_CASE("long text is cut between characters", "[text]") {
  CHECK(printable("äöüß", 4) == "äöüß");
  CHECK(printable("äöüßx", 4) == "äöü…");
}

}  // namespace
}  // namespace engine
