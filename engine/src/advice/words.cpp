#include "advice/words.h"

#include <array>
#include <charconv>

namespace engine {

namespace {

std::string counted(std::int64_t count, std::string_view noun) {
  return std::to_string(count) + " " + std::string(noun) + (count == 1 ? "" : "s");
}

std::string span_of(std::int64_t from, std::int64_t to, std::string_view noun) {
  return from == to ? counted(from, noun) : std::to_string(from) + " to " + counted(to, noun);
}

/// A path around its last number: `exam.lesions` 3 `.histology`.
struct NumberedPath {
  std::string head, tail;
  std::size_t number = 0;
};

std::optional<NumberedPath> numbered(const std::string& path) {
  const std::size_t open = path.rfind('['), close = path.find(']', open == std::string::npos ? 0 : open);
  if (open == std::string::npos || close == std::string::npos) return std::nullopt;
  NumberedPath parts{path.substr(0, open), path.substr(close + 1), 0};
  const auto [end, fault] = std::from_chars(path.data() + open + 1, path.data() + close, parts.number);
  if (fault != std::errc() || end != path.data() + close) return std::nullopt;
  return parts;
}

/// How many of the paths from `first` on, which is numbered, differ from the one before by the next number
/// alone.
std::size_t length_of_run(const std::vector<std::string>& paths, std::size_t first) {
  const NumberedPath begin = *numbered(paths[first]);
  std::size_t length = 1;
  for (; first + length < paths.size(); ++length) {
    const auto next = numbered(paths[first + length]);
    if (!next || next->head != begin.head || next->tail != begin.tail ||
        next->number != begin.number + length)
      break;
  }
  return length;
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

std::string paths_in_words(const std::vector<std::string>& paths) {
  std::vector<std::string> texts;
  std::optional<NumberedPath> before;
  std::string numbers;
  const auto tell = [&] {
    if (before) texts.push_back(before->head + numbers + before->tail);
    numbers.clear();
  };
  for (std::size_t i = 0; i < paths.size();) {
    const std::optional<NumberedPath> path = numbered(paths[i]);
    if (!path || !before || path->head != before->head || path->tail != before->tail) {
      tell();
      before = path;
    }
    if (!path) {
      texts.push_back(paths[i++]);
      continue;
    }
    const std::size_t run = length_of_run(paths, i);
    numbers += (numbers.empty() ? "[" : ", [") + std::to_string(path->number) + "]";
    if (run > 1) numbers += (run == 2 ? ", [" : " to [") + std::to_string(path->number + run - 1) + "]";
    i += run;
  }
  tell();
  return listed(texts, ", ");
}

std::string counted(std::size_t count, std::string_view noun) {
  return counted(static_cast<std::int64_t>(count), noun);
}

}  // namespace engine
