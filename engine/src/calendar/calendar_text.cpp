// The text of dates and times, read and written.

#include "engine/calendar.h"
#include "text_reader.h"
#include "units.h"

namespace engine {
namespace {

using detail::TextReader;

std::optional<std::int64_t> read_year(TextReader& reader) {
  const bool negative = reader.take('-');
  const std::string_view digits = reader.take_digits();
  if (digits.size() < 4 || digits.size() > 9) return std::nullopt;
  if (digits.size() > 4 && digits.front() == '0') return std::nullopt;
  const auto year = detail::number_of(digits);
  return negative ? -*year : *year;
}

std::optional<Date> read_date(TextReader& reader) {
  const auto year = read_year(reader);
  if (!year || !reader.take('-')) return std::nullopt;
  const auto month = reader.take_two_digits();
  if (!month || !reader.take('-')) return std::nullopt;
  const auto day = reader.take_two_digits();
  if (!day) return std::nullopt;
  return make_date(*year, *month, *day);
}

std::optional<Zone> read_offset(TextReader& reader) {
  const bool west = reader.take('-');
  if (!west && !reader.take('+')) return std::nullopt;
  const auto hours = reader.take_two_digits();
  if (!hours || !reader.take(':')) return std::nullopt;
  const auto minutes = reader.take_two_digits();
  const auto seconds = reader.take(':') ? reader.take_two_digits() : 0;
  if (!minutes || !seconds || *minutes > 59 || *seconds > 59) return std::nullopt;
  const int total = (*hours * 60 + *minutes) * 60 + *seconds;
  return offset_zone(west ? -total : total);
}

/// Reads to the end of the text.
std::optional<Zone> read_zone(TextReader& reader) {
  if (reader.at_end()) return Zone{};
  if (reader.take('@')) return named_zone(reader.rest());
  const auto zone = reader.take('Z') ? Zone{Zone::Kind::offset, 0, {}} : read_offset(reader);
  if (!reader.at_end()) return std::nullopt;
  return zone;
}

struct ReadTime {
  Time time;
  bool next_day = false;  ///< The text was `24:00:00`.
};

/// Reads to the end of the text.
std::optional<ReadTime> read_time(TextReader& reader) {
  const auto hour = reader.take_two_digits();
  if (!hour || !reader.take(':')) return std::nullopt;
  const auto minute = reader.take_two_digits();
  if (!minute || !reader.take(':')) return std::nullopt;
  const auto second = reader.take_two_digits();
  if (!second) return std::nullopt;
  std::string_view fraction;
  if (reader.take('.')) {
    fraction = reader.take_digits();
    if (fraction.empty()) return std::nullopt;
  }
  const auto zone = read_zone(reader);
  if (!zone) return std::nullopt;
  const bool only_zeros = fraction.find_first_not_of('0') == std::string_view::npos;
  const bool next_day = *hour == 24 && *minute == 0 && *second == 0 && only_zeros;
  const auto time =
      make_time(next_day ? 0 : *hour, *minute, *second, detail::nanos_of_fraction(fraction), *zone);
  if (!time) return std::nullopt;
  return ReadTime{*time, next_day};
}

void append_offset(std::string& text, std::int32_t offset) {
  if (offset == 0) {
    text += 'Z';
    return;
  }
  const auto size = static_cast<std::uint64_t>(offset < 0 ? -offset : offset);
  text += offset < 0 ? '-' : '+';
  detail::append_number(text, size / 3'600, 2);
  text += ':';
  detail::append_number(text, size / 60 % 60, 2);
  if (size % 60 == 0) return;
  text += ':';
  detail::append_number(text, size % 60, 2);
}

void append_zone(std::string& text, const Zone& zone) {
  if (zone.kind == Zone::Kind::offset) append_offset(text, zone.offset_seconds);
  if (zone.kind != Zone::Kind::named) return;
  text += '@';
  text += zone.name;
}

}  // namespace

std::optional<Date> parse_date(std::string_view text) {
  TextReader reader(text);
  const auto date = read_date(reader);
  return reader.at_end() ? date : std::nullopt;
}

std::optional<Time> parse_time(std::string_view text) {
  TextReader reader(text);
  const auto read = read_time(reader);
  if (!read) return std::nullopt;
  return read->time;
}

std::optional<DateTime> parse_date_time(std::string_view text) {
  TextReader reader(text);
  const auto date = read_date(reader);
  if (!date) return std::nullopt;
  if (reader.at_end()) return DateTime{*date, {}};
  if (!reader.take('T')) return std::nullopt;
  const auto read = read_time(reader);
  if (!read) return std::nullopt;
  const auto day = read->next_day ? date_from_days(days_since_epoch(*date) + 1) : date;
  if (!day) return std::nullopt;
  return DateTime{*day, read->time};
}

std::string text_of(const Date& date) {
  std::string text;
  if (date.year < 0) text += '-';
  detail::append_number(text, static_cast<std::uint64_t>(date.year < 0 ? -date.year : date.year), 4);
  text += '-';
  detail::append_number(text, date.month, 2);
  text += '-';
  detail::append_number(text, date.day, 2);
  return text;
}

std::string text_of(const Time& time) {
  const auto second_of_day = static_cast<std::uint64_t>(time.nanos_of_day / detail::nanos_per_second);
  std::string text;
  detail::append_number(text, second_of_day / 3'600, 2);
  text += ':';
  detail::append_number(text, second_of_day / 60 % 60, 2);
  text += ':';
  detail::append_number(text, second_of_day % 60, 2);
  detail::append_fraction(text, time.nanos_of_day % detail::nanos_per_second);
  append_zone(text, time.zone);
  return text;
}

std::string text_of(const DateTime& value) {
  return text_of(value.date) + 'T' + text_of(value.time);
}

}  // namespace engine
