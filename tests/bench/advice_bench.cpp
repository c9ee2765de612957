// Advice by uk-2020 over its worked cases, one thread: the engine's own work, against the same rules written
// by hand in C++, once as action, interval and row and once as the whole advice; and from a line of JSON to a
// line of JSON.

#include <stdexcept>
#include <vector>

#include "bench/allocations.h"
#include "bench/bench.h"
#include "engine/advice.h"
#include "engine/differential/hand_written_advice.h"
#include "engine/differential/hand_written_uk_2020.h"
#include "engine/differential/hand_written_uk_2020/open_histology.h"
#include "support/shipped_rulesets.h"

namespace bench {

namespace {

struct Cases {
  std::vector<std::string> texts;
  std::vector<engine::Record> records;
};

Cases read_cases(const std::string& id) {
  Cases cases;
  std::ifstream file(support::rulesets_folder / id / "guideline.cases.jsonl");
  for (std::string line; std::getline(file, line);) {
    if (line.empty()) continue;
    auto record = engine::read_record(line, "bench");
    if (!record) throw std::runtime_error(text_of(record.errors().front()));
    cases.texts.push_back(line);
    cases.records.push_back(std::move(*record));
  }
  if (cases.texts.empty()) throw std::runtime_error("no worked cases of " + id);
  return cases;
}

constexpr engine::Date today{2026, 3, 20};

/// Both make the same engine::Advice of the same record: where the answer is settled and nothing is open, so
/// that there is one way to work through.
void measure_whole_advice(const std::vector<engine::Record>& all, engine::Adviser& adviser,
                          const testing::HandWrittenAdviser& by_hand) {
  std::vector<const engine::Record*> settled;
  for (const engine::Record& record : all) {
    const auto advice = by_hand.advise(record);
    if (!advice || !testing::by_hand::without_histology(record).empty()) continue;
    if (json_of(*advice) != json_of(adviser.advise(record, today)))
      throw std::runtime_error("the advice by hand is not the engine's");
    settled.push_back(&record);
  }
  const auto count = static_cast<double>(settled.size());
  const auto advise_all = [&] {
    for (const engine::Record* record : settled) keep(adviser.advise(*record, today));
  };
  const auto write_all = [&] {
    for (const engine::Record* record : settled) keep(by_hand.advise(*record));
  };
  const double advising = nanoseconds(advise_all) / count, writing = nanoseconds(write_all) / count;
  print("whole advice, settled by what is known", advising / 1000, "us");
  print("  such cases", count, "");
  print("  allocations", allocations_of(advise_all) / count, "each");
  print("  the same advice by hand in C++", writing / 1000, "us");
  print("    allocations", allocations_of(write_all) / count, "each");
  print("    the engine's time against that", advising / writing, "times");
}

}  // namespace

void measure_advice() {
  const std::string id = "uk-2020";
  const auto ruleset = support::load_shipped(id);
  if (!ruleset) throw std::runtime_error("no ruleset " + id);
  const Cases cases = read_cases(id);
  const auto count = static_cast<double>(cases.texts.size());
  engine::Adviser adviser(*ruleset);

  const auto advise_all = [&] {
    for (const engine::Record& record : cases.records) keep(adviser.advise(record, today));
  };
  const double advising = nanoseconds(advise_all) / count;
  const double by_hand = nanoseconds([&] {
                           for (const engine::Record& record : cases.records)
                             keep(testing::hand_written_uk_2020(record));
                         }) /
                         count;
  print("record to advice (" + id + ", mean of its cases)", advising / 1000, "us");
  print("  allocations", allocations_of(advise_all) / count, "each");
  print("  action, interval and row by hand in C++", by_hand / 1000, "us");
  print("    the engine's time against that", advising / by_hand, "times");
  measure_whole_advice(cases.records, adviser, testing::HandWrittenAdviser(**ruleset));

  std::size_t bytes = 0;
  const double whole = nanoseconds([&] {
                         bytes = 0;
                         for (const std::string& text : cases.texts) {
                           bytes +=
                               json_of(adviser.advise(*engine::read_record(text, "bench"), today)).size();
                         }
                       }) /
                       count;
  const double reading = nanoseconds([&] {
                           for (const std::string& text : cases.texts)
                             keep(engine::read_record(text, "bench"));
                         }) /
                         count;
  print("line of JSON to line of JSON", whole / 1000, "us");
  print("  a second", 1e9 / whole, "");
  print("  of which reading the record", 100 * reading / whole, "%");
  print("  of which writing the answer", 100 * (whole - reading - advising) / whole, "%");
  print("  answer's length", static_cast<double>(bytes) / count, "bytes");
}

}  // namespace bench
