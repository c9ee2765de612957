// Records of patients under polyp surveillance, made at random: the same for the same seed.

#pragma once

#include <cstdint>
#include <initializer_list>
#include <random>

#include "engine/record.h"

namespace testing {

class RecordGenerator {
 public:
  explicit RecordGenerator(std::uint64_t seed) : random_(seed) {}

  /// All facts are known. Not every such record could be.
  engine::Record record();
  /// The same, with background left out, and without the histology of what was left in place and of up to one
  /// polyp that was lost or whose histology is awaited.
  engine::Record record_with_gaps();

 private:
  void add_resection(engine::Record& record, const engine::Date& day);
  void add_background(engine::Record& record);
  engine::Examination exam(const engine::Date& day);
  void add_preparation(engine::Examination& exam);
  engine::Lesion lesion();
  engine::Histology histology();
  void leave_out_background(engine::Record& record);
  void leave_out_histology(engine::Examination& exam, bool& one_is_open);

  int below(int limit) { return std::uniform_int_distribution<int>(0, limit - 1)(random_); }
  bool one_in(int n) { return below(n) == 0; }
  template <class T>
  T one_of(std::initializer_list<T> all) {
    return *(all.begin() + below(static_cast<int>(all.size())));
  }

  std::mt19937_64 random_;
};

}  // namespace testing
