#include <bit>
#include <catch2/catch.hpp>
#include <charconv>
#include <cmath>
#include <fstream>
#include <nlohmann/json.hpp>
#include <random>
#include <sstream>

#include "canonical/canonical_parts.h"
#include "engine/canonical.h"
#include "support/shell.h"
#include "support/temporary_folder.h"

namespace engine {
namespace {

std::string printed(double value) {
  std::string out;
  append_json_number(out, value);
  return out;
}

// Source: RFC 8785, appendix B, "Number Serialization Samples".
TEST_CASE("numbers are printed as the samples of RFC 8785 are", "[canonical]") {
  struct Row {
    const char* because;
    std::uint64_t bits;
    const char* text;
  };
  const auto row = GENERATE(values<Row>({
      {"zero", 0x0000000000000000, "0"},
      {"minus zero", 0x8000000000000000, "0"},
      {"least positive number", 0x0000000000000001, "5e-324"},
      {"greatest negative number", 0x8000000000000001, "-5e-324"},
      {"greatest positive number", 0x7fefffffffffffff, "1.7976931348623157e+308"},
      {"least negative number", 0xffefffffffffffff, "-1.7976931348623157e+308"},
      {"greatest exact integer", 0x4340000000000000, "9007199254740992"},
      {"its negative", 0xc340000000000000, "-9007199254740992"},
      {"about 2 to the 68", 0x4430000000000000, "295147905179352830000"},
      {"just under 1e+23", 0x44b52d02c7e14af5, "9.999999999999997e+22"},
      {"1e+23", 0x44b52d02c7e14af6, "1e+23"},
      {"just over 1e+23", 0x44b52d02c7e14af7, "1.0000000000000001e+23"},
      {"last without exponent but two", 0x444b1ae4d6e2ef4e, "999999999999999700000"},
      {"last without exponent", 0x444b1ae4d6e2ef4f, "999999999999999900000"},
      {"first with exponent", 0x444b1ae4d6e2ef50, "1e+21"},
      {"last small one with exponent", 0x3eb0c6f7a0b5ed8c, "9.999999999999997e-7"},
      {"first small one without exponent", 0x3eb0c6f7a0b5ed8d, "0.000001"},
      {"thirds, 1", 0x41b3de4355555553, "333333333.3333332"},
      {"thirds, 2", 0x41b3de4355555554, "333333333.33333325"},
      {"thirds, 3", 0x41b3de4355555555, "333333333.3333333"},
      {"thirds, 4", 0x41b3de4355555556, "333333333.3333334"},
      {"thirds, 5", 0x41b3de4355555557, "333333333.33333343"},
      {"a small negative number", 0xbecbf647612f3696, "-0.0000033333333333333333"},
      {"round to even", 0x43143ff3c1cb0959, "1424953923781206.2"},
  }));
  INFO(row.because);
  CHECK(printed(std::bit_cast<double>(row.bits)) == row.text);
}

TEST_CASE("a whole number beyond the exact ones is printed as the double nearest to it", "[canonical]") {
  CHECK(canonical_json(9'007'199'254'740'991) == "9007199254740991");
  CHECK(canonical_json(9'007'199'254'740'993) == "9007199254740992");
  CHECK(canonical_json(-9'007'199'254'740'993) == "-9007199254740992");
  CHECK(canonical_json(std::uint64_t{18'446'744'073'709'551'615U}) == "18446744073709552000");
}

// Outside check: JSON.stringify of Node.js, an ECMAScript engine.
TEST_CASE("any number is printed as ECMAScript prints it", "[canonical]") {
  std::mt19937_64 random(8785);
  std::vector<double> numbers;
  while (numbers.size() < 10'000) {
    // Half of them any bits at all, half decimals of a few digits, as people write them.
    const double number = numbers.size() % 2 == 0
                              ? std::bit_cast<double>(random())
                              : static_cast<double>(random() % 1'000'000) / std::pow(10, random() % 12);
    if (std::isfinite(number)) numbers.push_back(number);
  }
  const support::TemporaryFolder folder;
  const std::string path = folder.file("numbers.json");
  std::ofstream file(path);
  file << "[0";
  for (const double number : numbers) file << ",\"" << std::bit_cast<std::uint64_t>(number) << '"';
  file << "]";
  file.close();
  const support::ShellResult node = support::shell(
      "node -e \"const view = new DataView(new ArrayBuffer(8));"
      "for (const bits of JSON.parse(require('fs').readFileSync('" +
      path +
      "')).slice(1)) {"
      "view.setBigUint64(0, BigInt(bits)); console.log(JSON.stringify(view.getFloat64(0)));}\" 2>&1");
  if (node.exit_code != 0) {
    WARN("skipped: Node.js cannot be run here");
    return;
  }
  std::istringstream lines(node.printed);
  std::string line;
  for (const double number : numbers) {
    REQUIRE(std::getline(lines, line));
    REQUIRE(printed(number) == line);
  }
}

TEST_CASE("a printed number is read back as the same number", "[canonical]") {
  std::mt19937_64 random(1);
  for (int i = 0; i < 10'000; ++i) {
    const double number = std::bit_cast<double>(random());
    if (!std::isfinite(number)) continue;
    const std::string text = printed(number);
    double back = 0;
    std::from_chars(text.data(), text.data() + text.size(), back);
    REQUIRE(back == number);
  }
}

}  // namespace
}  // namespace engine
