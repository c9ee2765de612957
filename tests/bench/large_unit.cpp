#include "bench/large_unit.h"

#include <array>
#include <filesystem>
#include <stdexcept>

#include "bench/bench.h"
#include "bench/flushing.h"
#include "ledger/recalls.h"
#include "ledger/reception.h"
#include "ledger/signing.h"
#include "support/fixed_clock.h"
#include "support/records.h"
#include "support/shipped_rulesets.h"

namespace bench {

namespace {

using nlohmann::json;

/// What was found, and the months until the next examination under us-2020.
struct Findings {
  int number, size_mm;
  const char *removal, *type;
  int months;
};

constexpr std::array<Findings, 8> kinds = {{
    {1, 8, "en bloc", "tubular adenoma", 84},
    {3, 8, "en bloc", "tubular adenoma", 36},
    {6, 8, "en bloc", "tubular adenoma", 36},
    {12, 8, "en bloc", "tubular adenoma", 12},
    {1, 12, "en bloc", "tubular adenoma", 36},
    {1, 26, "piecemeal", "tubular adenoma", 6},
    {1, 8, "en bloc", "sessile serrated lesion", 60},
    {2, 8, "en bloc", "tubular adenoma", 84},
}};

constexpr int first_number = 1'000'000;
constexpr int at_a_time = 1'000;

std::string exam_of(int i) {
  return "E" + std::to_string(first_number + i);
}

/// Such that the next one is due from two months ago to three years ahead, but not before it was recorded.
engine::Date examined_on(const Findings& findings, int i) {
  const std::int64_t today = engine::days_since_epoch(unit_day);
  const std::int64_t due = today - 60 + i * 37 % 1155;
  return *engine::date_from_days(std::min(today, due - findings.months * 30));
}

json record_of(int i) {
  const Findings& findings = kinds[static_cast<std::size_t>(i) % kinds.size()];
  json lesion =
      support::a_lesion("L1", {{"type", findings.type}, {"dysplasia", "low grade"}, {"margin", "clear"}});
  if (std::string(findings.type) == "sessile serrated lesion") lesion["histology"]["dysplasia"] = "none";
  lesion["size_mm"] = findings.size_mm;
  lesion["removal"] = findings.removal;
  if (findings.number > 1) lesion["number"] = findings.number;
  json record = support::a_record("H" + std::to_string(first_number + i), exam_of(i),
                                  engine::text_of(examined_on(findings, i)), {lesion});
  record["patient"]["birth_date"] = engine::text_of(*engine::date_from_days(-3'000 + i * 7 % 6'000));
  return record;
}

template <class T>
T made(engine::Result<T> result) {
  if (!result) throw std::runtime_error(engine::text_of(result.errors().front()));
  return std::move(*result);
}

void settle(ledger::Ledger& ledger, const ledger::Author& author, int i) {
  if (i % 100 == 99) {
    const engine::Date due = *engine::date_from_days(engine::days_since_epoch(unit_day) + i * 13 % 1100);
    made(ledger::override_advice(
        ledger, author, exam_of(i), "Dr Invented",
        {engine::Action::surveillance_colonoscopy, engine::Window{due, due}, "as agreed"}, 0));
    return;
  }
  const ledger::Signed done = made(ledger::sign(ledger, author, exam_of(i), "Dr Invented", 0));
  if (i % 50 != 7 || done.recall.empty()) return;
  ledger::MoveDetails details;
  details.reason = "not ready";
  details.from = *engine::date_from_days(engine::days_since_epoch(unit_day) - 30);
  details.to = *engine::date_from_days(engine::days_since_epoch(*details.from) + 20 + i % 200);
  made(ledger::move_recall(ledger, author, done.recall, ledger::Move::defer, details));
}

void fill(ledger::Ledger& ledger, int recalls) {
  const support::FixedClock clock(unit_day);
  const ledger::Author author{"bench", clock};
  const ledger::Protocol protocol = shipped("us-2020");
  for (int done = 0; done < recalls; done += at_a_time) {
    const int end = std::min(done + at_a_time, recalls);
    std::string lines;
    for (int i = done; i < end; ++i) lines += record_of(i).dump() + "\n";
    made(ledger::record(ledger, author, protocol, lines, "bench.jsonl"));
    for (int i = done; i < end; ++i) settle(ledger, author, i);
  }
}

}  // namespace

ledger::Protocol shipped(const std::string& id) {
  auto ruleset = made(support::load_shipped(id));
  return {{std::move(ruleset), support::bytes_of_file(support::rulesets_folder / id / "ruleset.dmn")}};
}

ledger::Ledger large_unit(const std::string& path, int recalls) {
  if (std::filesystem::exists(path)) return made(ledger::Ledger::open(path, ledger::Ledger::Access::write));
  const NothingIsFlushed hurry;
  ledger::Ledger ledger = made(ledger::Ledger::create(path));
  const double time = cpu_seconds([&] { fill(ledger, recalls); });
  print("patients recorded and signed", recalls, "");
  print("  in a second of one core", recalls / time, "");
  return ledger;
}

}  // namespace bench
