// Built-ins that make lists of lists, or look into them. Source: DMN 1.5, table 76 (list functions).

#include <algorithm>

#include "builtins/arguments.h"
#include "evaluate/function.h"

namespace engine {

namespace {

using Items = std::span<const Value>;

Value out_of_range(const BuiltinCall& call, const Value& position, std::size_t size) {
  return call.bad("there is no position " + position.number().text() + " in a list of " +
                  std::to_string(size));
}

Value list_contains(const BuiltinCall& call) {
  const auto items = items_of(call);
  if (!items) return {};
  const auto found = std::any_of(items->begin(), items->end(), [&](const Value& item) {
    return equal(call.state, item, call[1]) == Logic::yes;
  });
  return Value::of(static_cast<bool>(found));
}

Value index_of(const BuiltinCall& call) {
  const auto items = items_of(call);
  if (!items) return {};
  std::vector<Value> positions;
  for (std::size_t i = 0; i < items->size(); ++i) {
    if (equal(call.state, (*items)[i], call[1]) == Logic::yes) {
      positions.push_back(Value::number(static_cast<std::int64_t>(i) + 1));
    }
  }
  return new_list(call, positions);
}

// Policy: a length that reaches beyond the end takes what there is, as in XPath's subsequence.
Value sublist(const BuiltinCall& call) {
  const auto items = items_of(call);
  if (!items) return {};
  if (!call[1].is(Kind::number)) return call.wrong(1, "number");
  const auto start = place_of(call[1].number(), items->size());
  if (!start) return out_of_range(call, call[1], items->size());
  const Items rest = items->subspan(*start);
  if (call.count() == 2) return Value::list(call.arena().keep(rest));
  if (!call[2].is(Kind::number)) return call.wrong(2, "number");
  const Decimal length = call[2].number();
  if (length < Decimal(0)) return call.bad("a length cannot be negative");
  const std::size_t most = rest.size();
  const auto whole = length.truncated_to_int64();
  const bool within = whole && static_cast<std::uint64_t>(*whole) < most;
  return new_list(call, rest.first(within ? static_cast<std::size_t>(*whole) : most));
}

Value append(const BuiltinCall& call) {
  const auto items = items_of(call);
  if (!items) return {};
  std::vector<Value> all(items->begin(), items->end());
  all.insert(all.end(), call.arguments.begin() + 1, call.arguments.end());
  return new_list(call, all);
}

std::optional<std::vector<Value>> joined(const BuiltinCall& call) {
  std::vector<Value> all;
  for (std::size_t i = 0; i < call.count(); ++i) {
    const auto items = items_of(call, i);
    if (!items) return std::nullopt;
    all.insert(all.end(), items->begin(), items->end());
  }
  return all;
}

Value concatenate(const BuiltinCall& call) {
  const auto all = joined(call);
  return all ? new_list(call, *all) : Value();
}

// The first of each group of equal items. Every pair may have to be compared: each comparison counts as a
// step.
Value distinct(const BuiltinCall& call, Items items) {
  std::vector<Value> kept;
  for (const Value& item : items) {
    call.state.steps += kept.size();
    if (!call.state.step(call.at)) return {};
    const bool known = std::any_of(kept.begin(), kept.end(), [&](const Value& earlier) {
      return equal(call.state, earlier, item) == Logic::yes;
    });
    if (!known) kept.push_back(item);
  }
  return new_list(call, kept);
}

Value distinct_values(const BuiltinCall& call) {
  const auto items = items_of(call);
  return items ? distinct(call, *items) : Value();
}

Value union_of(const BuiltinCall& call) {
  const auto all = joined(call);
  return all ? distinct(call, *all) : Value();
}

Value insert_before(const BuiltinCall& call) {
  const auto items = items_of(call);
  if (!items) return {};
  if (!call[1].is(Kind::number)) return call.wrong(1, "number");
  const auto place = place_of(call[1].number(), items->size());
  if (!place) return out_of_range(call, call[1], items->size());
  std::vector<Value> all(items->begin(), items->end());
  all.insert(all.begin() + static_cast<std::ptrdiff_t>(*place), call[2]);
  return new_list(call, all);
}

Value remove_item(const BuiltinCall& call) {
  const auto items = items_of(call);
  if (!items) return {};
  if (!call[1].is(Kind::number)) return call.wrong(1, "number");
  const auto place = place_of(call[1].number(), items->size());
  if (!place) return out_of_range(call, call[1], items->size());
  std::vector<Value> rest(items->begin(), items->end());
  rest.erase(rest.begin() + static_cast<std::ptrdiff_t>(*place));
  return new_list(call, rest);
}

// What a function that was passed in says of two values; no value, noted, when that is no boolean.
std::optional<bool> verdict(const BuiltinCall& call, const Value& function, const Value& a, const Value& b) {
  if (!call.state.step(call.at)) return std::nullopt;
  const Value arguments[] = {a, b};
  const Value answer = engine::call(call.state, call.at, function.function(), arguments);
  if (answer.is(Kind::boolean)) return answer.boolean();
  call.bad("the function gave a " + std::string(type_name(answer.kind())) + ", expected a boolean");
  return std::nullopt;
}

Value replace_matches(const BuiltinCall& call, Items items) {
  std::vector<Value> all;
  all.reserve(items.size());
  for (const Value& item : items) {
    const auto matches = verdict(call, call[1], item, call[2]);
    if (!matches) return {};
    all.push_back(*matches ? call[2] : item);
  }
  return new_list(call, all);
}

Value list_replace(const BuiltinCall& call) {
  const auto items = items_of(call);
  if (!items) return {};
  if (call[1].is(Kind::function)) return replace_matches(call, *items);
  if (!call[1].is(Kind::number)) return call.wrong(1, "number or function");
  const auto place = place_of(call[1].number(), items->size());
  if (!place) return out_of_range(call, call[1], items->size());
  std::vector<Value> all(items->begin(), items->end());
  all[*place] = call[2];
  return new_list(call, all);
}

Value reverse(const BuiltinCall& call) {
  const auto items = items_of(call);
  return items ? new_list(call, std::vector<Value>(items->rbegin(), items->rend())) : Value();
}

// Without recursion: lists may be nested deeper than the machine's stack.
Value flatten(const BuiltinCall& call) {
  const auto items = items_of(call);
  if (!items) return {};
  std::vector<Value> flat;
  std::vector<Items> open = {*items};
  while (!open.empty()) {
    if (!call.state.step(call.at)) return {};
    if (open.back().empty()) {
      open.pop_back();
      continue;
    }
    const Value& next = open.back().front();
    open.back() = open.back().subspan(1);
    if (next.is(Kind::list)) {
      open.push_back(next.list());
    } else {
      flat.push_back(next);
    }
  }
  return new_list(call, flat);
}

// One round of a merge sort: pairs of sorted runs of `width` become one. False when the function gave no
// answer. Written out, since std::stable_sort may not be given a function that contradicts itself.
bool merge_runs(const BuiltinCall& call, const std::vector<Value>& from, std::vector<Value>& to,
                std::size_t width) {
  for (std::size_t start = 0; start < from.size(); start += 2 * width) {
    const std::size_t middle = std::min(start + width, from.size());
    const std::size_t end = std::min(middle + width, from.size());
    std::size_t left = start;
    std::size_t right = middle;
    for (std::size_t i = start; i < end; ++i) {
      bool takes_right = left == middle;
      if (left < middle && right < end) {
        const auto precedes = verdict(call, call[1], from[right], from[left]);
        if (!precedes) return false;
        takes_right = *precedes;
      }
      to[i] = takes_right ? from[right++] : from[left++];
    }
  }
  return true;
}

Value sort(const BuiltinCall& call) {
  const auto items = items_of(call);
  if (!items) return {};
  if (!call[1].is(Kind::function)) return call.wrong(1, "function");
  std::vector<Value> sorted(items->begin(), items->end());
  std::vector<Value> merged(sorted.size());
  for (std::size_t width = 1; width < sorted.size(); width *= 2) {
    if (!merge_runs(call, sorted, merged, width)) return {};
    sorted.swap(merged);
  }
  return new_list(call, sorted);
}

}  // namespace

void add_list_builtins(std::vector<Builtin>& all) {
  using Result = Type::Kind;
  const std::vector<Signature> list = {{{"list"}, 1}};
  const std::vector<Signature> lists = {{{"list"}, 1, true}};
  const std::vector<Builtin> own = {
      {"list contains", list_contains, {{{"list", "element"}, 2}}, Result::boolean},
      {"index of", index_of, {{{"list", "match"}, 2}}, Result::list},
      {"sublist", sublist, {{{"list", "start position", "length"}, 2}}, Result::list},
      {"append", append, {{{"list", "item"}, 2, true}}, Result::list},
      {"concatenate", concatenate, lists, Result::list},
      {"union", union_of, lists, Result::list},
      {"distinct values", distinct_values, list, Result::list},
      {"insert before", insert_before, {{{"list", "position", "newItem"}, 3}}, Result::list},
      {"remove", remove_item, {{{"list", "position"}, 2}}, Result::list},
      {"list replace",
       list_replace,
       {{{"list", "position", "newItem"}, 3}, {{"list", "match", "newItem"}, 3}},
       Result::list},
      {"reverse", reverse, list, Result::list},
      {"flatten", flatten, list, Result::list},
      {"sort", sort, {{{"list", "precedes"}, 2}}, Result::list},
  };
  all.insert(all.end(), own.begin(), own.end());
}

}  // namespace engine
