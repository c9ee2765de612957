// Advice a second: JSON in, JSON out, one thread, over the worked cases of a ruleset.

#include <stdexcept>
#include <vector>

#include "bench/bench.h"
#include "engine/advice.h"
#include "support/shipped_rulesets.h"

namespace bench {

namespace {

std::vector<std::string> cases_of(const std::string& id) {
  std::vector<std::string> cases;
  std::ifstream file(std::string(DUEWARD_SOURCE_DIR "/rulesets/") + id + "/guideline.cases.jsonl");
  for (std::string line; std::getline(file, line);) {
    if (!line.empty()) cases.push_back(line);
  }
  return cases;
}

}  // namespace

void measure_advice() {
  const std::string id = "uk-2020";
  const auto ruleset = support::load_shipped(id);
  const std::vector<std::string> cases = cases_of(id);
  if (!ruleset || cases.empty()) throw std::runtime_error("no ruleset uk-2020");
  engine::Adviser adviser(*ruleset);
  const engine::Date today{2026, 3, 20};

  std::size_t bytes = 0, answers = 0;
  const auto answer_all = [&] {
    for (const std::string& text : cases) {
      const auto record = engine::read_record(text, "bench");
      if (!record) continue;
      bytes += engine::json_of(adviser.advise(*record, today)).size();
      ++answers;
    }
  };
  answer_all();
  answers = 0;
  const double time = seconds([&] {
    while (answers < 50'000) answer_all();
  });
  print("advice, JSON to JSON (" + id + ")", static_cast<double>(answers) / time, "a second");

  std::size_t read = 0;
  const double reading = seconds([&] {
    while (read < 50'000) {
      for (const std::string& text : cases) read += engine::read_record(text, "bench") ? 1U : 0U;
    }
  });
  print("  of which reading the record",
        100 * reading / static_cast<double>(read) / (time / static_cast<double>(answers)), "%");
  print("  answer's length", static_cast<double>(bytes) / static_cast<double>(answers), "bytes");
}

}  // namespace bench
