// Built-ins on dates, and the two that ask for the time. Source: DMN 1.5, tables 80 and 81 (temporal and
// miscellaneous functions).

#include <array>

#include "builtins/arguments.h"

namespace engine {

namespace {

constexpr std::array<std::string_view, 7> weekdays = {"Monday", "Tuesday",  "Wednesday", "Thursday",
                                                      "Friday", "Saturday", "Sunday"};
constexpr std::array<std::string_view, 12> months = {"January",   "February", "March",    "April",
                                                     "May",       "June",     "July",     "August",
                                                     "September", "October",  "November", "December"};

Value day_number(const Date& date) {
  return Value::number(day_of_year(date));
}
Value day_name(const Date& date) {
  return Value::string(weekdays[static_cast<std::size_t>(weekday(date) - 1)]);
}
Value month_name(const Date& date) {
  return Value::string(months[date.month - 1u]);
}
Value week_number(const Date& date) {
  return Value::number(week_of_year(date));
}

template <Value (*part)(const Date&)>
Value of_date(const BuiltinCall& call) {
  if (call[0].is(Kind::date)) return part(call[0].date());
  if (call[0].is(Kind::date_time)) return part(call[0].date_time().date);
  return call.wrong(0, "date");
}

// The clock is part of the request, so that a past answer can be computed again.
Value no_clock(const BuiltinCall& call) {
  return call.state.fault(call.at, "no_clock",
                          "`" + std::string(call.name) + "`: no time was set for this evaluation");
}

Value now(const BuiltinCall& call) {
  return call.state.now ? Value::of(*call.state.now, call.arena()) : no_clock(call);
}

Value today(const BuiltinCall& call) {
  return call.state.now ? Value::of(call.state.now->date) : no_clock(call);
}

}  // namespace

void add_date_builtins(std::vector<Builtin>& all) {
  using Result = Type::Kind;
  const std::vector<Signature> date = {{{"date"}, 1}};
  const std::vector<Signature> nothing = {{{}, 0}};
  const std::vector<Builtin> own = {
      {"day of year", of_date<day_number>, date, Result::number},
      {"day of week", of_date<day_name>, date, Result::string},
      {"month of year", of_date<month_name>, date, Result::string},
      {"week of year", of_date<week_number>, date, Result::number},
      {"now", now, nothing, Result::date_time},
      {"today", today, nothing, Result::date},
  };
  all.insert(all.end(), own.begin(), own.end());
}

}  // namespace engine
