#include "engine/lesion_names.h"

#include <catch2/catch.hpp>

using engine::with_lesion_names;

TEST_CASE("the path of a lesion is told by the lesion's own name", "[advice]") {
  struct Row {
    const char* text;
    const char* told;
  };
  const auto row = GENERATE(values<Row>({
      {"exam.lesions[1].histology.type = tubular adenoma; and exam.lesions[0].size_mm >= 10",
       "lesion B histology type = tubular adenoma; and lesion A size in mm >= 10"},
      {"exam.lesions[0] to [2].histology", "lesions A to C histology"},
      {"exam.lesions[0], [2].size_mm", "lesions A, C size in mm"},
      {"exam.lesions[0], [1].paris, exam.date", "lesions A, B paris, exam.date"},
      {"previous[0].lesions[1].site", "previous[0].lesions[1].site"},
      {"exam.lesions[3].site", "exam.lesions[3].site"},
      {"exam.lesions[", "exam.lesions["},
      {"exam.lesions", "exam.lesions"},
      {"", ""},
  }));
  CHECK(with_lesion_names(row.text, {"A", "B", "C"}) == row.told);
}

TEST_CASE("without names paths stay as they are", "[advice]") {
  CHECK(with_lesion_names("exam.lesions[0].site", {}) == "exam.lesions[0].site");
}
