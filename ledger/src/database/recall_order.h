// Open recalls in the order of the lists (lists.h): risk first, then how late in proportion to the interval.
// No list is sorted: the first of a million are found as fast as the first of a thousand.
//
// Recalls of one lane have the same risk, nearly the same interval, and the same number of days from the due
// date to the late date. In a lane the order by due date is nearly the order of the list, whatever the day:
// the earlier a recall is due, the later it is. The lanes of a risk are read beside each other along an
// index, each only so far as its next recall could be the next of the list.

#pragma once

#include <cstdint>
#include <optional>
#include <queue>
#include <string>
#include <vector>

#include "database/connection.h"
#include "engine/calendar.h"

namespace ledger {

/// Which open recalls are wanted. Days are ISO 8601, both ends included.
struct RecallSelection {
  std::string due_from = "0000-01-01", due_to = "9999-12-31";
  std::optional<bool> late;  ///< On the day of the list; left out: both.
  bool unvetted = false;     ///< No clinician has confirmed it.
};

/// How many there are.
std::uint64_t count_of(Connection& connection, const RecallSelection& selection, const engine::Date& today);

/// Days after the due date, by the days of the interval.
struct Lateness {
  std::int64_t days = 0, interval = 1;
};

class RecallOrder {
 public:
  RecallOrder(Connection& connection, const RecallSelection& selection, const engine::Date& today);
  /// The number of the next recall; none after the last.
  std::optional<std::uint64_t> next();

 private:
  /// What is not read yet of a lane.
  struct Lane {
    std::int64_t lane = 0;
    std::string due_to;
    std::string due, late_on;  ///< Of the recall that was read last, with what follows.
    std::int64_t interval = 0, number = 0;
    Lateness latest;  ///< None that is left is later.
    std::int64_t portion = 16;
  };
  struct Candidate {
    Lateness lateness;
    std::uint64_t number = 0;
  };
  struct LaterLane {
    bool operator()(const Lane& a, const Lane& b) const;
  };
  struct EarlierOnTheList {
    bool operator()(const Candidate& a, const Candidate& b) const;
  };

  bool begin_next_risk();
  void begin(std::int64_t lane);
  void read_on(Lane lane);
  Lateness latest_after(const Lane& lane) const;

  Connection& connection_;
  RecallSelection selection_;
  engine::Date today_;
  std::string late_from_, late_to_;
  std::optional<std::int64_t> next_lane_;
  std::priority_queue<Lane, std::vector<Lane>, LaterLane> lanes_;
  std::priority_queue<Candidate, std::vector<Candidate>, EarlierOnTheList> candidates_;
};

}  // namespace ledger
