// FEEL by the book: walks the tree and does what docs/feel.md says, with nothing looked up or computed
// beforehand.
//
// Names are looked up by their text each time, constants are made anew, every comparison takes the same way.
// It knows no times, no dates with times, no types and no decision tables. Of the engine it uses the parser,
// the decimals and the calendar, which are checked against other people's elsewhere.

#pragma once

#include <span>
#include <string>

#include "engine/differential/plain_value.h"
#include "syntax/tree.h"

namespace testing {

struct NaiveAnswer {
  Plain value;
  /// Something was noted that is more than a remark or warning. Names that nothing is called do not count:
  /// whether one is noted or is a key that an item lacks is for types to tell.
  bool has_error = false;
  /// A filter of no items has a predicate that is faulty: whether that counts is open.
  bool error_is_open = false;
  /// Types decide what a name in a filter means: one that is a number outside and a key of an item, or one
  /// that is looked for in an item that is null.
  bool value_is_open = false;
};

struct PlainNamed {
  std::string name;
  Plain value;
};

NaiveAnswer evaluate_naively(const engine::Node& tree, std::span<const PlainNamed> scope);
/// Whether `tested` satisfies unary tests: true, false or null.
NaiveAnswer test_naively(const engine::Node& tests, const Plain& tested, std::span<const PlainNamed> scope);

}  // namespace testing
