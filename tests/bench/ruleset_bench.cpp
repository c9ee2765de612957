// Loading every shipped ruleset against reading its bytes and hashing them; and the day of the examination, when the
// histology of twelve lesions is awaited.

#include <memory>
#include <stdexcept>
#include <vector>

#include "bench/bench.h"
#include "engine/advice.h"
#include "engine/canonical.h"
#include "support/shipped_rulesets.h"

namespace bench {

namespace {

std::string twelve_awaited() {
  std::string lesions;
  for (int i = 1; i <= 12; ++i) {
    lesions += std::string(i == 1 ? "" : ",") + R"({"id":"L)" + std::to_string(i) +
               R"(","site":"sigmoid colon","size_mm":6,"paris":"0-Is","removal":"en bloc","retrieved":true,"histology":null})";
  }
  return R"({"patient":{"birth_date":"1961-05-04","conditions":[]},"exam":{"date":"2026-03-10","indication":"screening",)"
         R"("procedure":"colonoscopy","reached":"caecum","preparation":{"graded":"adequate"},"lesions":[)" +
         lesions + "]}}";
}

}  // namespace

void measure_rulesets() {
  const std::vector<std::string> ids = support::shipped_ruleset_ids();
  std::vector<std::shared_ptr<const engine::Ruleset>> rulesets;
  for (const std::string& id : ids) {
    const auto ruleset = support::load_shipped(id);
    if (!ruleset) throw std::runtime_error("no ruleset " + id);
    rulesets.push_back(*ruleset);
  }
  const double hashing = nanoseconds([&] {
    for (std::size_t i = 0; i < ids.size(); ++i) {
      keep(engine::digest_text(support::bytes_of_file(support::rulesets_folder / ids[i] / "ruleset.dmn")));
      for (const engine::ImportedFile& shared : rulesets[i]->imports) keep(engine::digest_text(shared.bytes));
    }
  });
  const double loading = nanoseconds([&] {
    for (const std::string& id : ids) keep(support::load_shipped(id));
  });
  print("loading " + std::to_string(ids.size()) + " rulesets", loading / 1e6, "ms");
  print("  against reading and hashing their files", loading / hashing, "times");

  const auto record = engine::read_record(twelve_awaited(), "bench");
  if (!record) throw std::runtime_error("the record is not read");
  for (const auto& ruleset : rulesets) {
    engine::Adviser adviser(ruleset);
    const double time = nanoseconds([&] { keep(adviser.advise(*record, {2026, 3, 20})); });
    print("twelve awaited lesions, " + ruleset->about.id, time / 1e6, "ms");
  }
}

}  // namespace bench
