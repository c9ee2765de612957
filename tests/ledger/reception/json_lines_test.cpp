#include "reception/json_lines.h"

#include <catch2/catch.hpp>
#include <string>

TEST_CASE("an input is cut into its documents", "[json lines]") {
  struct Row {
    const char* because;
    const char* input;
    const char* parts;  // line:text|...
  };
  const auto row = GENERATE(values<Row>({
      {"nothing", "", ""},
      {"blank lines only", "\n \n\r\n", ""},
      {"one line", R"({"a":1})", R"(1:{"a":1})"},
      {"one line with its end", "{\"a\":1}\n", R"(1:{"a":1})"},
      {"two lines", "{\"a\":1}\n{\"b\":2}\n", R"(1:{"a":1}|2:{"b":2})"},
      {"line ends of another system", "{\"a\":1}\r\n{\"b\":2}\r\n", R"(1:{"a":1}|2:{"b":2})"},
      {"blank lines are counted, not given", "\n{\"a\":1}\n\n{\"b\":2}", R"(2:{"a":1}|4:{"b":2})"},
      {"a broken line among good ones", "{\"a\":\n{\"b\":2}\nx\n", R"(1:{"a":|2:{"b":2}|3:x)"},
      {"one document over several lines", "{\n \"a\": 1\n}\n", "1:{\n \"a\": 1\n}"},
      {"a broken document over several lines is one", "{\n \"a\": 1,\n}\n", "1:{\n \"a\": 1,\n}"},
      {"a byte order mark", "\xEF\xBB\xBF{\"a\":1}", R"(1:{"a":1})"},
  }));
  INFO(row.because);
  std::string parts;
  for (const ledger::Part& part : ledger::parts_of(row.input)) {
    parts += (parts.empty() ? "" : "|") + std::to_string(part.line) + ":" + std::string(part.text);
  }
  CHECK(parts == row.parts);
}
