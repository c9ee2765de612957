// Invented patients, with NHS numbers of the range that is kept for tests.

#pragma once

#include <nlohmann/json.hpp>

#include "engine/calendar.h"
#include "ledger/year/dice.h"

namespace year {

/// The ten digits of test number `serial`; empty when it has no check digit.
std::string nhs_number(int serial);

class Patients {
 public:
  explicit Patients(Dice& dice) : dice_(dice) {}

  /// `patient` of a record, under an NHS number and a hospital number of their own.
  nlohmann::json next(int age, const engine::Date& today);
  /// The same person under another hospital's number, and no other; some hospitals tell no background.
  nlohmann::json under_another_number(const nlohmann::json& patient);

 private:
  Dice& dice_;
  int serial_ = 0, hospital_numbers_ = 0;
};

}  // namespace year
