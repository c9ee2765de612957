#include "similar_names.h"

#include <catch2/catch.hpp>

TEST_CASE("names that may be those of one person are alike", "[people]") {
  struct Row {
    const char* because;
    const char *name, *other, *likeness;
  };
  const auto row = GENERATE(values<Row>({
      {"letter for letter", "Okafor, Ada", "Okafor, Ada", "same name"},
      {"case, hyphen and title do not count", "Smith-Jones, Mrs Ada", "SMITH JONES, ADA", "same name"},
      {"family name and given name exchanged", "Ada, Okafor", "Okafor, Ada", "names exchanged"},
      {"a letter replaced", "Okafor, Ada", "Okafur, Ada", "one letter differs"},
      {"a letter left out", "Okafor, Adah", "Okafor, Ada", "one letter differs"},
      {"a letter put in front", "Okafor, Ada", "Okafor, Bada", "one letter differs"},
      {"two letters are two", "Okafor, Ada", "Okufur, Ada", ""},
      {"a letter in each name is two", "Okafor, Ada", "Okafur, Adi", ""},
      {"another given name", "Okafor, Ada", "Okafor, Ngozi", ""},
      {"the given name is missing", "Okafor", "Okafor, Ada", "same family name, one given name missing"},
      {"no name at all is like any", "", "Okafor, Ada", "no name to compare"},
      {"short names must be the same", "Li, Bo", "Li, Bi", ""},
  }));
  INFO(row.because);
  CHECK(ledger::likeness_of(row.name, row.other) == row.likeness);
  CHECK(ledger::likeness_of(row.other, row.name) == row.likeness);
}
