#include "report/errors.h"

#include <catch2/catch.hpp>

TEST_CASE("a diagnostic is placed in its expression, by characters and lines", "[cli]") {
  struct Row {
    const char* because;
    const char* text;
    std::uint32_t offset;
    std::uint32_t line, column;
    const char* excerpt;
  };
  const auto row = GENERATE(values<Row>({
      {"at the beginning", "a + b", 0, 1, 1, "a + b"},
      {"further on", "a + b", 4, 1, 5, "a + b"},
      {"behind an accent, which is one character", "\"é\" + b", 6, 1, 7, "\"é\" + b"},
      {"on the second line", "a +\n  b", 6, 2, 3, "  b"},
      {"at the very end", "a +", 3, 1, 4, "a +"},
  }));
  INFO(row.because);
  engine::Diagnostic diagnostic;
  diagnostic.code = "unknown_name";
  diagnostic.message = "no `b`";
  diagnostic.text = row.text;
  diagnostic.offset = row.offset;
  diagnostic.length = 1;
  const engine::Error error = cli::error_of(diagnostic, "expression");
  CHECK(error.place.line == row.line);
  CHECK(error.place.column == row.column);
  CHECK(error.place.excerpt == row.excerpt);
}

TEST_CASE("errors are one line of JSON, without empty keys", "[cli]") {
  engine::Error error{"no_date", "`x` is no date", {}, "write YYYY-MM-DD"};
  CHECK(
      cli::json_of({error}) ==
      "{\"errors\":[{\"code\":\"no_date\",\"help\":\"write YYYY-MM-DD\",\"message\":\"`x` is no date\"}]}\n");
}

TEST_CASE("a warning is called one, whatever it speaks of", "[cli]") {
  const engine::Error error{"odd", "`error: ` is an odd name", {}, ""};
  CHECK(cli::text_of(error, engine::Severity::error) == "error: `error: ` is an odd name\n");
  CHECK(cli::text_of(error, engine::Severity::warning) == "warning: `error: ` is an odd name\n");
  CHECK(cli::text_of(error, engine::Severity::info) == "note: `error: ` is an odd name\n");
}
