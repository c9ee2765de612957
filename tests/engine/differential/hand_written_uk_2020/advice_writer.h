// Puts rows, with what the ruleset says of them, into an advice.

#pragma once

#include <array>
#include <bitset>
#include <string>
#include <string_view>
#include <vector>

#include "engine/advice.h"
#include "engine/differential/hand_written_uk_2020/patient.h"
#include "engine/ruleset.h"

namespace testing::by_hand {

/// What is the same for every patient, read from the ruleset beforehand.
struct Texts {
  struct OfRow {
    std::string source, evidence;
    std::string caution;  ///< Empty when the row was read.
  };

  /// Throws std::runtime_error when the ruleset lacks a row.
  explicit Texts(const Ruleset& ruleset);
  const OfRow& of(Row row) const { return rows[index_of(row)]; }
  /// Afresh, by the rows that the advice names.
  void write_cautions(Advice& advice) const;

  std::string ruleset, edition, digest, title, state;
  std::vector<std::string> cautions;  ///< On every answer.
  std::array<OfRow, row_ids.size()> rows;
};

class AdviceWriter {
 public:
  /// Keeps references to both.
  AdviceWriter(Advice& advice, const Texts& texts);

  bool has_reason(Row row) const { return reasons_[index_of(row)]; }
  void reason(Row row, std::string because);
  void later(const Step& step, std::string_view anchor, std::string because);
  void flag(Row row, std::string_view name, std::string because);
  void fact(std::string_view name, std::string literal);
  void assumed(std::string_view fact, std::string_view taken_as);
  /// After everything else.
  void end();

 private:
  void caution(Row row);

  Advice& advice_;
  const Texts& texts_;
  std::bitset<row_ids.size()> reasons_, cautioned_;
};

}  // namespace testing::by_hand
