#include <catch2/catch.hpp>
#include <fstream>
#include <random>
#include <sstream>

#include "engine/record.h"
#include "support/shell.h"
#include "support/temporary_folder.h"

namespace engine {
namespace {

// Source: NHS Data Dictionary, NHS NUMBER (modulus 11). 943 476 5919 is the usual published example; 999
// numbers are never issued.
TEST_CASE("an NHS number has ten digits and the right check digit", "[record]") {
  struct Row {
    const char* because;
    const char* digits;
    bool right;
  };
  const auto row = GENERATE(values<Row>({
      {"the usual example", "9434765919", true},
      {"with spaces", "943 476 5919", true},
      {"with hyphens", "943-476-5919", true},
      {"a digit changed", "943 476 5918", false},
      {"two digits swapped", "943 467 5919", false},
      {"a test number", "999 000 0018", true},
      {"a check digit of 11 stands for 0", "999 000 0050", true},
      {"a check digit of 10 is none", "999 000 0000", false},
      {"nine digits", "943 476 591", false},
      {"eleven digits", "943 476 5919 0", false},
      {"a letter", "943 476 591O", false},
      {"nothing", "", false},
      {"all digits equal pass the sum, and are never issued", "000 000 0000", false},
      {"all digits equal", "1111111111", false},
  }));
  INFO(row.because << ": " << row.digits);
  CHECK(is_nhs_number(row.digits) == row.right);
}

// Outside check: Debian's python3-stdnum, module stdnum.gb.nhs, which the system's own python3 finds. It
// takes numbers of ten equal digits, which are left out here.
TEST_CASE("the check digit is what stdnum finds", "[record]") {
  std::mt19937 random(999);
  std::vector<std::string> numbers;
  while (numbers.size() < 10'000) {
    std::string number(10, '0');
    for (char& digit : number) digit = static_cast<char>('0' + random() % 10);
    if (number.find_first_not_of(number[0]) != std::string::npos) numbers.push_back(number);
  }
  const support::TemporaryFolder folder;
  const std::string path = folder.file("numbers");
  std::ofstream file(path);
  for (const std::string& number : numbers) file << number << '\n';
  file.close();
  const support::ShellResult stdnum =
      support::shell("/usr/bin/python3 -c \"from stdnum.gb import nhs\nfor n in open('" + path +
                     "'): print(int(nhs.is_valid(n.strip())))\" 2>/dev/null");
  if (stdnum.exit_code != 0) {
    WARN("skipped: python3-stdnum is not here");
    return;
  }
  std::istringstream verdicts(stdnum.printed);
  std::size_t right = 0;
  for (const std::string& number : numbers) {
    int verdict = -1;
    verdicts >> verdict;
    INFO(number);
    REQUIRE(is_nhs_number(number) == (verdict == 1));
    right += verdict == 1 ? 1 : 0;
  }
  CHECK(right > 500);  // about one in eleven
}

}  // namespace
}  // namespace engine
