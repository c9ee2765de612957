// The records that rulesets are compared with: complete, free of contradictions, on both sides of every line.

#include "engine/representative.h"

#include <catch2/catch.hpp>
#include <set>
#include <vector>

#include "record/contradictions.h"
#include "record/faults.h"

using namespace engine;

namespace {

std::vector<Decimal> numbers(std::initializer_list<int> wholes) {
  std::vector<Decimal> decimals;
  for (const int whole : wholes) decimals.emplace_back(whole);
  return decimals;
}

template <class Take>
void each(const std::vector<Decimal>& lines, Take take) {
  each_representative_record(lines, [&](const RepresentativeRecord& made) { take(made); });
}

}  // namespace

TEST_CASE("sizes, counts and ages are tried at each number of the rules and beside it", "[representative]") {
  std::set<int> sizes, counts, ages;
  each(numbers({7, 20, 68}), [&](const RepresentativeRecord& made) {
    ages.insert(made.record.exam.date.year - made.record.patient.birth_date->year);
    for (const Lesion& lesion : made.record.exam.lesions) {
      sizes.insert(lesion.size.value.tenths / 10);
      counts.insert(lesion.number.value);
    }
  });
  for (const int near : {6, 7, 8, 19, 20, 21}) {
    INFO(near);
    CHECK(sizes.contains(near));
    CHECK(counts.contains(near));
  }
  for (const int age :
       {67, 68, 69, 65, 63, 58}) {  // now, and such that a date in 3, 5 or 10 years crosses the line
    INFO(age);
    CHECK(ages.contains(age));
  }
}

TEST_CASE("every record is complete and contradicts itself nowhere", "[representative]") {
  std::size_t count = 0;
  each(numbers({5, 10, 20, 75}), [&](const RepresentativeRecord& made) {
    ++count;
    Faults faults("made");
    find_contradictions(made.record, faults);
    const bool is_complete = made.record.patient.birth_date && made.record.patient.conditions &&
                             made.record.previous && made.record.setting.nation &&
                             !made.record.exam.awaits_histology();
    if (faults.empty() && is_complete) return;
    INFO(in_plain_words(made.record));
    for (const Error& error : faults.take()) INFO(error.message);
    FAIL("a record that is not sound");
  });
  CHECK(count > 10'000);
}

TEST_CASE("the same numbers make the same records, in whatever order they stand", "[representative]") {
  const auto words = [](const std::vector<Decimal>& lines) {
    std::vector<std::string> all;
    each(lines, [&](const RepresentativeRecord& made) { all.push_back(in_plain_words(made.record)); });
    return all;
  };
  CHECK(words(numbers({10, 3, 75})) == words(numbers({75, 75, 3, 10, 10})));
}

TEST_CASE("a record is told in plain words, without what is ordinary", "[representative]") {
  std::set<std::string> all;
  each(numbers({10}), [&](const RepresentativeRecord& made) { all.insert(in_plain_words(made.record)); });
  for (const char* words : {
           "no polyps",
           "1 tubular adenoma of 10 mm in the sigmoid colon",
           "3 tubular adenomas of 9 mm in the sigmoid colon",
           "2 sessile serrated lesions with low-grade dysplasia of 8 mm in the caecum",
           "1 tubular adenoma with high-grade dysplasia of 12 mm in the rectum",
           "1 tubular adenoma of 12 mm in the sigmoid colon, 0-IIa, piecemeal, margin not assessable",
           "1 tubular adenoma of 6 mm in the sigmoid colon + 1 hyperplastic polyp of 12 mm in the sigmoid "
           "colon",
           "no polyps; 3 years before: 3 tubular adenomas of 6 mm in the sigmoid colon",
           "no polyps; preparation inadequate",
           "no polyps; Boston score 1-3-3",
           "1 tubular adenoma of 12 mm in the sigmoid colon; aged 70",
           "no polyps; lynch syndrome (MSH6)",
           "no polyps; ulcerative colitis, extensive, activity none, stricture",
           "1 polyp of 6 mm in the sigmoid colon, not retrieved",
       }) {
    INFO(words);
    CHECK(all.contains(words));
  }
}

TEST_CASE("fewer circumstances, fewer kinds and smaller polyps make the plainer example",
          "[representative]") {
  const Complexity plain{0, 1, 1, 80, 0};
  struct Row {
    const char* because;
    Complexity other;
  };
  const auto row = GENERATE(values<Row>({
      {"a circumstance weighs more than any number of polyps", {1, 0, 0, 0, 0}},
      {"two kinds", {0, 2, 2, 20, 0}},
      {"more polyps", {0, 1, 2, 10, 0}},
      {"a larger one", {0, 1, 1, 90, 0}},
      {"a rarer one of the same size", {0, 1, 1, 80, 3}},
  }));
  INFO(row.because);
  CHECK(plain < row.other);
}
