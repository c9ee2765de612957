// INTERIM: lets the engine link until index.cpp and value/*.cpp are here. Delete this file then.
#include <algorithm>

#include "builtins/index.h"
#include "evaluate/convert.h"
#include "evaluate/function.h"
namespace engine {
Value BuiltinCall::wrong(std::size_t, std::string_view) const { return bad("wrong argument"); }
namespace {
Value nothing(const BuiltinCall& c) { return c.bad("not here yet"); }
std::vector<Value> items(const BuiltinCall& c) {
  if (c.count() == 1 && c[0].is(Kind::list)) return {c[0].list().begin(), c[0].list().end()};
  return {c.arguments.begin(), c.arguments.end()};
}
Value list(const BuiltinCall& c, const std::vector<Value>& v) { return Value::list(c.arena().keep(std::span<const Value>(v))); }
Value count(const BuiltinCall& c) { return Value::number(static_cast<std::int64_t>(items(c).size())); }
Value sum(const BuiltinCall& c) {
  auto v = items(c);
  if (v.empty()) return {};
  Value r = Value::number(0);
  for (auto& x : v) r = arithmetic(c.state, c.at, Operation::add, r, x);
  return r;
}
Value extreme(const BuiltinCall& c, bool least) {
  auto v = items(c);
  if (v.empty()) return {};
  Value r = v[0];
  for (auto& x : v) if (least ? order(x, r) < 0 : order(x, r) > 0) r = x;
  return r;
}
Value min_(const BuiltinCall& c) { return extreme(c, true); }
Value max_(const BuiltinCall& c) { return extreme(c, false); }
Value not_(const BuiltinCall& c) { return c[0].is(Kind::boolean) ? Value::of(!c[0].boolean()) : Value(); }
Value string(const BuiltinCall& c) { return Value::string(text_of(c[0]), c.arena()); }
Value join(const BuiltinCall& c) {
  std::string s; bool first = true;
  for (auto& x : c[0].list()) { if (x.is_null()) continue; if (!first && c.count() > 1) s += c[1].string(); first = false; s += x.string(); }
  return Value::string(s, c.arena());
}
Value contains_(const BuiltinCall& c) {
  for (auto& x : c[0].list()) if (equal(c.state, x, c[1]) == Logic::yes) return Value::of(true);
  return Value::of(false);
}
Value concatenate(const BuiltinCall& c) {
  std::vector<Value> v;
  for (auto& l : c.arguments) { if (l.is(Kind::list)) v.insert(v.end(), l.list().begin(), l.list().end()); else v.push_back(l); }
  return list(c, v);
}
Value append(const BuiltinCall& c) {
  std::vector<Value> v(c[0].list().begin(), c[0].list().end());
  v.insert(v.end(), c.arguments.begin() + 1, c.arguments.end());
  return list(c, v);
}
Value distinct(const BuiltinCall& c) {
  std::vector<Value> v;
  for (auto& x : items(c)) if (std::none_of(v.begin(), v.end(), [&](auto& y) { return equal(c.state, x, y) == Logic::yes; })) v.push_back(x);
  return list(c, v);
}
void flat(const Value& x, std::vector<Value>& v) { if (x.is(Kind::list)) for (auto& y : x.list()) flat(y, v); else v.push_back(x); }
Value flatten(const BuiltinCall& c) { std::vector<Value> v; flat(c[0], v); return list(c, v); }
Value sort(const BuiltinCall& c) {
  std::vector<Value> v(c[0].list().begin(), c[0].list().end());
  std::stable_sort(v.begin(), v.end(), [&](auto& a, auto& b) { Value p[2] = {a, b}; return call(c.state, c.at, c[1].function(), p).is_true(); });
  return list(c, v);
}
Value reverse(const BuiltinCall& c) { std::vector<Value> v(c[0].list().rbegin(), c[0].list().rend()); return list(c, v); }
Value duration(const BuiltinCall& c) {
  auto d = parse_duration(c[0].string());
  return d ? std::visit([](auto& x) { return Value::of(x); }, *d) : Value();
}
Value date(const BuiltinCall& c) {
  if (c.count() == 3) { auto d = make_date(c[0].plain_integer(), c[1].plain_integer(), c[2].plain_integer()); return d ? Value::of(*d) : Value(); }
  if (!c[0].is(Kind::string)) return c[0];
  auto d = parse_date(c[0].string());
  return d ? Value::of(*d) : Value();
}
Value ymd(const BuiltinCall& c) { if (!c[0].is(Kind::date) || !c[1].is(Kind::date)) return c.bad("dates"); return Value::of(months_between(c[0].date(), c[1].date())); }
Value index_of(const BuiltinCall& c) {
  std::vector<Value> v; std::int64_t i = 0;
  for (auto& x : c[0].list()) { ++i; if (equal(c.state, x, c[1]) == Logic::yes) v.push_back(Value::number(i)); }
  return list(c, v);
}
Value sublist(const BuiltinCall& c) {
  auto l = c[0].list(); auto from = c[1].plain_integer() - 1; auto n = c.count() > 2 ? c[2].plain_integer() : static_cast<std::int64_t>(l.size()) - from;
  std::vector<Value> v; for (auto i = from; i < from + n; ++i) v.push_back(l[static_cast<std::size_t>(i)]);
  return list(c, v);
}
Value put(const BuiltinCall& c) {
  std::vector<std::string_view> k; std::vector<Value> v; const Context& x = c[0].context(); bool done = false;
  for (std::uint32_t i = 0; i < x.size; ++i) { k.push_back(x.keys[i]); bool same = x.keys[i] == c[1].string(); done = done || same; v.push_back(same ? c[2] : x.values[i]); }
  if (!done) { k.push_back(c[1].string()); v.push_back(c[2]); }
  return make_context(c.arena().keep(std::span<const std::string_view>(k)), c.arena().keep(std::span<const Value>(v)), c.arena());
}
Value all_(const BuiltinCall& c) { for (auto& x : items(c)) if (!x.is_true()) return Value::of(false); return Value::of(true); }
Value any_(const BuiltinCall& c) { for (auto& x : items(c)) if (x.is_true()) return Value::of(true); return Value::of(false); }
}  // namespace
const std::vector<Builtin>& builtins() {
  static const std::vector<Builtin> b = [] {
    std::vector<Builtin> v;
    const auto add = [&](const char* n, Value (*f)(const BuiltinCall&), Type::Kind k = Type::Kind::any) { v.push_back({n, f, {{{"list"}, 0, true}}, k}); };
    add("count", count, Type::Kind::number); add("sum", sum, Type::Kind::number); add("min", min_); add("max", max_); add("not", not_, Type::Kind::boolean);
    add("string", string, Type::Kind::string); add("string join", join, Type::Kind::string); add("list contains", contains_, Type::Kind::boolean);
    add("concatenate", concatenate, Type::Kind::list); add("append", append, Type::Kind::list); add("distinct values", distinct, Type::Kind::list);
    add("flatten", flatten, Type::Kind::list); add("sort", sort, Type::Kind::list); add("duration", duration); add("date", date, Type::Kind::date);
    add("years and months duration", ymd, Type::Kind::years_and_months); add("reverse", reverse, Type::Kind::list); add("index of", index_of, Type::Kind::list);
    add("sublist", sublist, Type::Kind::list); add("context put", put, Type::Kind::context); add("all", all_, Type::Kind::boolean); add("any", any_, Type::Kind::boolean); add("union", concatenate, Type::Kind::list);
    for (const char* n : {"is", "get value", "mean", "context merge", "abs", "floor", "number", "lower case", "upper case", "remove", "substring", "starts with", "contains"}) add(n, nothing);
    return v;
  }();
  return b;
}
const Type* builtin_result_type(std::uint32_t i, TypeStore&) { return basic_type(builtins()[i].result); }
const Scope& builtin_scope() {
  static const Scope* s = [] { auto* x = new Scope(nullptr, nullptr); for (std::uint32_t i = 0; i < builtins().size(); ++i) x->add(builtins()[i].name, {Binding::Kind::builtin, 0, i}); return x; }();
  return *s;
}
std::string text_of(const Value& v) {
  switch (v.kind()) {
    case Kind::string: return std::string(v.string());
    case Kind::date: return text_of(v.date());
    case Kind::years_and_months: return text_of(v.months());
    default: return literal_of(v);
  }
}
std::string literal_of(const Value& v) {
  std::string s;
  switch (v.kind()) {
    case Kind::null: return "null";
    case Kind::boolean: return v.boolean() ? "true" : "false";
    case Kind::number: return v.number().text();
    case Kind::string: return '"' + std::string(v.string()) + '"';
    case Kind::date: return "date(\"" + text_of(v.date()) + "\")";
    case Kind::years_and_months: return "duration(\"" + text_of(v.months()) + "\")";
    case Kind::days_and_time: return "duration(\"" + text_of(v.duration()) + "\")";
    case Kind::list: for (auto& x : v.list()) s += (s.empty() ? "" : ", ") + literal_of(x); return "[" + s + "]";
    case Kind::context: for (std::uint32_t i = 0; i < v.context().size; ++i) s += (s.empty() ? "" : ", ") + std::string(v.context().keys[i]) + ": " + literal_of(v.context().values[i]); return "{" + s + "}";
    default: return "?";
  }
}
std::string_view type_name(Kind k) {
  static const char* n[] = {"null", "boolean", "number", "string", "date", "time", "date and time", "years and months duration", "days and time duration", "list", "context", "range", "function", "open fact"};
  return n[static_cast<int>(k)];
}
Value copy(const Value& v, Arena& a) {
  if (v.is(Kind::string)) return Value::string(v.string(), a);
  if (v.is(Kind::list)) { std::vector<Value> x; for (auto& i : v.list()) x.push_back(copy(i, a)); return Value::list(a.keep(std::span<const Value>(x))); }
  if (v.is(Kind::context)) { std::vector<Value> x; std::vector<std::string_view> k; for (std::uint32_t i = 0; i < v.context().size; ++i) { x.push_back(copy(v.context().values[i], a)); k.push_back(a.keep(v.context().keys[i])); } return make_context(a.keep(std::span<const std::string_view>(k)), a.keep(std::span<const Value>(x)), a); }
  if (v.is(Kind::number)) return Value::number(v.number(), a);
  return v;
}
Value make_context(std::span<const std::string_view> k, std::span<const Value> v, Arena& a) { return Value::of(static_cast<const Context*>(a.make<Context>(static_cast<std::uint32_t>(k.size()), k.data(), v.data()))); }
Result<Value> value_from_json(std::string_view, Arena&) { return Error{"interim", "not here yet", {}, {}}; }
}  // namespace engine
