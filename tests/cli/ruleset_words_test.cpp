#include "ruleset_words.h"

#include <catch2/catch.hpp>

TEST_CASE("the words behind --ruleset are ids up to the first that is not written as one", "[cli]") {
  using Words = std::vector<std::string>;
  struct Row {
    const char* because;
    Words given, read;
  };
  const auto row = GENERATE(values<Row>({
      {"one id", {"advise", "--ruleset", "a", "x.json"}, {"advise", "--ruleset", "a", "x.json"}},
      {"several ids", {"--ruleset", "a", "b-2"}, {"--ruleset", "a", "--ruleset", "b-2"}},
      {"a file ends them", {"--ruleset", "a", "x.json", "b"}, {"--ruleset", "a", "x.json", "b"}},
      {"a path ends them", {"--ruleset", "a", "./b"}, {"--ruleset", "a", "./b"}},
      {"standard input ends them", {"--ruleset", "a", "-", "b"}, {"--ruleset", "a", "-", "b"}},
      {"an option ends them", {"--ruleset", "a", "--json", "b"}, {"--ruleset", "a", "--json", "b"}},
      {"the first is taken as it stands", {"--ruleset", "A.x", "b"}, {"--ruleset", "A.x", "--ruleset", "b"}},
      {"with an equals sign", {"--ruleset=a", "b", "x.json"}, {"--ruleset=a", "--ruleset", "b", "x.json"}},
      {"twice",
       {"--ruleset", "a", "b", "--ruleset", "c", "d"},
       {"--ruleset", "a", "--ruleset", "b", "--ruleset", "c", "--ruleset", "d"}},
      {"files before it stay files", {"b", "--ruleset", "a"}, {"b", "--ruleset", "a"}},
  }));
  INFO(row.because);
  CHECK(cli::with_each_ruleset_named(row.given) == row.read);
}
