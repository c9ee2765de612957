#include "ledger/month_ends.h"

#include <algorithm>
#include <string>
#include <unordered_map>

#include <nlohmann/json.hpp>

#include "database/lines.h"
#include "database/view.h"
#include "json_fields.h"
#include "late_clock.h"
#include "ledger/kind.h"
#include "ledger/lists.h"

namespace ledger {

using engine::Date;
using nlohmann::json;

namespace {

struct Recall {
  std::string state;
  Date due, late_on;
};

bool is_open(const std::string& state) {
  return state != "answered" && state != "closed" && state != "handed over";
}

Date last_of_month(const Date& day) {
  Date first_of_next = *engine::add(Date{day.year, day.month, 1}, engine::Months{1});
  return plus_days(first_of_next, -1);
}

std::size_t weeks_band(std::int64_t days_late) {
  constexpr std::array<std::int64_t, 3> up_to_weeks = {4, 12, 26};
  std::size_t band = 0;
  while (band < up_to_weeks.size() && days_late > 7 * up_to_weeks[band]) ++band;
  return band;
}

class Register {
 public:
  Register(const Date& first_day, const Date& today) : first_day_(first_day), today_(today) {}

  /// Entries come in order of writing; their days are taken as not falling, also when a clock went back.
  void read(const Date& day, Kind kind, const std::string& recall, const json& body) {
    end_months_before(day);
    move(kind, recall, body);
  }

  std::vector<MonthEnd> finish() {
    end_months_before(plus_days(today_, 1));
    if (month_.day != Date{} && (ends_.empty() || ends_.back().day < today_)) end(today_);
    return std::move(ends_);
  }

 private:
  void end_months_before(const Date& day) {
    if (month_.day == Date{}) month_.day = last_of_month(day);
    while (month_.day < day) end(month_.day);
  }

  void end(const Date day) {  // a copy: the month it comes from ends here
    month_.day = day;
    if (first_day_ <= day) {
      count(day);
      ends_.push_back(month_);
    }
    const std::uint64_t open = open_;
    month_ = {};
    month_.day = last_of_month(plus_days(day, 1));
    month_.open_before = open;
  }

  void count(const Date& day) {
    const Date soon = plus_days(day, late_after_days);
    month_.open = 0;
    for (const auto& [number, recall] : recalls_) {
      if (!is_open(recall.state)) continue;
      ++month_.open;
      if (recall.late_on < day) {
        ++month_.late;
        ++month_.late_weeks[weeks_band(days_between(recall.late_on, day))];
      } else if (recall.due <= soon) {
        ++month_.due;
      }
    }
  }

  void move(Kind kind, const std::string& name, const json& body) {
    Recall& recall = recalls_[name];
    const bool was_open = !recall.state.empty() && is_open(recall.state);
    recall.state = kind == Kind::recall_opened ? "opened" : text_at(body, "state");
    if (body.contains("due")) recall.due = date_of(text_at(body, "due"));
    if (body.contains("late_on")) recall.late_on = date_of(text_at(body, "late_on"));
    const bool now_open = is_open(recall.state);
    if (was_open != now_open) open_ += now_open ? 1 : static_cast<std::uint64_t>(-1);
    switch (kind) {
      case Kind::recall_opened:
        ++month_.opened;
        break;
      case Kind::recall_reopened:
        ++month_.reopened;
        break;
      case Kind::recall_taken_back:
        ++month_.taken_back;
        break;
      case Kind::recall_answered:
        // One that was handed over, or closed, was not open any more.
        if (was_open) ++month_.answered;
        break;
      case Kind::recall_vetted:  // to stop: the entry that closes it comes after it has ended
      case Kind::recall_closed:
        if (was_open && !now_open) ++month_.closed;
        break;
      case Kind::recall_handed_over:
        ++month_.handed_over;
        break;
      default:
        break;
    }
  }

  Date first_day_, today_;
  std::unordered_map<std::string, Recall> recalls_;
  std::uint64_t open_ = 0;
  MonthEnd month_;
  std::vector<MonthEnd> ends_;
};

void read_recalls(Connection& connection, const Date& today, const Date& first_day, MonthEnds& answer) {
  Register kept(first_day, today);
  Date latest{};
  connection.each(
      "SELECT substr(at, 1, 10), kind, subject, body FROM entries WHERE kind LIKE 'recall %' ORDER BY "
      "sequence",
      [&](const Row& row) {
        latest = std::max(latest, date_of(row.text(0)));
        if (today < latest) {
          answer.is_now = false;
        } else if (const auto kind = kind_of(row.text(1))) {
          kept.read(latest, *kind, row.text(2), json::parse(row.text(3)));
        }
      });
  answer.months = kept.finish();
  answer.listed = count_of(connection, "SELECT count(*) FROM recalls WHERE open = 1");
}

}  // namespace

engine::Result<MonthEnds> month_ends(const Ledger& ledger, const Date& today, std::uint32_t months) {
  const Date this_month{today.year, today.month, 1};
  const auto back = engine::Months{-static_cast<std::int64_t>(std::max<std::uint32_t>(1, months)) + 1};
  const Date first_day = engine::add(this_month, back).value_or(this_month);
  return viewed<MonthEnds>(ledger, [&](Connection& connection, auto& answer) {
    read_recalls(connection, today, first_day, answer);
  });
}

}  // namespace ledger
