#include "ledger/year/patients.h"

namespace year {

using nlohmann::json;

// Modulus 11: the weights are 10 to 2. Source: NHS Data Model and Dictionary, NHS NUMBER (from memory).
std::string nhs_number(int serial) {
  std::string digits = std::to_string(999'000'000 + serial);
  int sum = 0;
  for (int i = 0; i < 9; ++i) sum += (digits[static_cast<std::size_t>(i)] - '0') * (10 - i);
  const int check = (11 - sum % 11) % 11;
  return check == 10 ? "" : digits + std::to_string(check);
}

json Patients::next(int age, const engine::Date& today) {
  static const std::vector<std::string> families = {"Alderfen",  "Brackwell",  "Corvane",  "Dunmarsh",
                                                    "Ellerbeck", "Farrowdale", "Gillmoor", "Hartsmere"};
  static const std::vector<std::string> given = {"Ada",   "Bernard", "Cyril", "Delia",
                                                 "Edith", "Femi",    "Gita",  "Hamid"};
  std::string number;
  while (number.empty()) number = nhs_number(serial_++);
  const engine::Date born = engine::add(today, engine::Months{-12 * age - dice_.between(1, 11)}).value();
  return {{"identifiers",
           {{{"system", "nhs-number"}, {"value", number}},
            {{"system", "hospital-number"}, {"value", "H" + std::to_string(++hospital_numbers_)}}}},
          {"name", {{"family", dice_.one_of(families)}, {"given", dice_.one_of(given)}}},
          {"birth_date", engine::text_of(engine::Date{born.year, born.month, 1})},
          {"sex", dice_.percent(50) ? "female" : "male"},
          {"conditions", json::array()}};
}

json Patients::under_another_number(const json& patient) {
  json other = patient;
  other["identifiers"] = {
      {{"system", "other-hospital"}, {"value", "X" + std::to_string(++hospital_numbers_)}}};
  if (dice_.percent(50)) other.erase("conditions");
  return other;
}

}  // namespace year
