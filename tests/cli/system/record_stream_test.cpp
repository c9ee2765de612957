#include "system/record_stream.h"

#include <catch2/catch.hpp>
#include <string>
#include <vector>

#include "support/temporary_unit.h"

using cli::RecordStream;

namespace {

// All records of a text, as `line:text`, their own line feeds shown as `|`.
std::vector<std::string> records_of(const std::string& text) {
  const support::TemporaryFolder folder;
  support::write_file(folder.file("records"), text);
  auto stream = RecordStream::open(folder.file("records"));
  REQUIRE(stream);
  std::vector<std::string> records;
  for (;;) {
    const auto record = stream->next();
    REQUIRE(record);
    if (!*record) return records;
    std::string shown((*record)->text);
    for (char& c : shown) c = c == '\n' ? '|' : c;
    records.push_back(std::to_string((*record)->line) + ":" + shown);
  }
}

}  // namespace

TEST_CASE("a stream is cut into records", "[cli]") {
  struct Row {
    const char* because;
    const char* text;
    std::vector<std::string> records;
  };
  const auto row = GENERATE(values<Row>({
      {"nothing is no record", "", {}},
      {"blank lines are no records", "\n  \n\t\r\n", {}},
      {"one record a line", "{\"a\":1}\n{\"b\":2}\n", {"1:{\"a\":1}", "2:{\"b\":2}"}},
      {"the last line may lack its end", "{\"a\":1}\n{\"b\":2}", {"1:{\"a\":1}", "2:{\"b\":2}"}},
      {"blank lines count as lines", "\n\n{\"a\":1}\n", {"3:{\"a\":1}"}},
      {"a record over several lines", "{\n  \"a\": 1\n}\n", {"1:{|  \"a\": 1|}"}},
      {"two records over several lines",
       "{\n \"a\": [\n 1]\n}\n{\n \"b\": 2\n}\n",
       {"1:{| \"a\": [| 1]|}", "5:{| \"b\": 2|}"}},
      {"a brace in a string opens nothing", "{\"a\":\"{\"}\n{\"b\":2}\n", {"1:{\"a\":\"{\"}", "2:{\"b\":2}"}},
      {"an escaped quote ends no string",
       R"({"a":"\"{"})"
       "\n{\"b\":2}\n",
       {R"(1:{"a":"\"{"})", "2:{\"b\":2}"}},
      {"a line cut off in a string is a record by itself",
       "{\"a\":\"x\n{\"b\":2}\n",
       {"1:{\"a\":\"x", "2:{\"b\":2}"}},
      {"a line cut off behind a comma takes no other record",
       "{\"a\":1,\n{\"b\":2}\n",
       {"1:{\"a\":1,", "2:{\"b\":2}"}},
      {"words that are no JSON are a record, to be refused",
       "hello\n{\"b\":2}\n",
       {"1:hello", "2:{\"b\":2}"}},
  }));
  INFO(row.because);
  CHECK(records_of(row.text) == row.records);
}

TEST_CASE("records of any length pass through the buffer unharmed", "[cli]") {
  std::string text;
  std::vector<std::string> expected;
  for (std::size_t i = 1; i <= 400; ++i) {
    const std::string record = "{\"a\":\"" + std::string(i * 37 % 5000, 'x') + "\"}";
    text += record + "\n";
    expected.push_back(std::to_string(i) + ":" + record);
  }
  CHECK(records_of(text) == expected);
}

TEST_CASE("a file that is not there is named", "[cli]") {
  const auto stream = RecordStream::open("/nowhere/records.jsonl");
  REQUIRE_FALSE(stream);
  CHECK(stream.errors().front().message ==
        "`/nowhere/records.jsonl` cannot be read: no such file or directory");
}
