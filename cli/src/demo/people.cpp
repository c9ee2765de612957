#include "demo/people.h"

namespace cli {

namespace {

constexpr const char* families[] = {
    "Abelwood",   "Arkley",     "Bramwith",   "Brindleford", "Calderby",     "Cotterhall", "Dallimoor",
    "Dunnersby",  "Elmsgarth",  "Fairholt",   "Fennimoor",   "Garthside",    "Hallibrook", "Harrowden",
    "Ingleworth", "Kettlemoor", "Lambrook",   "Larkhill",    "Merrowby",     "Millerdale", "Netherwood",
    "Oakhampton", "Okonwara",   "Patelhar",   "Penrosel",    "Quillfeather", "Ravensby",   "Rowantree",
    "Sandiford",  "Shahzar",    "Stonegrave", "Tallisford",  "Thornaby",     "Underhay",   "Vellacourt",
    "Wetherfold", "Winterslow", "Yarrowdale"};
constexpr const char* women[] = {"Ada",   "Amira", "Beatrice", "Chidi", "Dorothy", "Elaine",  "Fatima",
                                 "Grace", "Hazel", "Irene",    "Joan",  "Kamala",  "Lydia",   "Mavis",
                                 "Nadia", "Olive", "Priya",    "Rosa",  "Sheila",  "Winifred"};
constexpr const char* men[] = {"Albert", "Anil",   "Bernard", "Cedric", "Desmond", "Edwin",   "Farid",
                               "Gordon", "Harold", "Ivor",    "Jamal",  "Kenneth", "Leonard", "Mohan",
                               "Norman", "Omar",   "Percy",   "Ronald", "Samir",   "Walter"};

}  // namespace

std::string test_nhs_number(int serial) {
  std::string digits = std::to_string(999'000'000 + serial);
  int sum = 0;
  for (int i = 0; i < 9; ++i) sum += (digits[static_cast<std::size_t>(i)] - '0') * (10 - i);
  const int check = (11 - sum % 11) % 11;
  if (check == 10) return "";
  digits += static_cast<char>('0' + check);
  return digits.substr(0, 3) + " " + digits.substr(3, 3) + " " + digits.substr(6);
}

nlohmann::json People::next(int age, const engine::Date& day) {
  std::string number;
  while (number.empty()) number = test_nhs_number(serial_++);
  const bool is_woman = dice_.between(0, 1) == 0;
  engine::Date born = *engine::add(day, engine::Months{-12 * age - dice_.between(1, 11)});
  born.day = static_cast<std::uint8_t>(dice_.between(1, 28));
  return {{"identifiers",
           {{{"system", "nhs-number"}, {"value", number}},
            {{"system", "hospital-number"}, {"value", "H" + std::to_string(hospital_number_++)}}}},
          {"name",
           {{"family", dice_.one_of(families)},
            {"given", is_woman ? dice_.one_of(women) : dice_.one_of(men)},
            {"prefix", is_woman ? "Mrs" : "Mr"}}},
          {"birth_date", engine::text_of(born)},
          {"sex", is_woman ? "female" : "male"}};
}

}  // namespace cli
