// The search against the slow obvious way: every completion of the facts, one by one.

#include "advice/completions.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <functional>
#include <map>
#include <random>
#include <set>

#include "advice/ways.h"

using namespace engine;

namespace {

OpenFact terms(std::string path, std::vector<std::string_view> options) {
  OpenFact fact;
  fact.path = std::move(path);
  fact.why = OpenFact::Why::awaited;
  for (const std::string_view option : options) fact.options.push_back(Value::string(option));
  return fact;
}

/// A decision with a random shape over the facts: at each step one fact is read or tested, and what came out
/// leads to the next step. The same seed is the same decision.
class RandomDecision {
 public:
  RandomDecision(std::uint32_t seed, std::uint32_t facts, std::uint32_t outcomes)
      : seed_(seed), facts_(facts), outcomes_(outcomes) {}

  template <class Read, class Test>
  std::uint32_t operator()(Read&& read, Test&& test) const {
    std::uint32_t state = seed_;
    for (int step = 0; step < 6; ++step) {
      state = mixed(state);
      if (state % 4 == 0) break;
      const std::uint32_t fact = state / 4 % facts_;
      const bool whole = state / 64 % 3 == 0;
      const Value seen = whole ? read(fact) : test(fact, std::string_view(letters[state / 256 % 4]));
      state = mixed(state ^ fingerprint(seen));
    }
    return mixed(state) % outcomes_;
  }

 private:
  static constexpr std::array<std::string_view, 4> letters = {"a", "b", "c", "d"};
  static std::uint32_t mixed(std::uint32_t x) {
    x ^= x >> 16;
    x *= 0x7feb352dU;
    x ^= x >> 15;
    x *= 0x846ca68bU;
    return x ^ (x >> 16);
  }
  static std::uint32_t fingerprint(const Value& value) {
    if (value.is(Kind::string)) return static_cast<std::uint32_t>(value.string()[0]);
    return value.is_true() ? 1U : 2U;
  }
  std::uint32_t seed_, facts_, outcomes_;
};

struct World {
  std::vector<OpenFact> facts;
  OpenVariables variables;
  Arena arena;
};

void fill(World& world) {
  for (const char* path : {"f0", "f1", "f2", "f3"}) world.facts.push_back(terms(path, {"a", "b", "c", "d"}));
  world.variables = open_variables(world.facts, {}, Record{}, world.arena);
}

Value equals(const void* data, const Value& candidate) {
  return Value::of(candidate.string() == *static_cast<const std::string_view*>(data));
}

std::uint32_t by_hand(const RandomDecision& decision, const std::vector<Value>& values) {
  return decision([&](std::uint32_t fact) { return values[fact]; },
                  [&](std::uint32_t fact, std::string_view letter) { return equals(&letter, values[fact]); });
}

template <class Use>
void for_all_completions(const World& world, Use&& use) {
  std::vector<std::uint32_t> at(4);
  for (std::uint32_t code = 0; code < 256; ++code) {
    std::vector<Value> values;
    for (std::uint32_t f = 0; f < 4; ++f) {
      at[f] = code >> (2 * f) & 3;
      values.push_back(world.facts[f].options[at[f]]);
    }
    use(at, values);
  }
}

bool is_in(const Box& box, const std::vector<std::uint32_t>& at) {
  for (const auto& [variable, set] : box) {
    if (!set.has(at[variable])) return false;
  }
  return true;
}

}  // namespace

