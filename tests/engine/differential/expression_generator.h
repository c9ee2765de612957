// Random FEEL expressions as trees, the same for the same seed: well typed for the most part, and of the
// sub-language that the naive evaluator knows.

#pragma once

#include <random>
#include <span>
#include <string>
#include <vector>

#include "engine/differential/naive_evaluator.h"
#include "syntax/tree.h"
#include "types/type.h"

namespace testing {

/// What an expression is wanted for.
enum class Sort : std::uint8_t {
  number,
  text,
  truth,
  date,
  period,
  numbers,
  texts,
  record,
  records,
  range,
  function,
  anything
};

class ExpressionGenerator {
 public:
  explicit ExpressionGenerator(std::uint64_t seed) : random_(seed) {}

  /// An expression over the names of scope().
  engine::Tree expression();
  /// Unary tests of a value of the sort `tested`; `?` may be used.
  engine::Tree unary_tests(Sort tested);

  /// The names that expressions may use, with their values.
  static std::span<const PlainNamed> scope();

 private:
  struct Known {
    std::string name;
    Sort sort;
  };

  engine::Tree make(Sort sort, int depth);
  engine::Tree leaf(Sort sort);
  engine::Tree number(int depth);
  engine::Tree text(int depth);
  engine::Tree truth(int depth);
  engine::Tree date(int depth);
  engine::Tree period(int depth);
  engine::Tree numbers(int depth);
  engine::Tree texts(int depth);
  engine::Tree record(int depth);
  engine::Tree records(int depth);
  engine::Tree range(int depth);
  engine::Tree function(int depth);

  engine::Tree literal(Sort sort);
  engine::Tree name_of(Sort sort);
  engine::Tree any_sort(int depth);
  engine::Tree conditional(Sort sort, int depth);
  engine::Tree call(const char* function, std::vector<engine::Tree> arguments);
  engine::Tree applied(Sort result, int depth);
  engine::Tree filter(engine::Tree list, Sort item, int depth);
  engine::Tree key_of(Sort sort, int depth);
  engine::Tree loop(Sort body, int depth);
  engine::Tree quantifier(int depth);
  engine::Tree in(int depth);
  engine::Tree tests(Sort tested, int depth);
  engine::Tree one_test(Sort tested, int depth);
  Sort variable(engine::Node& node, int depth);

  int below(int limit) { return std::uniform_int_distribution<int>(0, limit - 1)(random_); }
  bool one_in(int n) { return below(n) == 0; }
  template <class T, std::size_t size>
  const T& one_of(const T (&all)[size]) {
    return all[static_cast<std::size_t>(below(static_cast<int>(size)))];
  }

  std::mt19937_64 random_;
  std::vector<Known>
      bound_;  ///< Names that loops, filters, functions and contexts around add, innermost last.
  bool has_tested_value_ = false;
  Sort tested_ = Sort::anything;
};

}  // namespace testing
