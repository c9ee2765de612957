#include "evaluate/column_index.h"

#include <algorithm>
#include <string>

#include "evaluate/numbers_around.h"

namespace engine {

namespace {

struct Landmarks {
  std::vector<std::string_view> strings;
  std::vector<Decimal> numbers;
  bool has_booleans = false;
  bool has_others = false;
};

Landmarks landmarks_of(const std::vector<const Test*>& cells) {
  std::vector<Value> constants;
  for (const Test* cell : cells) {
    if (cell) cell->add_constants(constants);
  }
  Landmarks found;
  for (const Value& constant : constants) {
    if (constant.is(Kind::string))
      found.strings.push_back(constant.string());
    else if (constant.is(Kind::number))
      found.numbers.push_back(constant.number());
    else if (constant.is(Kind::boolean))
      found.has_booleans = true;
    else
      found.has_others = true;
  }
  const auto tidy = [](auto& values) {
    std::sort(values.begin(), values.end());
    values.erase(std::unique(values.begin(), values.end()), values.end());
  };
  tidy(found.strings);
  tidy(found.numbers);
  return found;
}

/// A value for each mask of the index, in the order of position().
std::optional<std::vector<Value>> probes_of(const Landmarks& landmarks, std::string_view none_of_the_strings,
                                            Arena& arena) {
  std::vector<Value> probes;
  for (const std::string_view text : landmarks.strings) probes.push_back(Value::string(text));
  if (!landmarks.strings.empty()) probes.push_back(Value::string(none_of_the_strings));
  const auto numbers = numbers_around(landmarks.numbers);
  if (!numbers) return std::nullopt;
  for (const Decimal& number : *numbers) probes.push_back(Value::number(number, arena));
  if (landmarks.has_booleans) probes.insert(probes.end(), {Value::of(false), Value::of(true)});
  return probes;
}

}  // namespace

std::optional<ColumnIndex> ColumnIndex::of(const std::vector<const Test*>& cells) {
  const Landmarks landmarks = landmarks_of(cells);
  const int kinds = !landmarks.strings.empty() + !landmarks.numbers.empty() + landmarks.has_booleans;
  if (kinds != 1 || landmarks.has_others) return std::nullopt;
  ColumnIndex index;
  index.kind_ = landmarks.has_booleans      ? Kind::boolean
                : landmarks.numbers.empty() ? Kind::string
                                            : Kind::number;
  index.words_ = (cells.size() + 63) / 64;
  const std::string none = landmarks.strings.empty() ? "" : std::string(landmarks.strings.back()) + "\x01";
  Arena arena;
  const auto probes = probes_of(landmarks, none, arena);
  if (!probes) return std::nullopt;
  for (const Value& probe : *probes) {
    const std::size_t mask = index.masks_.size();
    index.masks_.resize(mask + index.words_);
    for (std::size_t rule = 0; rule < cells.size(); ++rule) {
      const auto accepted = cells[rule] ? cells[rule]->by_constants(probe) : Logic::yes;
      if (!accepted) return std::nullopt;
      if (*accepted == Logic::yes) index.masks_[mask + rule / 64] |= std::uint64_t{1} << (rule % 64);
    }
  }
  index.strings_ = landmarks.strings;
  index.numbers_ = landmarks.numbers;
  return index;
}

std::size_t ColumnIndex::position(const Value& value) const {
  if (kind_ == Kind::boolean) return value.boolean() ? 1 : 0;
  if (kind_ == Kind::string) {
    const auto at = std::lower_bound(strings_.begin(), strings_.end(), value.string());
    const bool found = at != strings_.end() && *at == value.string();
    return found ? static_cast<std::size_t>(at - strings_.begin()) : strings_.size();
  }
  const Decimal number = value.number();
  const auto at = std::lower_bound(numbers_.begin(), numbers_.end(), number);
  const bool found = at != numbers_.end() && *at == number;
  return 2 * static_cast<std::size_t>(at - numbers_.begin()) + (found ? 1 : 0);
}

std::span<const std::uint64_t> ColumnIndex::lookup(const Value& value) const {
  return {masks_.data() + position(value) * words_, words_};
}

}  // namespace engine
