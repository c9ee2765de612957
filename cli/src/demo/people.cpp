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

constexpr const char* streets[] = {"Mill Lane", "Weir Street", "Larch Close", "Station Road", "Upper Green"};
constexpr const char* towns[] = {"Ambleworth", "Coldford", "Netherby St Mary"};
struct Practice {
  const char *doctor, *name, *street;
};
constexpr Practice practices[] = {{"Dr F. Aldous", "Mill Lane Surgery", "3 Mill Lane"},
                                  {"Dr N. Oyelaran", "Weirside Medical Centre", "40 Weir Street"},
                                  {"Dr P. Quayle", "The Old Bakery Practice", "12 Station Road"}};
struct Flag {
  const char *flag, *source;
};
constexpr Flag flags[] = {{"anticoagulant", "pre-assessment"},
                          {"diabetes", "family doctor"},
                          {"interpreter: Polish", "referral letter"},
                          {"mobility: needs a hoist", "ward"},
                          {"pacemaker", "cardiology letter"}};

// What follows is dealt out by the person's number instead of thrown, so that nothing else of the unit
// changes.

// 01632 960000 to 960999 is kept for drama and given to no one. Source: Ofcom, telephone numbers for use in
// drama, from memory.
std::string test_telephone(int number) {
  const std::string digits = std::to_string(number % 1000);
  return "01632 960" + std::string(3 - digits.size(), '0') + digits;
}

template <class T, std::size_t n>
const T& dealt(const T (&items)[n], int number) {
  return items[static_cast<std::size_t>(number) % n];
}

// One in twelve has told the unit nothing.
void add_contact(nlohmann::json& patient, int number) {
  if (number % 12 == 0) return;
  const std::string town = dealt(towns, number / 5);
  patient["contact"] = {{"telephone", test_telephone(number)},
                        {"address", {std::to_string(number % 90 + 1) + " " + dealt(streets, number), town}}};
  if (number % 3 == 0) patient["contact"]["email"] = "h" + std::to_string(number) + "@example.org";
  const Practice& practice = dealt(practices, number / 5);
  patient["family_doctor"] = {
      {"name", practice.doctor}, {"practice", practice.name}, {"address", {practice.street, town}}};
}

// One in four needs something.
void add_needs(nlohmann::json& patient, int number, const engine::Date& day) {
  if (number % 4 != 0) return;
  const Flag& need = dealt(flags, number / 4);
  const engine::Date since = *engine::add(day, engine::Months{-number % 30 - 1});
  patient["needs"] = {{{"flag", need.flag}, {"since", engine::text_of(since)}, {"source", need.source}}};
}

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
  const int hospital_number = hospital_number_++;
  nlohmann::json patient = {
      {"identifiers",
       {{{"system", "nhs-number"}, {"value", number}},
        {{"system", "hospital-number"}, {"value", "H" + std::to_string(hospital_number)}}}},
      {"name",
       {{"family", dice_.one_of(families)},
        {"given", is_woman ? dice_.one_of(women) : dice_.one_of(men)},
        {"prefix", is_woman ? "Mrs" : "Mr"}}},
      {"birth_date", engine::text_of(born)},
      {"sex", is_woman ? "female" : "male"}};
  add_contact(patient, hospital_number);
  add_needs(patient, hospital_number, day);
  return patient;
}

}  // namespace cli
