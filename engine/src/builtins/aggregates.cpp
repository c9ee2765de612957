// Built-ins that make one value of many. Source: DMN 1.5, table 76 (list functions).
//
// All take one list or several arguments. Of no items: `count` is 0, `mode` is [], `all` true, `any` false;
// the others have no value. That is null with a note, not an error, where a rule may well ask it (`max` of no
// lesions); `product` and `stddev` call it an error, as the public conformance cases do.

#include <algorithm>

#include "builtins/arguments.h"

namespace engine {

namespace {

Value of_nothing(const BuiltinCall& call) {
  return call.state.fault(call.at, "empty_list", "`" + std::string(call.name) + "` of no items is null",
                          Severity::info);
}

/// The items as numbers. No value, with a diagnostic, when one of them is none.
std::optional<std::vector<Decimal>> numbers_of(const BuiltinCall& call) {
  const auto items = aggregated_items(call);
  if (!items) return std::nullopt;
  std::vector<Decimal> numbers;
  numbers.reserve(items->size());
  for (const Value& item : *items) {
    if (!item.is(Kind::number)) {
      call.bad("item " + std::to_string(numbers.size() + 1) + " is a " + std::string(type_name(item.kind())) +
               ", expected a number");
      return std::nullopt;
    }
    call.state.calculates_with(item);
    numbers.push_back(item.number());
  }
  return numbers;
}

using Combination = std::optional<Decimal> (*)(const Decimal&, const Decimal&);

std::optional<Decimal> combined(const std::vector<Decimal>& numbers, Combination combine,
                                const Decimal& neutral) {
  std::optional<Decimal> result = neutral;
  for (const Decimal& number : numbers) {
    if (result) result = combine(*result, number);
  }
  return result;
}

std::optional<Decimal> mean_of(const std::vector<Decimal>& numbers) {
  const auto sum = combined(numbers, add, 0);
  return sum ? divide(*sum, Decimal(static_cast<std::int64_t>(numbers.size()))) : std::nullopt;
}

Value count(const BuiltinCall& call) {
  const auto items = aggregated_items(call);
  return items ? Value::number(static_cast<std::int64_t>(items->size())) : Value();
}

Value sum(const BuiltinCall& call) {
  const auto numbers = numbers_of(call);
  if (!numbers) return {};
  if (numbers->empty()) return of_nothing(call);
  return number_or_fault(call, combined(*numbers, add, 0));
}

Value product(const BuiltinCall& call) {
  const auto numbers = numbers_of(call);
  if (!numbers) return {};
  if (numbers->empty()) return call.bad("a product needs at least one number");
  return number_or_fault(call, combined(*numbers, multiply, 1));
}

Value mean(const BuiltinCall& call) {
  const auto numbers = numbers_of(call);
  if (!numbers) return {};
  if (numbers->empty()) return of_nothing(call);
  return number_or_fault(call, mean_of(*numbers));
}

Value median(const BuiltinCall& call) {
  auto numbers = numbers_of(call);
  if (!numbers) return {};
  if (numbers->empty()) return of_nothing(call);
  std::sort(numbers->begin(), numbers->end());
  const std::size_t middle = numbers->size() / 2;
  if (numbers->size() % 2 == 1) return Value::number((*numbers)[middle], call.arena());
  return number_or_fault(call, mean_of({(*numbers)[middle - 1], (*numbers)[middle]}));
}

// Of a sample: divided by one less than the count.
Value standard_deviation(const BuiltinCall& call) {
  const auto numbers = numbers_of(call);
  if (!numbers) return {};
  if (numbers->size() < 2) return call.bad("a standard deviation needs at least two numbers");
  const auto middle = mean_of(*numbers);
  std::optional<Decimal> squares = Decimal(0);
  for (const Decimal& number : *numbers) {
    const auto distance = middle ? subtract(number, *middle) : std::nullopt;
    const auto square = distance ? multiply(*distance, *distance) : std::nullopt;
    squares = squares && square ? add(*squares, *square) : std::nullopt;
  }
  const auto others = Decimal(static_cast<std::int64_t>(numbers->size()) - 1);
  const auto variance = squares ? divide(*squares, others) : std::nullopt;
  return number_or_fault(call, variance ? square_root(*variance) : std::nullopt);
}

// The most frequent numbers, in ascending order.
Value mode(const BuiltinCall& call) {
  auto numbers = numbers_of(call);
  if (!numbers) return {};
  std::sort(numbers->begin(), numbers->end());
  std::vector<Value> modes;
  std::ptrdiff_t most = 0;
  for (auto run = numbers->begin(); run != numbers->end();) {
    const auto end = std::upper_bound(run, numbers->end(), *run);
    if (end - run > most) modes.clear();
    if (end - run >= most) modes.push_back(Value::number(*run, call.arena()));
    most = std::max(most, end - run);
    run = end;
  }
  return new_list(call, modes);
}

// The first of the items that no other item stands before, or after.
template <bool wants_largest>
Value extreme(const BuiltinCall& call) {
  const auto items = aggregated_items(call);
  if (!items) return {};
  if (items->empty()) return of_nothing(call);
  Value best = items->front();
  for (const Value& item : *items) {
    const std::partial_ordering ordering = order(item, best);
    if (ordering == std::partial_ordering::unordered) {
      return call.bad("a " + std::string(type_name(item.kind())) + " and a " +
                      std::string(type_name(best.kind())) + " with these values cannot be ordered");
    }
    if (wants_largest ? ordering > 0 : ordering < 0) best = item;
  }
  return best;
}

// FEEL's `and` or `or` over all items. Policy: an item that is no boolean is an error even next to one that
// decides.
template <bool deciding>
Value junction(const BuiltinCall& call) {
  const auto items = aggregated_items(call);
  if (!items) return {};
  bool decided = false;
  bool unknown = false;
  for (const Value& item : *items) {
    if (!item.is(Kind::boolean) && !item.is_null()) {
      return call.bad("an item is a " + std::string(type_name(item.kind())) + ", expected a boolean");
    }
    decided = decided || (item.is(Kind::boolean) && item.boolean() == deciding);
    unknown = unknown || item.is_null();
  }
  if (decided) return Value::of(deciding);
  return unknown ? Value() : Value::of(!deciding);
}

}  // namespace

void add_aggregate_builtins(std::vector<Builtin>& all) {
  using Result = Type::Kind;
  const std::vector<Signature> list = {{{"list"}, 1, true}};
  const std::vector<Builtin> own = {
      {"count", count, list, Result::number},
      {"min", extreme<false>, list, Result::any},
      {"max", extreme<true>, list, Result::any},
      {"sum", sum, list, Result::number},
      {"mean", mean, list, Result::number},
      {"median", median, list, Result::number},
      {"product", product, list, Result::number},
      {"stddev", standard_deviation, list, Result::number},
      {"mode", mode, list, Result::list},
      {"all", junction<false>, list, Result::boolean},
      {"any", junction<true>, list, Result::boolean},
  };
  all.insert(all.end(), own.begin(), own.end());
}

}  // namespace engine