TEST_CASE("the search finds for every completion the outcome that it has", "[advice][property]") {
  std::size_t runs_in_all = 0;
  for (std::uint32_t seed = 1; seed <= 400; ++seed) {
    INFO("seed " << seed);
    World world;
    fill(world);
    const RandomDecision decision(seed, 4, 3);
    TakenFacts taken(world.facts, world.variables);
    const Search found = search(taken, {}, 10'000, [&]() -> std::optional<std::uint32_t> {
      return decision(
          [&](std::uint32_t fact) { return taken.read(fact); },
          [&](std::uint32_t fact, std::string_view letter) { return taken.test(fact, equals, &letter); });
    });
    REQUIRE_FALSE(found.exhausted);
    runs_in_all += found.leaves.size();

    std::set<std::uint32_t> expected_to_matter;
    for_all_completions(world, [&](const auto& at, const auto& values) {
      const std::uint32_t outcome = by_hand(decision, values);
      std::size_t leaves = 0;
      for (const Leaf& leaf : found.leaves) {
        if (!is_in(leaf.box, at)) continue;
        ++leaves;
        REQUIRE(leaf.outcome == outcome);
      }
      REQUIRE(leaves == 1);
      for (std::uint32_t f = 0; f < 4; ++f) {
        for (const Value& other : world.facts[f].options) {
          auto changed = values;
          changed[f] = other;
          if (by_hand(decision, changed) != outcome) expected_to_matter.insert(f);
        }
      }
    });

    const auto matters = variables_that_matter(found, 4, {}, {0, 1, 2});
    for (std::uint32_t f = 0; f < 4; ++f) CHECK((matters[f] != 0) == (expected_to_matter.count(f) == 1));

    for (std::uint32_t outcome = 0; outcome < 3; ++outcome) {
      const Ways ways = simplest_ways(found, world.variables, {}, outcome, 1000);
      CHECK_FALSE(ways.more);
      for_all_completions(world, [&](const auto& at, const auto& values) {
        const bool told =
            std::any_of(ways.boxes.begin(), ways.boxes.end(), [&](const Box& box) { return is_in(box, at); });
        REQUIRE(told == (by_hand(decision, values) == outcome));
      });
    }
  }
  CHECK(runs_in_all < 400 * 256 / 4);  // far fewer than all completions
}

namespace {

// An examination with four lesions that nothing tells apart: the facts f0 to f3 are their types.
BoundRecord four_alike(World& world) {
  static constexpr std::string_view lesion_keys[] = {"id", "type"};
  static constexpr std::string_view exam_keys[] = {"lesions"};
  static constexpr std::string_view names[] = {"L0", "L1", "L2", "L3"};
  Value* lesions = world.arena.allocate<Value>(4);
  for (std::uint32_t i = 0; i < 4; ++i) {
    Value* values = world.arena.allocate<Value>(2);
    values[0] = Value::string(names[i]);
    values[1] = Value::open_fact(i);
    lesions[i] = Value::of(static_cast<const Context*>(world.arena.make<Context>(2U, lesion_keys, values)));
  }
  Value* list = world.arena.allocate<Value>(1);
  list[0] = Value::list({lesions, 4});
  BoundRecord bound;
  bound.exam = Value::of(static_cast<const Context*>(world.arena.make<Context>(1U, exam_keys, list)));
  bound.facts = world.facts;
  return bound;
}

/// An outcome that depends on how many facts are each letter, looked at in an order of its own.
std::uint32_t by_counts(std::uint32_t seed, const std::function<Value(std::uint32_t, std::string_view)>& is) {
  std::mt19937 random(seed);
  std::uint32_t outcome = 0;
  for (const std::uint32_t step : {1U, 2U, 3U}) {
    static constexpr std::string_view letters[] = {"a", "b", "c", "d"};
    const std::string_view letter = letters[random() % 4];
    const std::uint32_t least = 1 + random() % 4;
    const bool stops = random() % 2 == 0;
    std::uint32_t count = 0;
    for (std::uint32_t fact = 0; fact < 4 && count < least; ++fact) count += is(fact, letter).is_true() ? 1 : 0;
    if (count >= least) {
      outcome = (outcome + step) % 3;
      if (stops) break;
    }
  }
  return outcome;
}

}  // namespace

