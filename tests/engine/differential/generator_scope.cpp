// The values that random expressions speak of.

#include "engine/differential/expression_generator.h"

namespace testing {

namespace {

using engine::Kind;

Plain whole(int number) {
  return plain(engine::Decimal(number));
}
Plain context(std::vector<PlainEntry> entries) {
  Plain value;
  value.kind = Kind::context;
  value.entries = std::move(entries);
  return value;
}
// Its keys `n` and `s` hide the outer names; `size mm` has a space.
Plain lesion(int size, std::string s, int n, bool flat) {
  return context(
      {{"size mm", whole(size)}, {"s", plain(std::move(s))}, {"n", whole(n)}, {"flat", plain(flat)}});
}

const std::vector<PlainNamed>& names() {
  static const std::vector<PlainNamed> all = {
      {"n", whole(3)},
      {"m", whole(-2)},
      {"days in weekend", whole(2)},
      {"ratio", plain(*engine::Decimal::parse("0.75"))},
      {"s", plain(std::string("rectum"))},
      {"site name", plain(std::string("sigmoid colon"))},
      {"yes", plain(true)},
      {"is flat", plain(false)},
      {"nothing", Plain()},
      {"today", plain(engine::Date{2024, 2, 29})},
      {"seen on", plain(engine::Date{2024, 1, 31})},
      {"interval", plain(engine::Months{36})},
      {"wait", plain(engine::Duration{14 * 86400, 0})},
      {"ns", plain_list({whole(3), whole(1), whole(2), whole(3)})},
      {"none", plain_list({})},
      {"words", plain_list({plain(std::string("rectum")), plain(std::string("caecum"))})},
      {"person", context({{"age", whole(64)}, {"name", plain(std::string("Ada"))}, {"n", whole(7)}})},
      {"lesions", plain_list({lesion(12, "rectum", 1, true), lesion(4, "caecum", 2, false),
                              lesion(10, "rectum", 1, false)})},
      {"mixed", plain_list({context({{"n", whole(1)}}), context({{"s", plain(std::string("caecum"))}}),
                            Plain(), context({{"n", whole(5)}, {"flat", plain(true)}})})},
  };
  return all;
}

}  // namespace

std::span<const PlainNamed> ExpressionGenerator::scope() {
  return names();
}

}  // namespace testing
