// FEEL numbers against the rules of IEEE 754-2008 decimal128 and against values from outside.
//
// Outside sources: Python's decimal module (libmpdec), the context that each table names being
//   python3 -c 'from decimal import *; c=Context(prec=34,Emin=-6143,Emax=6144);
//   print(c.divide(Decimal(1),Decimal(3)))'
// and for constants the On-Line Encyclopedia of Integer Sequences (A001113: e, A002162: ln 2, A002392: ln 10,
// A002193: square root of 2, A010767 and its kin for roots).

#include "engine/decimal.h"

#include <catch2/catch.hpp>
#include <string>
#include <vector>

namespace engine {
namespace {

const std::string nines = std::string(34, '9');
const std::string largest = nines + "e6111";
const std::string none = "no value";

Decimal number(const std::string& text) {
  const auto value = Decimal::parse(text);
  if (!value) FAIL("not a number: " << text);
  return *value;
}

std::string text_of(const std::optional<Decimal>& value) {
  return value ? value->text() : none;
}

/// Compares by value, so that an expectation may be written with an exponent.
void check(const std::optional<Decimal>& result, const std::string& expected) {
  CHECK(text_of(result) == (expected == none ? none : number(expected).text()));
}

struct Sum {
  const char* because;
  std::string left;
  std::string right;
  std::string result;
};

using Operation = std::optional<Decimal> (*)(const Decimal&, const Decimal&);

void check_rows(Operation operation, const std::vector<Sum>& rows) {
  for (const Sum& row : rows) {
    INFO(row.because << ": " << row.left << " and " << row.right);
    check(operation(number(row.left), number(row.right)), row.result);
  }
}

struct Reading {
  const char* because;
  std::string text;
  std::string shown;
};

TEST_CASE("a decimal is read and shown in plain digits", "[decimal]") {
  const auto row = GENERATE(values<Reading>({
      {"a whole number", "42", "42"},
      {"zeros in front do not count", "0007", "7"},
      {"zeros after the point are not shown", "2.500", "2.5"},
      {"nor is a point with nothing after it", "5.00", "5"},
      {"the digit before the point may be left out", ".5", "0.5"},
      {"also in a negative number", "-.25", "-0.25"},
      {"minus zero is zero", "-0", "0"},
      {"so is minus zero with places", "-0.00", "0"},
      {"an exponent moves the point", "1.23e4", "12300"},
      {"to the left as well", "123E-5", "0.00123"},
      {"an exponent may have a plus sign", "1e+3", "1000"},
      {"digits beyond int64 are kept", "12345678901234567890123456789", "12345678901234567890123456789"},
      {"34 digits are kept", "1234567890123456789.012345678901234", "1234567890123456789.012345678901234"},
      {"the 35th digit rounds", "1.2345678901234567890123456789012347",
       "1.234567890123456789012345678901235"},
      {"a tie goes to the even digit below", "10000000000000000000000000000000025e-1",
       "1000000000000000000000000000000002"},
      {"a tie goes to the even digit above", "10000000000000000000000000000000035e-1",
       "1000000000000000000000000000000004"},
      {"a digit far behind breaks the tie",
       "1.0000000000000000000000000000000005000000000000000000000000000000000000001",
       "1.000000000000000000000000000000001"},
      {"34 nines and a half round up to a power of ten", nines + ".5", "1" + std::string(34, '0')},
      {"too many zeros for the exponent alone", std::string(7000, '0') + "1", "1"},
      {"a long fraction that the exponent undoes", "0." + std::string(7000, '0') + "1e7001", "1"},
      {"below half of the smallest is zero", "1e-6177", "0"},
      {"half of the smallest is zero, which is even", "5e-6177", "0"},
      {"more than half of the smallest is the smallest", "51e-6178", "0." + std::string(6175, '0') + "1"},
      {"far too small is zero", "1e-99999999999999999999", "0"},
      {"zero with any exponent is zero", "0e99999999999999999999", "0"},
      {"the largest exponent with zeros moved in", "1e6144", "1" + std::string(6144, '0')},
      {"the largest number", largest, nines + std::string(6111, '0')},
  }));
  INFO(row.because << ": " << row.text.substr(0, 80));
  CHECK(text_of(Decimal::parse(row.text)) == row.shown);
}

TEST_CASE("what is no number has no value", "[decimal]") {
  struct Row {
    const char* because;
    std::string text;
  };
  const auto row = GENERATE(values<Row>({
      {"nothing at all", ""},
      {"a sign alone", "-"},
      {"a plus sign is no part of a number", "+1"},
      {"two signs", "--1"},
      {"a point alone", "."},
      {"a point at the end", "5."},
      {"two points", "1.2.3"},
      {"a space in front", " 1"},
      {"a space behind", "1 "},
      {"a comma", "1,5"},
      {"letters", "NaN"},
      {"an infinity", "Infinity"},
      {"an exponent without digits", "1e"},
      {"an exponent with a sign only", "1e-"},
      {"an exponent with a fraction", "1e1.5"},
      {"an exponent without a number", "e5"},
      {"hexadecimal", "0x10"},
      {"too large by its exponent", "1e6145"},
      {"too large by rounding", nines + "5e6110"},
      {"an exponent beyond int64", "1e99999999999999999999"},
  }));
  INFO(row.because << ": " << row.text);
  CHECK_FALSE(Decimal::parse(row.text).has_value());
}

TEST_CASE("decimals compare by value", "[decimal]") {
  struct Row {
    const char* because;
    std::string left;
    std::string right;
    int order;
  };
  const auto row = GENERATE(values<Row>({
      {"equal whole numbers", "5", "5", 0},
      {"the order of whole numbers", "-3", "2", -1},
      {"the larger magnitude is the smaller of two negatives", "-3", "-2", -1},
      {"a fraction against a whole number", "1.5", "1", 1},
      {"a thousand written two ways", "1e3", "1000", 0},
      {"a difference in the 34th digit", nines, nines.substr(1) + "8", 1},
      {"equal in 34 digits and different exponents", "1e33", "1" + std::string(33, '0') + ".0", 0},
      {"exponents far apart", "1e-6000", "1e6000", -1},
      {"zero and the smallest", "0", "1e-6176", -1},
      {"zero and the smallest negative", "0", "-1e-6176", 1},
      {"opposite signs of one magnitude", "7", "-7", 1},
  }));
  INFO(row.because << ": " << row.left << " and " << row.right);
  const Decimal left = number(row.left);
  const Decimal right = number(row.right);
  CHECK((left <=> right) == (row.order <=> 0));
  CHECK((right <=> left) == (0 <=> row.order));
  CHECK((left == right) == (row.order == 0));
}

TEST_CASE("forms of one value are equal and unequal values are not", "[decimal]") {
  CHECK(Decimal{5} == Decimal::of(500, -2));
  CHECK(Decimal{0}.negated() == Decimal{0});
  CHECK(Decimal::of(0, 40) == Decimal::of(0, -40));
  CHECK_FALSE(Decimal{0}.negated().is_negative());
  CHECK(Decimal::of(1, 18) == Decimal{1'000'000'000'000'000'000});
  CHECK(Decimal::of(1, 19) > Decimal{INT64_MAX});
  CHECK(Decimal{INT64_MIN} < Decimal{-INT64_MAX});
  CHECK(Decimal{INT64_MIN}.text() == "-9223372036854775808");
}

TEST_CASE("sums round half to even at 34 digits", "[decimal]") {
  check_rows(add,
             {
                 {"whole numbers", "2", "3", "5"},
                 {"tenths are exact", "0.1", "0.2", "0.3"},
                 {"different exponents", "100", "0.25", "100.25"},
                 {"opposite numbers give zero", "1.5", "-1.5", "0"},
                 {"a carry past int64", "9223372036854775807", "1", "9223372036854775808"},
                 {"a tie stays with the even digit", "1000000000000000000000000000000002", "0.5",
                  "1000000000000000000000000000000002"},
                 {"a tie leaves the odd digit", "1000000000000000000000000000000003", "0.5",
                  "1000000000000000000000000000000004"},
                 {"a trace above the tie", "1000000000000000000000000000000002", "0.5000000001",
                  "1000000000000000000000000000000003"},
                 {"a trace below the tie", "1000000000000000000000000000000003", "0.4999999999",
                  "1000000000000000000000000000000003"},
                 {"carry into a 35th digit", nines, "1", "1e34"},
                 {"a trace is lost", "1", "1e-100", "1"},
                 {"a negative trace below a power of ten is lost as well", "1e6000", "-1e-6000", "1e6000"},
                 {"a trace taken from a power of ten that shows", "1", "-1e-34", "0." + nines},
                 {"a half of that is a tie, and the power of ten is even", "1", "-5e-35", "1"},
                 {"the largest and half a unit is too large", largest, "5e6110", none},
                 {"the largest and less than half a unit is the largest", largest, "4.9e6110", largest},
                 {"numbers too small for 34 digits are exact", "1e-6176", "2e-6176", "3e-6176"},
             });
}

TEST_CASE("differences round half to even at 34 digits", "[decimal]") {
  check_rows(subtract, {
                           {"whole numbers", "2", "3", "-1"},
                           {"tenths are exact", "0.3", "0.1", "0.2"},
                           {"cancellation is exact", "1.000000000000000000000000000000001", "1", "1e-33"},
                           {"zero minus a number", "0", "1e-50", "-1e-50"},
                           {"beyond the most negative number", "-" + largest, largest, none},
                       });
}

TEST_CASE("products round half to even at 34 digits", "[decimal]") {
  check_rows(
      multiply,
      {
          {"whole numbers", "6", "7", "42"},
          {"fractions", "1.5", "-1.5", "-2.25"},
          {"a third three times is not one", "0.3333333333333333333333333333333333", "3", "0." + nines},
          {"past int64", "9223372036854775807", "9223372036854775807",
           "85070591730234615847396907784232501249"},
          {"34 nines squared", nines, nines, "9.999999999999999999999999999999998e67"},
          {"a tie stays with the even digit", "2000000000000000000000000000000001", "2.5",
           "5000000000000000000000000000000002"},
          {"a tie leaves the odd digit", "2000000000000000000000000000000003", "2.5",
           "5000000000000000000000000000000008"},
          {"too large", "1e4000", "1e4000", none},
          {"just not too large", "1e4000", "1e2144", "1e6144"},
          {"too small is zero", "1e-4000", "1e-4000", "0"},
          {"half of the smallest is zero", "1e-6176", "0.5", "0"},
          {"one and a half of the smallest is twice the smallest", "1e-6176", "1.5", "2e-6176"},
          {"zero times the largest", "0", largest, "0"},
      });
}

TEST_CASE("quotients round half to even at 34 digits", "[decimal]") {
  check_rows(divide, {
                         {"a whole quotient", "6", "2", "3"},
                         {"a quarter", "1", "4", "0.25"},
                         {"a third", "1", "3", "0.3333333333333333333333333333333333"},
                         {"two thirds round up", "2", "3", "0.6666666666666666666666666666666667"},
                         {"a negative quotient", "-7", "2", "-3.5"},
                         {"of fractions", "3", "1.5", "2"},
                         {"by 34 digits", "1", nines, "1.000000000000000000000000000000000e-34"},
                         {"nothing by something", "0", "5", "0"},
                         {"by zero", "5", "0", none},
                         {"zero by zero", "0", "0", none},
                         {"too large", "1e6000", "1e-6000", none},
                         {"too small is zero", "1e-6000", "1e6000", "0"},
                         {"a half that 34 digits hold", "1000000000000000000000000000000005", "2",
                          "500000000000000000000000000000002.5"},
                         {"a tie stays with the even digit", "3000000000000000000000000000000001", "2",
                          "1500000000000000000000000000000000"},
                         {"a tie leaves the odd digit", "3000000000000000000000000000000003", "2",
                          "1500000000000000000000000000000002"},
                     });
}

TEST_CASE("whole results have exponent 0, so that they keep the small form", "[decimal]") {
  const auto exponent_of = [](const std::optional<Decimal>& value) { return value.value().exponent(); };
  CHECK(exponent_of(divide(6, 2)) == 0);
  CHECK(exponent_of(divide(600, 2)) == 0);
  CHECK(exponent_of(divide(number("7.5"), number("2.5"))) == 0);
  CHECK(exponent_of(divide(Decimal::of(9, 5), 3)) == 0);
  CHECK(exponent_of(number("5.00")) == 0);
  CHECK(exponent_of(number("12e3")) == 0);
  CHECK(exponent_of(round(1234, -2, Rounding::half_even)) == 0);
  CHECK(exponent_of(square_root(16)) == 0);
  CHECK(exponent_of(power(2, 10)) == 0);
  CHECK(divide(1, 8).value().is_small());
  CHECK(number("1e30").is_small());
  CHECK_FALSE(divide(1, 3).value().is_small());
}

TEST_CASE("modulo has the sign of the divisor", "[decimal]") {
  check_rows(modulo, {
                         {"both positive", "12", "5", "2"},
                         {"negative dividend", "-12", "5", "3"},
                         {"negative divisor", "12", "-5", "-3"},
                         {"both negative", "-12", "-5", "-2"},
                         {"fractions", "10.1", "4.5", "1.1"},
                         {"fractions, negative dividend", "-10.1", "4.5", "3.4"},
                         {"fractions, negative divisor", "10.1", "-4.5", "-3.4"},
                         {"both negative fractions", "-10.1", "-4.5", "-1.1"},
                         {"nothing left", "10", "2.5", "0"},
                         {"of zero", "0", "7", "0"},
                         {"by zero", "7", "0", none},
                         // python3 -c 'print(10**6000 % 7, (10**33+1)*10**20 % (10**33+7))'
                         {"a huge dividend", "1e6000", "7", "1"},
                         {"34 digits on both sides", "1000000000000000000000000000000001e20",
                          "1000000000000000000000000000000007", "999999999999400000000000000000007"},
                         {"a dividend far below the divisor", "1e-6000", "5", "1e-6000"},
                         {"the same with another sign is the divisor, rounded", "-1e-6000", "5", "5"},
                     });
}

TEST_CASE("rounding follows its mode at any scale", "[decimal]") {
  struct Row {
    const char* because;
    Rounding mode;
    std::string value;
    std::int64_t scale;
    std::string result;
  };
  const auto row = GENERATE(values<Row>({
      {"half even goes down to 2", Rounding::half_even, "2.5", 0, "2"},
      {"half even goes up to 4", Rounding::half_even, "3.5", 0, "4"},
      {"half even with a trace more", Rounding::half_even, "2.5000000000000000000001", 0, "3"},
      {"half even of a negative", Rounding::half_even, "-2.5", 0, "-2"},
      {"half up goes away from zero", Rounding::half_up, "-2.5", 0, "-3"},
      {"half down goes toward zero", Rounding::half_down, "-2.5", 0, "-2"},
      {"half down with a trace more", Rounding::half_down, "2.51", 0, "3"},
      {"up goes away from zero", Rounding::up, "-1.01", 0, "-2"},
      {"up leaves what is exact", Rounding::up, "-1.00", 0, "-1"},
      {"down goes toward zero", Rounding::down, "-1.99", 0, "-1"},
      {"floor goes down", Rounding::floor, "-1.01", 0, "-2"},
      {"floor of a positive", Rounding::floor, "1.99", 0, "1"},
      {"ceiling goes up", Rounding::ceiling, "1.01", 0, "2"},
      {"ceiling of a negative fraction is zero", Rounding::ceiling, "-0.5", 0, "0"},
      {"at two places", Rounding::half_up, "1.005", 2, "1.01"},
      {"at hundreds", Rounding::half_even, "1250", -2, "1200"},
      {"at more places than there are", Rounding::half_even, "1.5", 10, "1.5"},
      {"all digits cut off", Rounding::half_even, "0.04", 0, "0"},
      {"all digits cut off, away from zero", Rounding::up, "0.04", 0, "1"},
      {"far above all digits", Rounding::ceiling, "1e-6176", -6111, "1e6111"},
      {"far above all digits, half up", Rounding::half_up, nines, -6111, "0"},
      {"exactly half of the lowest place kept", Rounding::half_up, "5e33", -34, "1e34"},
      {"34 digits", Rounding::half_even, "12345678901234567.89012345678901250", 10,
       "12345678901234567.8901234568"},
      {"a number with 34 nines", Rounding::half_even, nines + "e-1", 0, "1e33"},
      {"the largest scale", Rounding::half_even, "1e-6176", 6176, "1e-6176"},
      {"a scale too large", Rounding::half_even, "1", 6177, none},
      {"a scale too small", Rounding::half_even, "1", -6112, none},
  }));
  INFO(row.because << ": " << row.value << " at scale " << row.scale);
  check(round(number(row.value), row.scale, row.mode), row.result);
}

TEST_CASE("decimals become int64 where they fit", "[decimal]") {
  struct Row {
    const char* because;
    std::string value;
    std::optional<std::int64_t> exact;
    std::optional<std::int64_t> cut;
  };
  const auto row = GENERATE(values<Row>({
      {"a whole number", "-17", -17, -17},
      {"a fraction is cut toward zero", "-17.9", std::nullopt, -17},
      {"whole in another form", "1e18", 1'000'000'000'000'000'000, 1'000'000'000'000'000'000},
      {"the largest", "9223372036854775807", INT64_MAX, INT64_MAX},
      {"one more", "9223372036854775808", std::nullopt, std::nullopt},
      {"the smallest", "-9223372036854775808", INT64_MIN, INT64_MIN},
      {"one less", "-9223372036854775809", std::nullopt, std::nullopt},
      {"the largest and a fraction", "9223372036854775807.9", std::nullopt, INT64_MAX},
      {"far too large", "1e6000", std::nullopt, std::nullopt},
      {"tiny", "1e-6000", std::nullopt, 0},
      {"zero", "0", 0, 0},
  }));
  INFO(row.because << ": " << row.value);
  CHECK(number(row.value).to_int64() == row.exact);
  CHECK(number(row.value).truncated_to_int64() == row.cut);
  const bool whole =
      row.exact.has_value() || number(row.value) == round(number(row.value), 0, Rounding::down);
  CHECK(number(row.value).is_integer() == whole);
}

}  // namespace
}  // namespace engine
