// Reads the open recalls and the steps that follow them, and counts them by month.

#include "ledger/forecast.h"

#include <algorithm>

#include <nlohmann/json.hpp>

#include "database/lines.h"
#include "database/view.h"
#include "engine/advice.h"
#include "json_fields.h"

namespace ledger {

using engine::Date;
using engine::Window;
using nlohmann::json;

namespace {

std::int64_t month_number(const Date& day) {
  return static_cast<std::int64_t>(day.year) * 12 + day.month - 1;
}

class Months {
 public:
  Months(const Date& today, std::uint32_t count, Forecast& forecast)
      : today_(today), first_(month_number(today)), forecast_(forecast) {
    const Date month{today.year, today.month, 1};
    for (std::uint32_t i = 0; i < count; ++i) {
      forecast.months.push_back({engine::add(month, engine::Months{i}).value_or(month)});
    }
  }

  /// A step that falls due at the start of `window`. What should have been done already is done now.
  void add(Window window, bool is_recall) {
    if (is_recall && window.from < today_) ++forecast_.waiting;
    window.from = std::max(window.from, today_);
    window.to = std::max(window.to, window.from);
    if (ForecastMonth* month = at(month_number(window.from))) {
      ++(is_recall ? month->recalls : month->later);
    } else {
      ++forecast_.beyond;
    }
    const std::int64_t from = month_number(window.from), to = month_number(window.to);
    for (std::int64_t number = from; number <= to; ++number) {
      ForecastMonth* month = at(number);
      if (month == nullptr) break;
      ++month->most;
      if (from == to) ++month->least;
    }
  }

 private:
  ForecastMonth* at(std::int64_t number) {
    const auto index = static_cast<std::size_t>(number - first_);
    return index < forecast_.months.size() ? &forecast_.months[index] : nullptr;
  }

  Date today_;
  std::int64_t first_;
  Forecast& forecast_;
};

std::optional<engine::Months> months_of(const std::string& text) {
  const auto duration = engine::parse_duration(text);
  if (!duration || !std::holds_alternative<engine::Months>(*duration)) return std::nullopt;
  return std::get<engine::Months>(*duration);
}

/// The window of the step after one that is done within `before`; none where the plan names no interval.
std::optional<Window> after(const Window& before, const json& step) {
  const auto interval = step.find("interval");
  if (interval == step.end() || !interval->is_object()) return std::nullopt;
  const auto from = months_of(text_at(*interval, "from")), to = months_of(text_at(*interval, "to"));
  if (!from || !to) return std::nullopt;
  const auto first = engine::add(before.from, *from), last = engine::add(before.to, *to);
  if (!first || !last) return std::nullopt;
  return Window{*first, *last};
}

bool is_examination(const json& step) {
  const std::string action = text_at(step, "action");
  return action == "surveillance colonoscopy" || action == "site check" || action == "repeat examination";
}

}  // namespace

engine::Result<Forecast> forecast(const Ledger& ledger, const Date& today, std::uint32_t months) {
  return viewed<Forecast>(ledger, [&](Connection& connection, Forecast& found) {
    Months counted(today, std::max<std::uint32_t>(1, months), found);
    connection.each("SELECT due, due_to, later_steps FROM recalls WHERE open = 1", [&](const Row& row) {
      Window window{date_of(row.text(0)), date_of(row.text(1))};
      counted.add(window, true);
      const std::string steps = row.text(2);
      if (steps == "[]") return;
      window.from = std::max(window.from, today);
      window.to = std::max(window.to, window.from);
      for (const json& step : json::parse(steps)) {
        const auto next = after(window, step);
        if (!next || !is_examination(step)) return;
        window = *next;
        counted.add(window, false);
      }
    });
  });
}

}  // namespace ledger
