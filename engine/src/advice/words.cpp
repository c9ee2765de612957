#include "advice/words.h"

#include <array>

namespace engine {

namespace {

std::string counted(std::int64_t count, std::string_view noun) {
  return std::to_string(count) + " " + std::string(noun) + (count == 1 ? "" : "s");
}

std::string span_of(std::int64_t from, std::int64_t to, std::string_view noun) {
  return from == to ? counted(from, noun) : std::to_string(from) + " to " + counted(to, noun);
}

}  // namespace

std::string in_words(const Date& date) {
  static constexpr std::array<std::string_view, 12> months = {
      "January", "February", "March",     "April",   "May",      "June",
      "July",    "August",   "September", "October", "November", "December"};
  return std::to_string(date.day) + " " + std::string(months[date.month - 1U]) + " " +
         std::to_string(date.year);
}

std::string in_words(const Interval& interval) {
  const std::int64_t from = interval.from.count;
  const std::int64_t to = interval.to.count;
  if (to == 0) return "no time";
  const bool whole_years = from % 12 == 0 && to % 12 == 0;
  return whole_years ? span_of(from / 12, to / 12, "year") : span_of(from, to, "month");
}

std::string in_words(const Window& window) {
  if (window.from == window.to) return in_words(window.from);
  return in_words(window.from) + " to " + in_words(window.to);
}

std::string in_words(Action action, const std::optional<Interval>& interval) {
  std::string text(text_of(action));
  if (interval) text += interval->to.count == 0 ? " now" : " in " + in_words(*interval);
  return text;
}

std::string listed(const std::vector<std::string>& items, std::string_view last_separator) {
  std::string text;
  for (std::size_t i = 0; i < items.size(); ++i) {
    if (i > 0) text += i + 1 == items.size() ? last_separator : std::string_view(", ");
    text += items[i];
  }
  return text;
}

std::string counted(std::size_t count, std::string_view noun) {
  return counted(static_cast<std::int64_t>(count), noun);
}

}  // namespace engine
