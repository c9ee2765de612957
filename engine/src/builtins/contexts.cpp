// Built-ins on contexts. Source: DMN 1.5, table 82 (context functions).
//
// Entries are passed on as they stand, open facts included: only who reads an entry's value settles it.

#include <unordered_map>

#include "builtins/arguments.h"

namespace engine {

namespace {

/// A context in the making: keys in the order they came, the last value of each.
class Draft {
 public:
  Draft() = default;
  explicit Draft(const Context& context) { merge(context); }

  /// False when the key was there already.
  bool put(std::string_view key, const Value& value) {
    const auto [known, is_new] = places_.try_emplace(key, keys_.size());
    if (is_new) {
      keys_.push_back(key);
      values_.push_back(value);
    } else {
      values_[known->second] = value;
    }
    return is_new;
  }

  void merge(const Context& context) {
    for (std::uint32_t i = 0; i < context.size; ++i) put(context.keys[i], context.values[i]);
  }

  Value finish(Arena& arena) const {
    const std::span<const std::string_view> keys = arena.keep(std::span<const std::string_view>(keys_));
    const std::span<const Value> values = arena.keep(std::span<const Value>(values_));
    return make_context(keys, values, arena);
  }

 private:
  std::vector<std::string_view> keys_;
  std::vector<Value> values_;
  std::unordered_map<std::string_view, std::size_t> places_;
};

/// The value of `key`; no value when there is no such key.
std::optional<Value> entry(State& state, const Context& context, std::string_view key) {
  const std::uint32_t at = context.position(key);
  if (at == context.size) return std::nullopt;
  return state.settled(context.values[at]);
}

Value get_value(const BuiltinCall& call) {
  if (const auto fault = misfit(call, {Kind::context, Kind::string})) return *fault;
  const auto value = entry(call.state, call[0].context(), call[1].string());
  if (value) return *value;
  return call.state.fault(call.at, "no_such_key",
                          "there is no `" + std::string(call[1].string()) + "` in the context",
                          Severity::warning);
}

Value get_entries(const BuiltinCall& call) {
  static constexpr std::string_view keys[] = {"key", "value"};
  if (const auto fault = misfit(call, {Kind::context})) return *fault;
  const Context& context = call[0].context();
  std::vector<Value> entries;
  for (std::uint32_t i = 0; i < context.size; ++i) {
    const Value parts[] = {Value::string(context.keys[i]), context.values[i]};
    entries.push_back(make_context(keys, call.arena().keep(std::span<const Value>(parts)), call.arena()));
  }
  return new_list(call, entries);
}

Value context_of(const BuiltinCall& call) {
  const auto items = items_of(call);
  if (!items) return {};
  Draft draft;
  for (const Value& item : *items) {
    if (!item.is(Kind::context)) return call.bad("every entry must be a context with `key` and `value`");
    const auto key = entry(call.state, item.context(), "key");
    const std::uint32_t value = item.context().position("value");
    if (!key || !key->is(Kind::string)) return call.bad("an entry has no `key` that is a string");
    if (value == item.context().size)
      return call.bad("the entry `" + std::string(key->string()) + "` has no `value`");
    if (!draft.put(key->string(), item.context().values[value])) {
      return call.bad("the key `" + std::string(key->string()) + "` stands twice");
    }
  }
  return draft.finish(call.arena());
}

Value context_merge(const BuiltinCall& call) {
  const auto items = items_of(call);
  if (!items) return {};
  Draft draft;
  for (const Value& item : *items) {
    if (!item.is(Kind::context))
      return call.bad("a " + std::string(type_name(item.kind())) + " is no context");
    draft.merge(item.context());
  }
  return draft.finish(call.arena());
}

// Puts `value` where the path of keys leads, through contexts that are there already.
Value put_along(const BuiltinCall& call, std::span<const Value> path, const Value& value) {
  std::vector<const Context*> way = {&call[0].context()};
  for (const Value& key : path.first(path.size() - 1)) {
    const auto next = entry(call.state, *way.back(), key.string());
    if (!next || !next->is(Kind::context)) {
      return call.bad("there is no context at `" + std::string(key.string()) + "`");
    }
    way.push_back(&next->context());
  }
  Value result = value;
  for (std::size_t i = path.size(); i-- > 0;) {
    Draft draft(*way[i]);
    draft.put(path[i].string(), result);
    result = draft.finish(call.arena());
  }
  return result;
}

Value context_put(const BuiltinCall& call) {
  if (const auto fault = misfit(call, {Kind::context})) return *fault;
  const Value& key = call[1];
  const bool single = key.is(Kind::string);
  const bool named_key = call.named && call.named->names[1] == "key";
  if (!single && (named_key || !key.is(Kind::list)))
    return call.wrong(1, named_key ? "string" : "string or list");
  if (single && call.named && !named_key) return call.wrong(1, "list");
  const std::span<const Value> path = single ? std::span<const Value>(&key, 1) : key.list();
  if (path.empty()) return call.bad("the list of keys is empty");
  for (const Value& step : path) {
    if (!step.is(Kind::string)) return call.bad("a key is a " + std::string(type_name(step.kind())));
  }
  return put_along(call, path, call[2]);
}

}  // namespace

void add_context_builtins(std::vector<Builtin>& all) {
  using Result = Type::Kind;
  const std::vector<Builtin> own = {
      {"get value", get_value, {{{"m", "key"}, 2}}, Result::any},
      {"get entries", get_entries, {{{"m"}, 1}}, Result::list},
      {"context", context_of, {{{"entries"}, 1}}, Result::context},
      {"context put",
       context_put,
       {{{"context", "key", "value"}, 3}, {{"context", "keys", "value"}, 3}},
       Result::context},
      {"context merge", context_merge, {{{"contexts"}, 1}}, Result::context},
  };
  all.insert(all.end(), own.begin(), own.end());
}

}  // namespace engine