TEST_CASE("of lesions that are alike each way is looked at once, and none is lost", "[advice][property]") {
  const auto no_rules = Model::load(
      "<definitions xmlns=\"https://www.omg.org/spec/DMN/20230324/MODEL/\" name=\"t\" namespace=\"urn:t\"/>", "t");
  REQUIRE(no_rules);
  std::size_t runs = 0, runs_without = 0;
  for (std::uint32_t seed = 1; seed <= 300; ++seed) {
    INFO("seed " << seed);
    World world;
    fill(world);
    const Symmetry symmetry(**no_rules, four_alike(world), world.variables);
    REQUIRE(symmetry.groups().size() == 1);
    TakenFacts taken(world.facts, world.variables);
    const auto run = [&]() -> std::optional<std::uint32_t> {
      return by_counts(seed, [&](std::uint32_t fact, std::string_view letter) { return taken.test(fact, equals, &letter); });
    };
    const Search found = search(taken, symmetry, 10'000, run);
    REQUIRE_FALSE(found.exhausted);
    runs += found.leaves.size();
    runs_without += search(taken, {}, 10'000, run).leaves.size();

    const auto outcome_of = [&](const std::vector<Value>& values) {
      return by_counts(seed, [&](std::uint32_t fact, std::string_view letter) { return equals(&letter, values[fact]); });
    };
    const auto mirrors = [](std::vector<std::uint32_t> at) {
      std::vector<std::vector<std::uint32_t>> all;
      std::sort(at.begin(), at.end());
      do all.push_back(at);
      while (std::next_permutation(at.begin(), at.end()));
      return all;
    };
    std::set<std::uint32_t> expected_to_matter;
    for_all_completions(world, [&](const auto& at, const auto& values) {
      const std::uint32_t outcome = outcome_of(values);
      std::size_t leaves = 0;
      for (const auto& mirror : mirrors(at)) {
        for (const Leaf& leaf : found.leaves) {
          if (!is_in(leaf.box, mirror)) continue;
          ++leaves;
          REQUIRE(leaf.outcome == outcome);
        }
      }
      REQUIRE(leaves > 0);
      for (std::uint32_t f = 0; f < 4; ++f) {
        for (const Value& other : world.facts[f].options) {
          auto changed = values;
          changed[f] = other;
          if (outcome_of(changed) != outcome) expected_to_matter.insert(f);
        }
      }
    });
    const auto matters = variables_that_matter(found, 4, symmetry, {0, 1, 2});
    for (const std::uint32_t f : expected_to_matter) CHECK(matters[f] != 0);
    CHECK((matters[0] == matters[1] && matters[1] == matters[2] && matters[2] == matters[3]));

    for (std::uint32_t outcome = 0; outcome < 3; ++outcome) {
      const Ways ways = simplest_ways(found, world.variables, symmetry, outcome, 1000);
      CHECK_FALSE(ways.more);
      for_all_completions(world, [&](const auto& at, const auto& values) {
        bool told = false;
        for (const auto& mirror : mirrors(at)) {
          for (const Box& box : ways.boxes) told = told || is_in(box, mirror);
        }
        REQUIRE(told == (outcome_of(values) == outcome));
      });
    }
  }
  CHECK(runs < runs_without / 2);
}

TEST_CASE("a search whose budget is too small says so and claims nothing", "[advice]") {
  World world;
  fill(world);
  TakenFacts taken(world.facts, world.variables);
  const auto read_all = [&]() -> std::optional<std::uint32_t> {
    for (std::uint32_t fact = 0; fact < 4; ++fact) taken.read(fact);
    return 0;
  };
  CHECK_FALSE(search(taken, {}, 256, read_all).exhausted);
  CHECK(search(taken, {}, 255, read_all).exhausted);
  CHECK(search(taken, {}, 1, read_all).exhausted);
}

TEST_CASE("an error in a completion stops the search", "[advice]") {
  World world;
  fill(world);
  TakenFacts taken(world.facts, world.variables);
  const Search found = search(taken, {}, 100, [&]() -> std::optional<std::uint32_t> {
    if (taken.read(0).string() == "c") return std::nullopt;
    return 0;
  });
  CHECK(found.stopped);
}

TEST_CASE("a fact with nothing to choose from is noted and never guessed", "[advice]") {
  World world;
  OpenFact birth_date;
  birth_date.path = "patient.birth_date";
  birth_date.why = OpenFact::Why::not_stated;
  world.facts = {birth_date, terms("f1", {"a", "b"})};
  world.variables = open_variables(world.facts, {}, Record{}, world.arena);
  TakenFacts taken(world.facts, world.variables);
  taken.start({});
  CHECK(taken.read(1).string() == "a");
  CHECK_FALSE(taken.met_unknown());
  CHECK(taken.read(0).is(Kind::open_fact));
  CHECK(taken.met_unknown());
  taken.start({});
  CHECK_FALSE(taken.met_unknown());
}

TEST_CASE("background that is left out is what it is taken to be, and noted as read", "[advice]") {
  World world;
  OpenFact history;
  history.path = "patient.family_history";
  history.why = OpenFact::Why::assumed;
  history.assumed = Value::string("none");
  world.facts = {history};
  world.variables = open_variables(world.facts, {}, Record{}, world.arena);
  TakenFacts taken(world.facts, world.variables);
  taken.start({});
  CHECK(taken.touched()[0] == 0);
  CHECK(taken.read(0).string() == "none");
  CHECK(taken.touched()[0] == 1);
  CHECK(taken.steps().empty());
}
