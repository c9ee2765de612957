// Built-ins on numbers. Source: DMN 1.5, table 77 (numeric functions).

#include "builtins/arguments.h"

namespace engine {

namespace {

template <Rounding rounding>
Value rounded(const BuiltinCall& call) {
  if (const auto fault = misfit(call, {Kind::number, Kind::number})) return *fault;
  call.state.calculates_with(call[0]);
  // A scale with a fraction is cut, as positions are.
  const auto scale = call.count() > 1 ? call[1].number().truncated_to_int64() : std::int64_t{0};
  const auto result = scale ? round(call[0].number(), *scale, rounding) : std::nullopt;
  if (!result) return call.bad("the scale must lie between -6111 and 6176");
  return Value::number(*result, call.arena());
}

template <std::optional<Decimal> (*function)(const Decimal&)>
Value computed(const BuiltinCall& call) {
  if (const auto fault = misfit(call, {Kind::number})) return *fault;
  call.state.calculates_with(call[0]);
  return number_or_fault(call, function(call[0].number()));
}

Value absolute(const BuiltinCall& call) {
  const Value& value = call[0];
  switch (value.kind()) {
    case Kind::number:
      call.state.calculates_with(value);
      return Value::number(value.number().magnitude(), call.arena());
    case Kind::years_and_months: {
      const auto months = value.months().count < 0 ? negated(value.months()) : value.months();
      return months ? Value::of(*months) : call.bad("the duration is too long");
    }
    case Kind::days_and_time: {
      const auto duration = value.duration().seconds < 0 ? negated(value.duration()) : value.duration();
      return duration ? Value::of(*duration) : call.bad("the duration is too long");
    }
    default:
      return call.wrong(0, "number or duration");
  }
}

Value remainder(const BuiltinCall& call) {
  if (const auto fault = misfit(call, {Kind::number, Kind::number})) return *fault;
  call.state.calculates_with(call[0]);
  call.state.calculates_with(call[1]);
  return number_or_fault(call, modulo(call[0].number(), call[1].number()));
}

// Policy: a number that is not whole is neither odd nor even.
template <bool wanted_even>
Value parity(const BuiltinCall& call) {
  if (const auto fault = misfit(call, {Kind::number})) return *fault;
  call.state.calculates_with(call[0]);
  const Decimal number = call[0].number();
  if (!number.is_integer()) return Value::of(false);
  const auto rest = modulo(number, Decimal(2));
  return rest ? Value::of(rest->is_zero() == wanted_even) : call.bad("the number is too large");
}

}  // namespace

void add_number_builtins(std::vector<Builtin>& all) {
  using Result = Type::Kind;
  const std::vector<Signature> scaled = {{{"n", "scale"}, 2}};
  const std::vector<Signature> may_be_scaled = {{{"n", "scale"}, 1}};
  const std::vector<Signature> number = {{{"number"}, 1}};
  const std::vector<Builtin> own = {
      {"decimal", rounded<Rounding::half_even>, scaled, Result::number},
      {"floor", rounded<Rounding::floor>, may_be_scaled, Result::number},
      {"ceiling", rounded<Rounding::ceiling>, may_be_scaled, Result::number},
      {"round up", rounded<Rounding::up>, scaled, Result::number},
      {"round down", rounded<Rounding::down>, scaled, Result::number},
      {"round half up", rounded<Rounding::half_up>, scaled, Result::number},
      {"round half down", rounded<Rounding::half_down>, scaled, Result::number},
      {"abs", absolute, {{{"n"}, 1}}, Result::any},
      {"modulo", remainder, {{{"dividend", "divisor"}, 2}}, Result::number},
      {"sqrt", computed<square_root>, number, Result::number},
      {"log", computed<logarithm>, number, Result::number},
      {"exp", computed<exponential>, number, Result::number},
      {"odd", parity<false>, number, Result::boolean},
      {"even", parity<true>, number, Result::boolean},
  };
  all.insert(all.end(), own.begin(), own.end());
}

}  // namespace engine
