#include "builtins/case_mapping.h"

#include <catch2/catch.hpp>

using engine::lower_case;
using engine::upper_case;

TEST_CASE("letters are mapped as Unicode maps them", "[builtins]") {
  // Source: Unicode 14.0, UnicodeData.txt and SpecialCasing.txt.
  struct Row {
    const char* because;
    const char* small;
    const char* capital;
  };
  const auto row = GENERATE(values<Row>({
      {"Latin", "az", "AZ"},
      {"the ends of a run", "àöøþ", "ÀÖØÞ"},
      {"the capital lies in another block", "ÿ", "Ÿ"},
      {"every second code point", "āăšž", "ĀĂŠŽ"},
      {"Greek", "αω", "ΑΩ"},
      {"Cyrillic", "ёяџ", "ЁЯЏ"},
      {"Georgian", "ა", "Ა"},
      {"beyond 16 bits", "\U00010428", "\U00010400"},
      {"no letters", "1 ÷ × –", "1 ÷ × –"},
  }));
  INFO(row.because);
  CHECK(upper_case(row.small) == row.capital);
  CHECK(lower_case(row.capital) == row.small);
}

TEST_CASE("some letters become several, and not every way leads back", "[builtins]") {
  CHECK(upper_case("straße") == "STRASSE");
  CHECK(upper_case("ﬃ") == "FFI");
  CHECK(lower_case("İ") == "i̇");
  CHECK(upper_case("ı") == "I");
  CHECK(upper_case("ς") == "Σ");
  CHECK(lower_case("\u212A") == "k");  // the Kelvin sign
}
