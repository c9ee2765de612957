// The rows of a list that someone works through. They are made one after the other while they are written: a
// list of a million rows takes no more memory than one of ten.

#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "engine/calendar.h"

namespace cli {

/// A line as an all-day entry of a calendar.
struct CalendarEntry {
  engine::Date day;
  std::string key;      ///< What it is about, the same for as long as that lives: `recall:R12`.
  std::string summary;  ///< Names no person.
  std::string person;   ///< Who it is about: shown only when names are asked for.
  std::string description;
  std::string changed_at;     ///< UTC instant of the last change, `2026-03-10T09:15:00.000Z`.
  std::int64_t sequence = 0;  ///< Changes since it was made.
  bool confirmed = false;     ///< An appointment was made.
};

/// One person's line on a list.
struct WorkListRow {
  std::vector<nlohmann::json> cells;  ///< One for each of WorkList::keys: text, whole number, or null.
  std::string headline;               ///< For text: what must be seen at a glance.
  std::vector<std::string> details;   ///< For text: what comes below it.
  std::vector<std::vector<std::string>> print = {};  ///< The lines of each of WorkList::columns.
  std::optional<CalendarEntry> entry = {};           ///< None where the line has no day.
};

class Rows {
 public:
  /// Says whether the next row is wanted.
  using Visit = std::function<bool(const WorkListRow&)>;
  using Make = std::function<void(const Visit&)>;

  Rows() = default;
  /// `make` makes the same rows, `size` of them, whenever it is called, until its visitor wants no more.
  Rows(std::uint64_t size, Make make) : size_(size), make_(std::move(make)) {}

  std::uint64_t size() const { return size_; }
  bool empty() const { return size_ == 0; }

  /// Makes all of them. Fails with `list_incomplete` when they are not as many as was said: a list that lacks
  /// a row does not end as if it were whole.
  void each(const std::function<void(const WorkListRow&)>& visit) const;

  /// Those that are wanted. Makes all once, to count them.
  Rows where(std::function<bool(const WorkListRow&)> wanted) const;
  Rows first(std::uint64_t limit) const;

 private:
  std::uint64_t size_ = 0;
  Make make_;
};

/// A row for each of `lines`, made of it by `row_of`.
template <class Line, class RowOf>
Rows rows_of(std::vector<Line> lines, RowOf row_of) {
  const auto kept = std::make_shared<const std::vector<Line>>(std::move(lines));
  return {kept->size(), [kept, row_of](const Rows::Visit& visit) {
            for (const Line& line : *kept) {
              if (!visit(row_of(line))) return;
            }
          }};
}

}  // namespace cli
