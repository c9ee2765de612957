// The text of durations, read and written.

#include <iterator>

#include "engine/calendar.h"
#include "text_reader.h"
#include "units.h"

namespace engine {
namespace {

using detail::TextReader;

/// The parts of a duration in the order in which they must come, each in months or in seconds.
struct Part {
  char letter;
  std::int64_t months;
  std::int64_t seconds;
};
constexpr Part date_parts[] = {{'Y', 12, 0}, {'M', 1, 0}, {'D', 0, 86'400}};
constexpr Part time_parts[] = {{'H', 0, 3'600}, {'M', 0, 60}, {'S', 0, 1}};

/// What has been read so far.
struct Sums {
  Months months;
  Duration duration;
  bool has_months = false;
  bool has_duration = false;
};

/// Adds `count` times `unit` to `sum`; false when it does not fit.
bool add_times(std::int64_t& sum, std::int64_t count, std::int64_t unit) {
  std::int64_t product = 0;
  return !__builtin_mul_overflow(count, unit, &product) && !__builtin_add_overflow(sum, product, &sum);
}

bool add_part(Sums& sums, const Part& part, std::int64_t count) {
  (part.months != 0 ? sums.has_months : sums.has_duration) = true;
  return part.months != 0 ? add_times(sums.months.count, count, part.months)
                          : add_times(sums.duration.seconds, count, part.seconds);
}

/// Reads numbers with the letters of `parts`, at least one, until a `T` or the end.
template <std::size_t size>
bool read_parts(TextReader& reader, const Part (&parts)[size], Sums& sums) {
  auto part = std::begin(parts);
  do {
    const std::string_view digits = reader.take_digits();
    if (digits.empty()) return false;
    const bool has_fraction = reader.take('.');
    const std::string_view fraction = has_fraction ? reader.take_digits() : std::string_view{};
    while (part != std::end(parts) && !reader.take(part->letter)) ++part;
    if (part == std::end(parts) || (has_fraction && part->letter != 'S')) return false;
    const auto count = detail::number_of(digits);
    if (!count || !add_part(sums, *part, *count)) return false;
    if (has_fraction) sums.duration.nanos = detail::nanos_of_fraction(fraction);
    ++part;
  } while (!reader.at_end() && reader.next() != 'T');
  return true;
}

/// `seconds` is what remains below an hour.
void append_minutes_and_seconds(std::string& text, std::uint64_t seconds, std::int64_t nanos) {
  if (seconds >= 60) {
    detail::append_number(text, seconds / 60);
    text += 'M';
  }
  if (seconds % 60 == 0 && nanos == 0) return;
  detail::append_number(text, seconds % 60);
  detail::append_fraction(text, nanos);
  text += 'S';
}

/// The size of a number, which for the least one has no place among the signed.
std::uint64_t size_of(std::int64_t number) {
  const auto bits = static_cast<std::uint64_t>(number);
  return number < 0 ? 0 - bits : bits;
}

}  // namespace

std::optional<std::variant<Months, Duration>> parse_duration(std::string_view text) {
  TextReader reader(text);
  const bool negative = reader.take('-');
  if (!reader.take('P')) return std::nullopt;
  Sums sums;
  if (reader.next() != 'T' && !read_parts(reader, date_parts, sums)) return std::nullopt;
  if (reader.take('T') && (!read_parts(reader, time_parts, sums) || !reader.at_end())) return std::nullopt;
  if (sums.has_months && sums.has_duration) return std::nullopt;
  // No sum is negative so far, so each has a negative.
  if (sums.has_months) return negative ? *negated(sums.months) : sums.months;
  return negative ? *negated(sums.duration) : sums.duration;
}

std::string text_of(const Months& months) {
  if (months.count == 0) return "P0M";
  const std::uint64_t size = size_of(months.count);
  std::string text = months.count < 0 ? "-P" : "P";
  if (size >= 12) {
    detail::append_number(text, size / 12);
    text += 'Y';
  }
  if (size % 12 != 0) {
    detail::append_number(text, size % 12);
    text += 'M';
  }
  return text;
}

std::string text_of(const Duration& duration) {
  if (duration == Duration{}) return "PT0S";
  const bool negative = duration.seconds < 0;
  // The nanoseconds count upwards from the whole seconds, so below zero they take from the size.
  const bool borrow = negative && duration.nanos != 0;
  const std::uint64_t seconds = size_of(duration.seconds) - (borrow ? 1 : 0);
  const std::int64_t nanos = borrow ? detail::nanos_per_second - duration.nanos : duration.nanos;
  std::string text = negative ? "-P" : "P";
  if (seconds >= 86'400) {
    detail::append_number(text, seconds / 86'400);
    text += 'D';
  }
  if (seconds % 86'400 == 0 && nanos == 0) return text;
  text += 'T';
  if (seconds % 86'400 >= 3'600) {
    detail::append_number(text, seconds % 86'400 / 3'600);
    text += 'H';
  }
  append_minutes_and_seconds(text, seconds % 3'600, nanos);
  return text;
}

}  // namespace engine
