#include "text/edit_distance.h"

#include <catch2/catch.hpp>
#include <functional>
#include <random>
#include <string>

#include "engine/result.h"

namespace engine {
namespace {

TEST_CASE("the distance of two spellings is the fewest changes of a letter", "[text]") {
  struct Row {
    const char* because;
    const char* a;
    const char* b;
    std::size_t distance;
  };
  const auto row = GENERATE(values<Row>({
      {"equal words", "caecum", "caecum", 0},
      {"one letter left out", "cecum", "caecum", 1},
      {"two neighbours swapped", "retreived", "retrieved", 1},
      {"one letter replaced", "rectun", "rectum", 1},
      {"nothing against a word", "", "rectum", 6},
      {"a word against nothing", "rectum", "", 6},
      {"the usual example", "kitten", "sitting", 3},
  }));
  INFO(row.because << ": " << row.a << ", " << row.b);
  CHECK(edit_distance(row.a, row.b) == row.distance);
}

/// The definition itself, without a table.
std::size_t slow_distance(std::string_view a, std::string_view b) {
  if (a.empty() || b.empty()) return a.size() + b.size();
  std::size_t least = slow_distance(a.substr(1), b.substr(1)) + (a[0] == b[0] ? 0 : 1);
  least = std::min(least, slow_distance(a.substr(1), b) + 1);
  least = std::min(least, slow_distance(a, b.substr(1)) + 1);
  const bool swapped = a.size() > 1 && b.size() > 1 && a[0] == b[1] && a[1] == b[0];
  return swapped ? std::min(least, slow_distance(a.substr(2), b.substr(2)) + 1) : least;
}

TEST_CASE("the distance is what the definition gives", "[text]") {
  std::mt19937 random(20260310);
  const auto word = [&] {
    std::string out(random() % 6, ' ');
    for (char& c : out) c = static_cast<char>('a' + random() % 3);
    return out;
  };
  for (int i = 0; i < 2000; ++i) {
    const std::string a = word(), b = word();
    INFO(a << " and " << b);
    REQUIRE(edit_distance(a, b) == slow_distance(a, b));
  }
}

TEST_CASE("the nearest term is offered only when it is near", "[text]") {
  struct Row {
    const char* because;
    const char* word;
    const char* nearest;
  };
  const auto row = GENERATE(values<Row>({
      {"a letter is missing", "sigmod colon", "sigmoid colon"},
      {"American spelling", "cecum", "caecum"},
      {"capitals do not count", "SIGMOID COLON", "sigmoid colon"},
      {"the nearer of two", "rectun", "rectum"},
      {"the beginning of a term", "sigmoid", "sigmoid colon"},
      {"a term with more behind it", "rectum wall biopsied", "rectum"},
      {"another word altogether", "stomach", ""},
      {"no word at all", "", ""},
      {"two letters are no beginning", "re", ""},
  }));
  INFO(row.because << ": " << row.word);
  CHECK(nearest(row.word, {"caecum", "sigmoid colon", "rectum", "rectosigmoid"}) == row.nearest);
}

TEST_CASE("a word longer than any term is not compared", "[text]") {
  CHECK(nearest("rectum" + std::string(1'000'000, 'x'), {"rectum"}).empty());
}

}  // namespace
}  // namespace engine
