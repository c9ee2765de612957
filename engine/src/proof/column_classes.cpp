#include "proof/column_classes.h"

#include <algorithm>

#include "evaluate/numbers_around.h"
#include "types/type.h"

namespace engine {

namespace {

struct Probe {
  Value value;
  std::string text;
};

class Probes {
 public:
  explicit Probes(const TableCells::Column& column) {
    for (const Test* cell : column.cells) {
      if (cell) cell->add_constants(constants_);
    }
    if (column.allowed) column.allowed->add_constants(constants_);
    is_boolean_ = column.type && column.type->kind == Type::Kind::boolean;
  }

  /// Nothing when the constants are of several kinds, or of one that has no neighbours to try.
  std::optional<std::vector<Probe>> make() {
    const auto all = [&](Kind kind) {
      return std::all_of(constants_.begin(), constants_.end(), [&](const Value& c) { return c.is(kind); });
    };
    if (constants_.empty()) return is_boolean_ ? booleans() : std::vector<Probe>{{Value(), "is anything"}};
    if (all(Kind::boolean)) return booleans();
    if (all(Kind::string)) return strings();
    if (all(Kind::number)) return numbers();
    if (all(Kind::date)) return dates();
    return std::nullopt;
  }

  bool has_constants() const { return !constants_.empty() || is_boolean_; }

 private:
  static std::vector<Probe> booleans() {
    return {{Value::of(false), "is false"}, {Value::of(true), "is true"}};
  }

  std::vector<Probe> strings() {
    std::vector<std::string_view> words;
    for (const Value& constant : constants_) words.push_back(constant.string());
    std::sort(words.begin(), words.end());
    words.erase(std::unique(words.begin(), words.end()), words.end());
    std::vector<Probe> probes;
    for (const std::string_view word : words) {
      probes.push_back({Value::string(word), "is \"" + std::string(word) + "\""});
    }
    other_ = std::string(words.back()) + "\x01";
    probes.push_back({Value::string(other_), "is another text"});
    return probes;
  }

  std::optional<std::vector<Probe>> numbers() {
    std::vector<Decimal> marks;
    for (const Value& constant : constants_) marks.push_back(constant.number());
    std::sort(marks.begin(), marks.end());
    marks.erase(std::unique(marks.begin(), marks.end()), marks.end());
    const auto around = numbers_around(marks);
    if (!around) return std::nullopt;
    std::vector<Probe> probes;
    for (std::size_t i = 0; i < around->size(); ++i) {
      const std::size_t mark = i / 2;
      const std::string text = i % 2 == 1 ? "is " + marks[mark].text()
                               : i == 0   ? "is less than " + marks[0].text()
                               : mark == marks.size()
                                   ? "is more than " + marks.back().text()
                                   : "is between " + marks[mark - 1].text() + " and " + marks[mark].text();
      probes.push_back({Value::number((*around)[i], arena_), text});
    }
    return probes;
  }

  std::optional<std::vector<Probe>> dates() const {
    std::vector<std::int64_t> marks;
    for (const Value& constant : constants_) marks.push_back(days_since_epoch(constant.date()));
    std::sort(marks.begin(), marks.end());
    marks.erase(std::unique(marks.begin(), marks.end()), marks.end());
    std::vector<Probe> probes;
    const auto add = [&](std::int64_t day, const std::string& words, std::int64_t named) {
      const auto date = date_from_days(day), name = date_from_days(named);
      if (date && name) probes.push_back({Value::of(*date), "is " + words + engine::text_of(*name)});
      return date && name;
    };
    for (std::size_t i = 0; i < marks.size(); ++i) {
      if (i == 0 && !add(marks[i] - 1, "before ", marks[i])) return std::nullopt;
      if (!add(marks[i], "", marks[i])) return std::nullopt;
      const bool is_last = i + 1 == marks.size();
      if ((is_last || marks[i] + 1 < marks[i + 1]) && !add(marks[i] + 1, "after ", marks[i]))
        return std::nullopt;
    }
    return probes;
  }

  std::vector<Value> constants_;
  bool is_boolean_ = false;
  std::string other_;
  Arena arena_;
};

/// The rules whose cell accepts the probe; nothing when a cell does not say by its constants alone.
std::optional<std::vector<std::uint64_t>> accepted_by(const TableCells::Column& column, const Value& probe) {
  std::vector<std::uint64_t> mask((column.cells.size() + 63) / 64);
  for (std::size_t rule = 0; rule < column.cells.size(); ++rule) {
    const auto accepted = column.cells[rule] ? column.cells[rule]->by_constants(probe) : Logic::yes;
    if (!accepted) return std::nullopt;
    if (*accepted == Logic::yes) mask[rule / 64] |= std::uint64_t{1} << (rule % 64);
  }
  return mask;
}

}  // namespace

std::optional<std::vector<ColumnClass>> classes_of(const TableCells::Column& column) {
  Probes probes(column);
  const auto values = probes.make();
  if (!values) return std::nullopt;
  std::vector<ColumnClass> classes;
  for (const Probe& probe : *values) {
    if (column.allowed && probes.has_constants()) {
      const auto allowed = column.allowed->by_constants(probe.value);
      if (!allowed) return std::nullopt;
      if (*allowed != Logic::yes) continue;
    }
    auto mask = accepted_by(column, probe.value);
    if (!mask) return std::nullopt;
    const auto same = [&](const ColumnClass& other) { return other.accepted_by == *mask; };
    if (std::none_of(classes.begin(), classes.end(), same)) classes.push_back({std::move(*mask), probe.text});
  }
  return classes;
}

}  // namespace engine
