#include "builtins/arguments.h"

namespace engine {

namespace {

Value out_of_room(const BuiltinCall& call, const char* what, std::uint32_t most) {
  call.state.exhausted = true;
  call.state.has_error = true;
  return call.state.fault(call.at, "budget_exhausted",
                          std::string(what) + " became longer than " + std::to_string(most));
}

}  // namespace

std::optional<Value> misfit(const BuiltinCall& call, std::initializer_list<Kind> kinds) {
  std::size_t i = 0;
  for (const Kind kind : kinds) {
    if (i == call.count()) break;
    const bool wrapped = call[i].is(Kind::list) && call[i].list().size() == 1 && call[i].list()[0].is(kind);
    if (wrapped && kind != Kind::list) call.arguments[i] = call[i].list()[0];
    if (!call[i].is(kind)) return call.wrong(i, type_name(kind));
    ++i;
  }
  return std::nullopt;
}

std::optional<std::span<const Value>> items_of(const BuiltinCall& call, std::size_t i) {
  const Value& value = call[i];
  if (value.is(Kind::list)) return value.list();
  if (!value.is_null()) return std::span<const Value>(&value, 1);
  call.wrong(i, "list");
  return std::nullopt;
}

std::optional<std::span<const Value>> aggregated_items(const BuiltinCall& call) {
  if (call.count() == 1) return items_of(call);
  return call.arguments;
}

std::optional<std::size_t> place_of(const Decimal& position, std::size_t size) {
  const std::optional<std::int64_t> whole = position.truncated_to_int64();
  const auto length = static_cast<std::int64_t>(size);
  if (!whole || *whole == 0 || *whole > length || *whole < -length) return std::nullopt;
  return static_cast<std::size_t>(*whole > 0 ? *whole - 1 : length + *whole);
}

Value new_list(const BuiltinCall& call, std::span<const Value> items) {
  const std::uint32_t most = call.state.budget.list_length;
  if (items.size() > most) return out_of_room(call, "a list", most);
  return Value::list(call.arena().keep(items));
}

Value new_string(const BuiltinCall& call, std::string_view text) {
  const std::uint32_t most = call.state.budget.string_length;
  if (text.size() > most) return out_of_room(call, "the bytes of a string", most);
  return Value::string(text, call.arena());
}

Value number_or_fault(const BuiltinCall& call, const std::optional<Decimal>& number) {
  if (!number) return call.bad("there is no result for this number");
  return Value::number(*number, call.arena());
}

}  // namespace engine
