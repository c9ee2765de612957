#include "forecast/pages.h"

#include <algorithm>
#include <cmath>

#include "engine/canonical.h"
#include "report/caution.h"
#include "report/csv.h"
#include "report/layout.h"

namespace cli {

namespace {

using ledger::ForecastMonth;
using nlohmann::json;

constexpr std::size_t bar_width = 40;

std::string month_of(const ForecastMonth& month) {
  return engine::text_of(month.month).substr(0, 7);
}

std::string right(const std::string& text, std::size_t width) {
  return std::string(width > text.size() ? width - text.size() : 0, ' ') + text;
}

std::uint64_t highest(const ForecastPage& page) {
  std::uint64_t most = 1;
  for (const ForecastMonth& month : page.forecast.months) most = std::max({most, month.most, month.due()});
  for (const ledger::Load& load : page.load)
    most = std::max(most, static_cast<std::uint64_t>(std::ceil(load.appointments)));
  return most;
}

// `#` up to what is due, `.` on to what may come at most.
std::string bar(const ForecastMonth& month, std::uint64_t most) {
  const auto length = [&](std::uint64_t count) {
    return static_cast<std::size_t>((count * bar_width + most - 1) / most);
  };
  std::string text(length(month.due()), '#');
  const std::size_t end = length(month.most);
  if (end > text.size()) text.resize(end, '.');
  return text;
}

std::string assumption(const ForecastPage& page) {
  if (page.non_attendance == 0) return "Everyone is taken to attend; `--non-attendance 10` allows for 10 %.";
  return "Of every month's appointments " + std::to_string(page.non_attendance) +
         " % are taken not to be attended, and offered again the month after.";
}

}  // namespace

std::string one_decimal(double number) {
  const auto tenths = static_cast<long long>(std::llround(number * 10));
  return std::to_string(tenths / 10) + "." + std::to_string(std::llabs(tenths % 10));
}

std::string text_of(const ForecastPage& page) {
  const ledger::Forecast& forecast = page.forecast;
  std::string text = wrapped("Examinations due by month, as of " + page.as_of);
  text += wrapped(
      "From open recalls, by due date, and the later steps of their plans. What the examinations ahead will "
      "find is not known and not counted. Band: those that can be done in no other month, to those whose "
      "window touches the month. Bar: # due, . up to the most.");
  text += wrapped(assumption(page)) + wrapped(page.stamp) + "\n";
  text += "month    recalls  later    due   least    most  appointments\n";
  const std::uint64_t most = highest(page);
  for (std::size_t i = 0; i < forecast.months.size(); ++i) {
    const ForecastMonth& month = forecast.months[i];
    std::string line = month_of(month) + right(std::to_string(month.recalls), 9) +
                       right(std::to_string(month.later), 7) + right(std::to_string(month.due()), 7) +
                       right(std::to_string(month.least), 8) + right(std::to_string(month.most), 8) +
                       right(one_decimal(page.load[i].appointments), 10) + "  " + bar(month, most);
    line.erase(line.find_last_not_of(' ') + 1);
    text += line + "\n";
  }
  text +=
      "\n" +
      wrapped("The first month holds " + std::to_string(forecast.waiting) +
              " that were due before today. After the last month: " + std::to_string(forecast.beyond) + ".");
  return text + std::string(caution) + "\n";
}

std::string csv_of(const ForecastPage& page) {
  std::string text = csv_line({"month", "recalls", "later_steps", "due", "least", "most", "appointments",
                               "attended", "non_attendance_per_cent", "as_of"});
  for (std::size_t i = 0; i < page.forecast.months.size(); ++i) {
    const ForecastMonth& month = page.forecast.months[i];
    text += csv_line({engine::text_of(month.month), month.recalls, month.later, month.due(), month.least,
                      month.most, one_decimal(page.load[i].appointments), one_decimal(page.load[i].attended),
                      page.non_attendance, page.as_of});
  }
  return text;
}

std::string json_of(const ForecastPage& page) {
  json months = json::array();
  for (std::size_t i = 0; i < page.forecast.months.size(); ++i) {
    const ForecastMonth& month = page.forecast.months[i];
    months.push_back({{"month", month_of(month)},
                      {"recalls", month.recalls},
                      {"later_steps", month.later},
                      {"due", month.due()},
                      {"least", month.least},
                      {"most", month.most},
                      {"appointments", one_decimal(page.load[i].appointments)},
                      {"attended", one_decimal(page.load[i].attended)}});
  }
  return engine::canonical_json({{"as_of", page.as_of},
                                 {"stamp", page.stamp},
                                 {"non_attendance_per_cent", page.non_attendance},
                                 {"waiting", page.forecast.waiting},
                                 {"beyond", page.forecast.beyond},
                                 {"months", std::move(months)},
                                 {"caution", caution}}) +
         "\n";
}

}  // namespace cli
