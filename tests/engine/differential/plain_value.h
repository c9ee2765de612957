// A FEEL value as simply as it can be held: for the naive evaluator, which shares no value code with the
// engine.

#pragma once

#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "engine/value.h"

namespace testing {

struct Plain;
using Items = std::vector<Plain>;
using PlainFunction = std::function<Plain(Items)>;

struct PlainEntry;
struct PlainRange;

/// Only the member of its kind means anything.
struct Plain {
  engine::Kind kind = engine::Kind::null;
  bool truth = false;
  engine::Decimal number;
  std::string text;
  engine::Date date;
  engine::Months months;
  engine::Duration duration;
  Items items;
  std::vector<PlainEntry> entries;
  std::shared_ptr<const PlainRange> range;
  std::shared_ptr<const PlainFunction> function;

  bool is(engine::Kind k) const { return kind == k; }
  bool is_null() const { return kind == engine::Kind::null; }
  bool is_true() const { return kind == engine::Kind::boolean && truth; }
  bool is_false() const { return kind == engine::Kind::boolean && !truth; }
};

struct PlainEntry {
  std::string first;
  Plain second;
};

/// An end that is null is absent where `operation` is that of `(< 10)`.
struct PlainRange {
  Plain start, end;
  bool start_included = false, end_included = false;
  std::string operation;  ///< `<` of `(< 10)`; empty for `[1..2]`.
};

Plain plain(bool truth);
Plain plain(const engine::Decimal& number);
Plain plain(const char* text) = delete;
Plain plain(std::string text);
Plain plain(const engine::Date& date);
Plain plain(engine::Months months);
Plain plain(engine::Duration duration);
Plain plain_list(Items items);

/// The engine's value, taken apart.
Plain plain(const engine::Value& value);

/// Equal texts are equal values of the same type. All functions look alike.
std::string text_of(const Plain& value);

}  // namespace testing
