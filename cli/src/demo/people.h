// Invented people. Their NHS Numbers are from the range 999 000 0000 on, which is kept for tests and given to
// no one.

#pragma once

#include <nlohmann/json.hpp>
#include <string>

#include "demo/dice.h"
#include "engine/calendar.h"

namespace cli {

/// The test number with that serial, 0 to 999,999, with its check digit (modulus 11); empty where the nine
/// digits have none. Source: NHS Data Dictionary, NHS NUMBER.
std::string test_nhs_number(int serial);

/// Gives one invented person after the other, each with a number of their own.
class People {
 public:
  explicit People(Dice& dice) : dice_(dice) {}
  /// The `patient` of a record. `age` in whole years on `day`.
  nlohmann::json next(int age, const engine::Date& day);

 private:
  Dice& dice_;
  int serial_ = 0;
  int hospital_number_ = 100'000;
};

}  // namespace cli
