#include "engine/differential/naive_builtins.h"

#include <algorithm>
#include <cctype>

#include "engine/differential/naive_values.h"

namespace testing {

namespace {

using engine::Decimal;
using engine::Kind;

constexpr std::size_t any_number = 1'000'000;

Plain whole(std::size_t number) {
  return plain(Decimal(static_cast<std::int64_t>(number)));
}

// A list of one is taken for its item.
const Plain* argument(NaiveCall& call, std::size_t i, Kind kind) {
  Plain& value = call.arguments[i];
  if (value.is(Kind::list) && kind != Kind::list && value.items.size() == 1 && value.items[0].is(kind)) {
    return &value.items[0];
  }
  return value.is(kind) ? &value : nullptr;
}

Plain wrong(NaiveCall& call) {
  return call.fault(Fault::error);
}

// A single value is a list of one; null is none.
std::optional<Items> items(NaiveCall& call, std::size_t i) {
  const Plain& value = call.arguments[i];
  if (value.is(Kind::list)) return value.items;
  if (value.is_null()) return std::nullopt;
  return Items{value};
}

// Aggregates take one list or several values.
std::optional<Items> aggregated(NaiveCall& call) {
  return call.arguments.size() == 1 ? items(call, 0) : call.arguments;
}

// From 0; positions count from 1, and from the end when negative.
std::optional<std::size_t> place(const Plain& position, std::size_t size) {
  const auto cut = position.number.truncated_to_int64();
  if (!cut) return std::nullopt;
  const std::int64_t at = *cut > 0 ? *cut - 1 : static_cast<std::int64_t>(size) + *cut;
  if (*cut == 0 || at < 0 || at >= static_cast<std::int64_t>(size)) return std::nullopt;
  return static_cast<std::size_t>(at);
}

// --- aggregates ---

Plain count(NaiveCall& call) {
  const auto all = aggregated(call);
  return all ? whole(all->size()) : wrong(call);
}

Plain sum(NaiveCall& call) {
  const auto all = aggregated(call);
  if (!all) return wrong(call);
  for (const Plain& item : *all) {
    if (!item.is(Kind::number)) return wrong(call);
  }
  if (all->empty()) return call.fault(Fault::remark);
  Plain total = plain(Decimal(0));
  for (const Plain& item : *all) {
    total = calculate(engine::Operation::add, total, item);
    if (total.is_null()) return wrong(call);
  }
  return total;
}

template <int wanted>
Plain extreme(NaiveCall& call) {
  const auto all = aggregated(call);
  if (!all) return wrong(call);
  if (all->empty()) return call.fault(Fault::remark);
  Plain best = all->front();
  for (const Plain& item : *all) {
    const auto place = order(item, best);
    if (!place) return wrong(call);
    if (*place == wanted) best = item;
  }
  return best;
}

template <bool deciding>
Plain junction(NaiveCall& call) {
  const auto all = aggregated(call);
  if (!all) return wrong(call);
  for (const Plain& item : *all) {
    if (!item.is(Kind::boolean) && !item.is_null()) return wrong(call);
  }
  bool unknown = false;
  for (const Plain& item : *all) {
    if (item.is_null()) unknown = true;
    if (item.is(Kind::boolean) && item.truth == deciding) return plain(deciding);
  }
  return unknown ? Plain() : plain(!deciding);
}

// --- lists ---

Plain list_contains(NaiveCall& call) {
  const auto all = items(call, 0);
  if (!all) return wrong(call);
  for (const Plain& item : *all) {
    if (equal(item, call.arguments[1]) == true) return plain(true);
  }
  return plain(false);
}

Plain index_of(NaiveCall& call) {
  const auto all = items(call, 0);
  if (!all) return wrong(call);
  Items found;
  for (std::size_t i = 0; i < all->size(); ++i) {
    if (equal((*all)[i], call.arguments[1]) == true) found.push_back(whole(i + 1));
  }
  return plain_list(std::move(found));
}

Plain append(NaiveCall& call) {
  auto all = items(call, 0);
  if (!all) return wrong(call);
  all->insert(all->end(), call.arguments.begin() + 1, call.arguments.end());
  return plain_list(std::move(*all));
}

Plain concatenate(NaiveCall& call) {
  Items all;
  for (std::size_t i = 0; i < call.arguments.size(); ++i) {
    const auto more = items(call, i);
    if (!more) return wrong(call);
    all.insert(all.end(), more->begin(), more->end());
  }
  return plain_list(std::move(all));
}

Plain distinct_values(NaiveCall& call) {
  const auto all = items(call, 0);
  if (!all) return wrong(call);
  Items kept;
  for (const Plain& item : *all) {
    const bool known =
        std::any_of(kept.begin(), kept.end(), [&](const Plain& k) { return equal(k, item) == true; });
    if (!known) kept.push_back(item);
  }
  return plain_list(std::move(kept));
}

Plain reverse(NaiveCall& call) {
  auto all = items(call, 0);
  if (!all) return wrong(call);
  std::reverse(all->begin(), all->end());
  return plain_list(std::move(*all));
}

void flatten_into(const Items& items, Items& flat) {
  for (const Plain& item : items) {
    if (item.is(Kind::list)) {
      flatten_into(item.items, flat);
    } else {
      flat.push_back(item);
    }
  }
}

Plain flatten(NaiveCall& call) {
  const auto all = items(call, 0);
  if (!all) return wrong(call);
  Items flat;
  flatten_into(*all, flat);
  return plain_list(std::move(flat));
}

// By insertion: an item moves before those that it precedes.
Plain sort(NaiveCall& call) {
  const auto all = items(call, 0);
  if (!all || !call.arguments[1].is(Kind::function)) return wrong(call);
  Items sorted;
  for (const Plain& item : *all) {
    std::size_t at = sorted.size();
    while (at > 0) {
      const Plain precedes = (*call.arguments[1].function)({item, sorted[at - 1]});
      if (!precedes.is(Kind::boolean)) return wrong(call);
      if (!precedes.truth) break;
      --at;
    }
    sorted.insert(sorted.begin() + static_cast<std::ptrdiff_t>(at), item);
  }
  return plain_list(std::move(sorted));
}

// --- strings: the generator makes none but ASCII ---

Plain string_length(NaiveCall& call) {
  const Plain* text = argument(call, 0, Kind::string);
  return text ? whole(text->text.size()) : wrong(call);
}

Plain substring(NaiveCall& call) {
  const Plain* text = argument(call, 0, Kind::string);
  const Plain* start = argument(call, 1, Kind::number);
  const Plain* length = call.arguments.size() > 2 ? argument(call, 2, Kind::number) : nullptr;
  if (!text || !start || (call.arguments.size() > 2 && !length)) return wrong(call);
  const auto at = place(*start, text->text.size());
  if (!at) return wrong(call);
  if (!length) return plain(text->text.substr(*at));
  if (length->number < Decimal(1)) return wrong(call);
  const auto count = length->number.truncated_to_int64();
  return plain(text->text.substr(*at, count ? static_cast<std::size_t>(*count) : std::string::npos));
}

Plain contains_text(NaiveCall& call) {
  const Plain* text = argument(call, 0, Kind::string);
  const Plain* match = argument(call, 1, Kind::string);
  return text && match ? plain(text->text.find(match->text) != std::string::npos) : wrong(call);
}

Plain starts_with(NaiveCall& call) {
  const Plain* text = argument(call, 0, Kind::string);
  const Plain* match = argument(call, 1, Kind::string);
  return text && match ? plain(text->text.rfind(match->text, 0) == 0) : wrong(call);
}

Plain upper_case(NaiveCall& call) {
  const Plain* text = argument(call, 0, Kind::string);
  if (!text) return wrong(call);
  std::string upper = text->text;
  for (char& c : upper) c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
  return plain(upper);
}

// --- numbers, truth, contexts ---

Plain absolute(NaiveCall& call) {
  const Plain& value = call.arguments[0];
  const bool below_zero = (value.is(Kind::number) && value.number < Decimal(0)) ||
                          (value.is(Kind::years_and_months) && value.months.count < 0) ||
                          (value.is(Kind::days_and_time) && value.duration.seconds < 0);
  if (below_zero) return negative(value);
  const bool fits =
      value.is(Kind::number) || value.is(Kind::years_and_months) || value.is(Kind::days_and_time);
  return fits ? value : wrong(call);
}

Plain floor(NaiveCall& call) {
  const Plain* number = argument(call, 0, Kind::number);
  if (!number) return wrong(call);
  const auto result = engine::round(number->number, 0, engine::Rounding::floor);
  return result ? plain(*result) : wrong(call);
}

Plain modulo(NaiveCall& call) {
  const Plain* dividend = argument(call, 0, Kind::number);
  const Plain* divisor = argument(call, 1, Kind::number);
  if (!dividend || !divisor) return wrong(call);
  const auto result = engine::modulo(dividend->number, divisor->number);
  return result ? plain(*result) : wrong(call);
}

Plain negation(NaiveCall& call) {
  if (call.arguments[0].is_null()) return {};
  const Plain* truth = argument(call, 0, Kind::boolean);
  return truth ? plain(!truth->truth) : wrong(call);
}

Plain get_value(NaiveCall& call) {
  const Plain* context = argument(call, 0, Kind::context);
  const Plain* key = argument(call, 1, Kind::string);
  if (!context || !key) return wrong(call);
  for (const auto& [name, value] : context->entries) {
    if (name == key->text) return value;
  }
  return call.fault(Fault::remark);
}

constexpr NaiveBuiltin known[] = {
    {"count", 1, any_number, count},
    {"sum", 1, any_number, sum},
    {"min", 1, any_number, extreme<-1>},
    {"max", 1, any_number, extreme<1>},
    {"all", 1, any_number, junction<false>},
    {"any", 1, any_number, junction<true>},
    {"list contains", 2, 2, list_contains},
    {"index of", 2, 2, index_of},
    {"append", 1, any_number, append},
    {"concatenate", 1, any_number, concatenate},
    {"distinct values", 1, 1, distinct_values},
    {"reverse", 1, 1, reverse},
    {"flatten", 1, 1, flatten},
    {"sort", 2, 2, sort},
    {"string length", 1, 1, string_length},
    {"substring", 2, 3, substring},
    {"contains", 2, 2, contains_text},
    {"starts with", 2, 2, starts_with},
    {"upper case", 1, 1, upper_case},
    {"abs", 1, 1, absolute},
    {"floor", 1, 1, floor},
    {"modulo", 2, 2, modulo},
    {"not", 1, 1, negation},
    {"get value", 2, 2, get_value},
};

}  // namespace

const NaiveBuiltin* naive_builtin(std::string_view name) {
  for (const NaiveBuiltin& builtin : known) {
    if (builtin.name == name) return &builtin;
  }
  return nullptr;
}

}  // namespace testing
