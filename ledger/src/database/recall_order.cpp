#include "database/recall_order.h"

#include <algorithm>
#include <limits>
#include <utility>

#include "database/lines.h"
#include "late_clock.h"

namespace ledger {

using engine::Date;

namespace {

// The parts of a lane (lane.h).
constexpr std::int64_t risk_place = 100'000'000;
constexpr std::int64_t interval_place = 10'000;
constexpr std::int64_t days_in_step = 30;      // of the interval
constexpr std::int64_t last_step = 9'999;      // and all that are longer
constexpr std::int64_t longest_portion = 512;  // rows

/// Floor also below zero: a falsified lane is read like any other.
std::int64_t risk_of_lane(std::int64_t lane) {
  return lane / risk_place - (lane % risk_place < 0 ? 1 : 0);
}

/// Days from the due date to the late date, where all recalls of the lane have the same.
std::optional<std::int64_t> grace_of_lane(std::int64_t lane) {
  const std::int64_t part = (lane - risk_of_lane(lane) * risk_place) % interval_place;
  return part == 0 ? std::nullopt : std::optional(part - 1);
}

struct Interval {
  std::int64_t shortest = 1, longest = 1;
};

Interval interval_of_lane(std::int64_t lane) {
  const std::int64_t step = (lane - risk_of_lane(lane) * risk_place) / interval_place;
  return {std::max<std::int64_t>(1, step * days_in_step),
          step == last_step ? std::numeric_limits<std::int32_t>::max() : (step + 1) * days_in_step - 1};
}

bool is_later(const Lateness& a, const Lateness& b) {
  return a.days * b.interval > b.days * a.interval;
}

/// Later than any.
constexpr Lateness endless{1, 0};

Lateness latest_in(const Interval& interval, std::int64_t days) {
  return {days, days > 0 ? interval.shortest : interval.longest};
}

std::string late_from(const RecallSelection& selection, const Date& today) {
  return selection.late == false ? engine::text_of(today) : "";
}

std::string late_to(const RecallSelection& selection, const Date& today) {
  return selection.late == true ? engine::text_of(plus_days(today, -1)) : "~";
}

#define IN_LANE                                                                                        \
  "SELECT due, interval_days, late_on, number FROM recalls WHERE open = 1 AND lane = ?1 AND due <= ?2" \
  " AND (due, interval_days, late_on, number) > (?3, ?4, ?5, ?6) AND late_on BETWEEN ?7 AND ?8"
#define A_PORTION " ORDER BY due, interval_days, late_on, number LIMIT ?9"

#define COUNTED \
  "SELECT count(*) FROM recalls WHERE open = 1 AND due BETWEEN ? AND ? AND late_on BETWEEN ? AND ?"
#define UNVETTED " AND state = 'opened'"

}  // namespace

std::uint64_t count_of(Connection& connection, const RecallSelection& selection, const Date& today) {
  return connection
      .first(
          selection.unvetted ? COUNTED UNVETTED : COUNTED, [](const Row& row) { return row.count(0); },
          selection.due_from, selection.due_to, late_from(selection, today), late_to(selection, today))
      .value_or(0);
}

bool RecallOrder::LaterLane::operator()(const Lane& a, const Lane& b) const {
  return is_later(b.latest, a.latest);
}

// The queue gives the greatest: of two that are equally late, the one due first, then the lower number.
bool RecallOrder::EarlierOnTheList::operator()(const Candidate& a, const Candidate& b) const {
  if (is_later(b.lateness, a.lateness)) return true;
  if (is_later(a.lateness, b.lateness)) return false;
  return std::pair(b.lateness.days, a.number) > std::pair(a.lateness.days, b.number);
}

RecallOrder::RecallOrder(Connection& connection, const RecallSelection& selection, const Date& today)
    : connection_(connection),
      selection_(selection),
      today_(today),
      late_from_(late_from(selection, today)),
      late_to_(late_to(selection, today)),
      next_lane_(std::numeric_limits<std::int64_t>::min()) {}

std::optional<std::uint64_t> RecallOrder::next() {
  while (true) {
    if (candidates_.empty() && lanes_.empty()) {
      if (!begin_next_risk()) return std::nullopt;
      continue;
    }
    if (!candidates_.empty() &&
        (lanes_.empty() || is_later(candidates_.top().lateness, lanes_.top().latest))) {
      const std::uint64_t number = candidates_.top().number;
      candidates_.pop();
      return number;
    }
    Lane lane = lanes_.top();
    lanes_.pop();
    read_on(std::move(lane));
  }
}

/// All lanes of the next risk that has any.
bool RecallOrder::begin_next_risk() {
  std::optional<std::int64_t> risk;
  while (next_lane_) {
    const auto lane = connection_.first(
        "SELECT lane FROM recalls WHERE open = 1 AND lane >= ? ORDER BY lane LIMIT 1",
        [](const Row& row) { return row.number(0); }, *next_lane_);
    if (!lane) {
      next_lane_.reset();
      break;
    }
    if (risk && *risk != risk_of_lane(*lane)) break;
    risk = risk_of_lane(*lane);
    begin(*lane);
    next_lane_ = *lane + 1;
  }
  return risk.has_value();
}

void RecallOrder::begin(std::int64_t number) {
  Lane lane;
  lane.lane = number;
  std::string due_from = selection_.due_from;
  lane.due_to = selection_.due_to;
  if (const auto grace = grace_of_lane(number); grace && selection_.late) {
    const Date first_not_late = plus_days(today_, -*grace);
    if (*selection_.late)
      lane.due_to = std::min(lane.due_to, engine::text_of(plus_days(first_not_late, -1)));
    else
      due_from = std::max(due_from, engine::text_of(first_not_late));
  }
  lane.due = std::move(due_from);
  lane.interval = -1;  // before every recall of that day
  lane.latest = latest_after(lane);
  lanes_.push(std::move(lane));
}

Lateness RecallOrder::latest_after(const Lane& lane) const {
  const auto due = engine::parse_date(lane.due);
  if (!due) return endless;
  return latest_in(interval_of_lane(lane.lane), days_between(*due, today_));
}

void RecallOrder::read_on(Lane lane) {
  std::int64_t count = 0;
  const Lane from = lane;
  connection_.each(
      selection_.unvetted ? IN_LANE UNVETTED A_PORTION : IN_LANE A_PORTION,
      [&](const Row& row) {
        ++count;
        lane.due = row.text(0);
        lane.interval = row.number(1);
        lane.late_on = row.text(2);
        lane.number = row.number(3);
        candidates_.push({{days_between(date_of(lane.due), today_), lane.interval}, row.count(3)});
      },
      from.lane, from.due_to, from.due, from.interval, from.late_on, from.number, late_from_, late_to_,
      from.portion);
  if (count < from.portion) return;
  lane.latest = latest_after(lane);
  lane.portion = std::min(2 * lane.portion, longest_portion);
  lanes_.push(std::move(lane));
}

#undef IN_LANE
#undef A_PORTION
#undef COUNTED
#undef UNVETTED

}  // namespace ledger
