#include "reception/result_matching.h"

#include <catch2/catch.hpp>

using nlohmann::json;

namespace {

// Pot A holds L1 and L2, pot B holds L3; L4 was left where it is.
const json exam = json::parse(R"({"lesions":[{"id":"L1","specimen":"A","removal":"en bloc"},
  {"id":"L2","specimen":"A","removal":"en bloc"},{"id":"L3","specimen":"B","removal":"piecemeal"},
  {"id":"L4","specimen":"B2","removal":"not removed"}],
  "specimens":[{"id":"A","accession":"26H1"},{"id":"B","accession":"26H2"}]})");

std::string outcome(const std::string& specimens, const json& of) {
  const auto report =
      ledger::read_result(R"({"exam":"E","reported":"2026-03-15","specimens":)" + specimens + "}");
  REQUIRE(report);
  const auto matched = ledger::match(*report, of);
  std::string line;
  if (matched) {
    for (const auto& lesion : *matched)
      line += (line.empty() ? "" : ", ") + lesion.specimen + "/" + lesion.lesion;
    return line;
  }
  for (const auto& error : matched.errors()) {
    line += (line.empty() ? "" : ", ") + error.place.path + ": " + error.code;
  }
  return line;
}

}  // namespace

TEST_CASE("a result finds the lesions that it speaks of", "[result]") {
  struct Row {
    const char* because;
    const char* specimens;
    const char* outcome;
  };
  const auto row = GENERATE(values<Row>({
      {"by pot and lesion", R"([{"id":"A","lesions":[{"id":"L2","histology":{}}]}])", "A/L2"},
      {"by accession", R"([{"accession":"26H2","lesions":[{"id":"L3","histology":{}}]}])", "B/L3"},
      {"the only lesion in a pot needs no name", R"([{"id":"B","histology":{}}])", "B/L3"},
      {"two lesions in a pot need theirs", R"([{"id":"A","histology":{}}])", "specimens[0]: several_lesions"},
      {"an unknown pot", R"([{"id":"C","histology":{}}])", "specimens[0].id: unknown_pot"},
      {"an unknown accession", R"([{"accession":"26H9","histology":{}}])",
       "specimens[0].accession: unknown_pot"},
      {"a lesion of another pot", R"([{"id":"A","lesions":[{"id":"L3","histology":{}}]}])",
       "specimens[0].lesions[0].id: other_pot"},
      {"an unknown lesion", R"([{"id":"A","lesions":[{"id":"L9","histology":{}}]}])",
       "specimens[0].lesions[0].id: unknown_lesion"},
      {"a lesion that was left where it is", R"([{"id":"B2","histology":{}}])", "specimens[0]: not_removed"},
      {"a lesion named twice",
       R"([{"id":"A","lesions":[{"id":"L1","histology":{}},{"id":"L1","histology":{}}]}])",
       "specimens[0].lesions[1]: named_twice"},
      {"all faults in one run",
       R"([{"id":"C","histology":{}},{"id":"A","lesions":[{"id":"L9","histology":{}}]}])",
       "specimens[0].id: unknown_pot, specimens[1].lesions[0].id: unknown_lesion"},
  }));
  INFO(row.because);
  CHECK(outcome(row.specimens, exam) == row.outcome);
}

TEST_CASE("a lesion that names no pot is in the only one", "[result]") {
  const json one = json::parse(R"({"lesions":[{"id":"L1","removal":"en bloc"}],"specimens":[{"id":"A"}]})");
  CHECK(outcome(R"([{"id":"A","histology":{}}])", one) == "A/L1");
  const json two =
      json::parse(R"({"lesions":[{"id":"L1","removal":"en bloc"}],"specimens":[{"id":"A"},{"id":"B"}]})");
  CHECK(outcome(R"([{"id":"A","lesions":[{"id":"L1","histology":{}}]}])", two) ==
        "specimens[0].lesions[0].id: other_pot");
}
