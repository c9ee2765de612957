// Square root, exponential, logarithm and power against known values.
//
// Sources: e is A001113, ln 2 A002162, ln 10 A002392, square root of 2 A002193 of the On-Line Encyclopedia of
// Integer Sequences, each rounded to 34 digits. The other inexact rows are from Python's decimal module
// (libmpdec):
//   python3 -c 'from decimal import *; c=Context(prec=34,Emin=-6143,Emax=6144); print(c.exp(Decimal("10")))'
// with exp, ln, sqrt and power in place of exp.

#include <catch2/catch.hpp>
#include <string>
#include <vector>

#include "engine/decimal.h"

namespace engine {
namespace {

const std::string none = "no value";

std::string text_of(const std::optional<Decimal>& value) {
  return value ? value->text() : none;
}

/// Compares by value, so that an expectation may be written with an exponent.
void check(const std::optional<Decimal>& result, const std::string& expected) {
  CHECK(text_of(result) == (expected == none ? none : text_of(Decimal::parse(expected))));
}

struct Row {
  const char* because;
  const char* argument;
  std::string result;
};

TEST_CASE("square roots are rounded to 34 digits", "[decimal]") {
  const auto row = GENERATE(values<Row>({
      {"a square", "16", "4"},
      {"a square with places", "0.0625", "0.25"},
      {"a square with an odd exponent", "1e3", "31.62277660168379331998893544432719"},
      {"of two, A002193", "2", "1.414213562373095048801688724209698"},
      {"of a half", "0.5", "0.7071067811865475244008443621048490"},
      {"of 34 nines", "9999999999999999999999999999999999", "99999999999999999.99999999999999999"},
      {"of the smallest number", "1e-6176", "1e-3088"},
      {"of a large number", "1e6111", "3.162277660168379331998893544432719e3055"},
      {"of zero", "0", "0"},
      {"of a negative number", "-1", none},
  }));
  INFO(row.because << ": " << row.argument);
  check(square_root(Decimal::parse(row.argument).value()), row.result);
}

TEST_CASE("exponentials are right to 34 digits", "[decimal]") {
  const auto row = GENERATE(values<Row>({
      {"of zero", "0", "1"},
      {"of one, A001113", "1", "2.718281828459045235360287471352662"},
      {"of minus one", "-1", "0.3678794411714423215955237701614609"},
      {"of a half", "0.5", "1.648721270700128146848650787814164"},
      {"of ten", "10", "22026.46579480671651695790064528424"},
      {"of a negative fraction", "-100.25", "2.897198083210147807197361066895866e-44"},
      {"near zero", "1e-33", "1.000000000000000000000000000000001"},
      {"too near zero to differ from one", "-1e-6000", "1"},
      {"just below the largest number", "14149.38", "9.946180862600428374077334706894498e6144"},
      {"just above it", "14149.39", none},
      {"with one digit left", "-14220", "2e-6176"},
      {"too small is zero", "-14222", "0"},
      {"of the largest number", "1e6144", none},
      {"of the most negative number", "-1e6144", "0"},
  }));
  INFO(row.because << ": " << row.argument);
  check(exponential(Decimal::parse(row.argument).value()), row.result);
}

TEST_CASE("logarithms are right to 34 digits", "[decimal]") {
  const auto row = GENERATE(values<Row>({
      {"of one", "1", "0"},
      {"of two, A002162", "2", "0.6931471805599453094172321214581766"},
      {"of ten, A002392", "10", "2.302585092994045684017991454684364"},
      {"of a half", "0.5", "-0.6931471805599453094172321214581766"},
      {"of a hundred", "100", "4.605170185988091368035982909368728"},
      {"just above one", "1.000000000000000000000000000000001", "9.999999999999999999999999999999995e-34"},
      {"just below one", "0.9999999999999999999999999999999999", "-1e-34"},
      {"of the smallest number", "1e-6176", "-14220.76553433122614449511522413063"},
      {"of the largest number", "9999999999999999999999999999999999e6111",
       "14149.38539644841072829055748903542"},
      {"of zero", "0", none},
      {"of a negative number", "-1", none},
  }));
  INFO(row.because << ": " << row.argument);
  check(logarithm(Decimal::parse(row.argument).value()), row.result);
}

TEST_CASE("powers are exact where 34 digits hold them, and otherwise right to 34 digits", "[decimal]") {
  struct Power {
    const char* because;
    const char* base;
    const char* exponent;
    std::string result;
  };
  const auto row = GENERATE(values<Power>({
      {"a whole power", "2", "10", "1024"},
      {"of a negative base, odd", "-1.5", "3", "-3.375"},
      {"of a negative base, even", "-1.5", "2", "2.25"},
      {"a negative exponent", "2", "-3", "0.125"},
      {"a negative exponent with an endless result", "3", "-1", "0.3333333333333333333333333333333333"},
      {"a power that needs all 34 digits", "-3", "71", "-7509466514979724803946715958257547"},
      {"a power that needs more", "1.05", "40", "7.039988712124646244927265263917088"},
      {"a square that is a tie", "100000000000000001.5", "2", "10000000000000000300000000000000002"},
      {"the inverse of a power with more than 34 digits", "0.5", "-100", "1267650600228229401496703205376"},
      {"a root", "2", "0.5", "1.414213562373095048801688724209698"},
      {"a root of a square is exact", "4", "0.5", "2"},
      {"an inverse root", "10", "-0.5", "0.3162277660168379331998893544432719"},
      {"a third is not quite a third", "8", "0.3333333333333333333333333333333333", "2"},
      {"compound growth in the smallest steps", "1.000000000000000000000000000000001", "1e33",
       "2.718281828459045235360287471352661"},
      {"down to the smallest number", "0.1", "6176", "1e-6176"},
      {"below the smallest number", "0.1", "6177", "0"},
      {"up to a large number", "2", "20400", "1.027806938571485995850887636508965e6141"},
      {"beyond the largest number", "2", "20500", none},
      {"beyond the most negative number", "-2", "20501", none},
      {"a huge exponent", "1.5", "1e6000", none},
      {"a huge negative exponent", "1.5", "-1e6000", "0"},
      {"one to any power", "1", "123456789.5", "1"},
      {"minus one to a huge even power", "-1", "1e30", "1"},
      {"minus one to a huge odd power", "-1", "1000000000000000000000000000000001", "-1"},
      {"to the power zero", "7", "0", "1"},
      {"zero to the power zero", "0", "0", "1"},
      {"zero to a positive power", "0", "0.5", "0"},
      {"zero to a negative power", "0", "-1", none},
      {"a root of a negative number", "-8", "0.3333333333333333333333333333333333", none},
  }));
  INFO(row.because << ": " << row.base << " ** " << row.exponent);
  check(power(Decimal::parse(row.base).value(), Decimal::parse(row.exponent).value()), row.result);
}

}  // namespace
}  // namespace engine
