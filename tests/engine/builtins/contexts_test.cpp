// Built-ins on contexts. Source: DMN 1.5, table 82.

#include <catch2/catch.hpp>

#include "support/feel.h"

using testing::notes_of;
using testing::value_of;

TEST_CASE("contexts are read, made and changed", "[feel][builtins]") {
  struct Row {
    const char* because;
    const char* text;
    const char* value;
  };
  const auto row = GENERATE(values<Row>({
      {"a value", R"(get value({a: 1}, "a"))", "1"},
      {"by name", R"(get value(key: "b c", m: {b c: 2}))", "2"},
      {"a key that is not there", R"(get value({a: 1}, "b"))", "null"},
      {"of no context", R"(get value("a", "a"))", "null"},
      {"entries", "get entries({a: 1, b: null})", R"([{key: "a", value: 1}, {key: "b", value: null}])"},
      {"no entries", "get entries({})", "[]"},
      {"of entries", R"(context([{key: "a", value: 1}, {key: "b c", value: null}]))", "{a: 1, b c: null}"},
      {"of one entry", R"(context({key: "", value: 1}))", R"({"": 1})"},
      {"a key twice", R"(context([{key: "a", value: 1}, {key: "a", value: 1}]))", "null"},
      {"no value", R"(context({key: "a"}))", "null"},
      {"a key that is no string", "context({key: 1, value: 1})", "null"},
      {"there and back", "context(get entries({a: 1, b: 2}))", "{a: 1, b: 2}"},
      {"a new entry comes last", R"(context put({b: 1}, "a", 2))", "{b: 1, a: 2}"},
      {"another value keeps its place", R"(context put({b: 1, a: 1}, "b", 2))", "{b: 2, a: 1}"},
      {"further down", R"(context put({x: 1, y: {a: 0}}, ["y", "b"], 2))", "{x: 1, y: {a: 0, b: 2}}"},
      {"what it was stays as it was", R"({old: {a: 1}, new: context put(old, "a", 2)})",
       "{old: {a: 1}, new: {a: 2}}"},
      {"a way that is not there", R"(context put({y: {a: 0}}, ["z", "a"], 2))", "null"},
      {"a way through a number", R"(context put({y: {a: 0}}, ["y", "a", "b"], 2))", "null"},
      {"no way", "context put({y: 1}, [], 2)", "null"},
      {"a null key", "context put({}, null, 1)", "null"},
      {"keys by name", R"(context put(context: {y: {a: 0}}, keys: ["y", "a"], value: 2))", "{y: {a: 2}}"},
      {"one key by name is no list", R"(context put(context: {y: 1}, key: ["y"], value: 2))", "null"},
      {"keys by name are a list", R"(context put(context: {y: 1}, keys: "y", value: 2))", "null"},
      {"later wins", "context merge([{a: 1, b: 1}, {a: 2}])", "{a: 2, b: 1}"},
      {"not further down", "context merge([{a: {b: 1}}, {a: {c: 2}}])", "{a: {c: 2}}"},
      {"of nothing", "context merge([])", "{}"},
      {"with a number", "context merge([{a: 1}, 2])", "null"},
  }));
  INFO(row.because << ": " << row.text);
  CHECK(value_of(row.text) == row.value);
}

TEST_CASE("a missing key is a warning, as in a path", "[feel][builtins]") {
  CHECK(notes_of(R"(get value({a: 1}, "b"))") == "no_such_key");
  CHECK(notes_of(R"(get value({a: null}, "a"))").empty());
}
