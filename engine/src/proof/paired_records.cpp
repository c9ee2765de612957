#include "proof/paired_records.h"

#include <algorithm>

namespace engine {

using nlohmann::json;

namespace {

/// `value` with the ids of its open facts moved on by `offset`.
Value moved(const Value& value, std::uint32_t offset, Arena& arena) {
  if (value.is(Kind::open_fact)) return Value::open_fact(value.fact() + offset);
  if (value.is(Kind::list)) {
    const std::span<const Value> items = value.list();
    Value* copies = arena.allocate<Value>(items.size());
    for (std::size_t i = 0; i < items.size(); ++i) copies[i] = moved(items[i], offset, arena);
    return Value::list({copies, items.size()});
  }
  if (!value.is(Kind::context)) return value;
  const Context& context = value.context();
  Value* copies = arena.allocate<Value>(context.size);
  for (std::uint32_t i = 0; i < context.size; ++i) copies[i] = moved(context.values[i], offset, arena);
  return Value::of(static_cast<const Context*>(arena.make<Context>(context.size, context.keys, copies)));
}

/// `exam.lesions[0].size_mm` as a JSON pointer.
json::json_pointer pointer_of(const std::string& path) {
  std::string text = "/";
  for (const char c : path) {
    if (c == '.' || c == '[')
      text += '/';
    else if (c != ']')
      text += c;
  }
  return json::json_pointer(text);
}

json json_value(const Value& value) {
  if (value.is(Kind::boolean)) return value.boolean();
  if (value.is(Kind::string)) return std::string(value.string());
  if (value.is(Kind::number)) return json::parse(value.number().text());
  return nullptr;
}

}  // namespace

PairedRecords::PairedRecords(const Record& first, const Record* second, const std::string& apart_path,
                             std::span<const Decimal> thresholds, Arena& arena)
    : is_pair(second != nullptr) {
  bind(first, arena, better);
  facts = better.facts;
  first_of_worse_ = facts.size();
  if (second) {
    bind(*second, arena, worse);
    const auto offset = static_cast<std::uint32_t>(first_of_worse_);
    for (Value* part : {&worse.patient, &worse.exam, &worse.previous, &worse.setting})
      *part = moved(*part, offset, arena);
    for (OpenFact fact : worse.facts) {
      if (fact.type_fact >= 0) fact.type_fact += static_cast<std::int32_t>(offset);
      facts.push_back(std::move(fact));
    }
  }
  variables = open_variables(facts, thresholds, first, arena);
  for (std::uint32_t id = static_cast<std::uint32_t>(first_of_worse_); id < facts.size(); ++id) {
    const auto same =
        std::find_if(facts.begin(), facts.begin() + static_cast<std::ptrdiff_t>(first_of_worse_),
                     [&](const OpenFact& fact) { return fact.path == facts[id].path; });
    if (same == facts.begin() + static_cast<std::ptrdiff_t>(first_of_worse_)) continue;
    const OpenVariables::Where where = variables.of_fact[static_cast<std::size_t>(same - facts.begin())];
    if (where.variable == OpenVariables::none) continue;
    if (facts[id].path == apart_path) {
      apart = where.variable;
      apart_in_worse = variables.of_fact[id].variable;
      continue;
    }
    Variable& shared = variables.variables[where.variable];
    const std::vector<Value> values = shared.columns[where.column].values;
    variables.variables[variables.of_fact[id].variable].columns.clear();  // its own: no longer anybody's
    variables.of_fact[id] = {where.variable, static_cast<std::uint32_t>(shared.columns.size())};
    shared.columns.push_back({id, values});
  }
}

std::string PairedRecords::record_text(const LawShape& shape, bool worse_one,
                                       std::span<const Value> values) const {
  json record = worse_one ? *shape.worse : shape.better;
  const std::size_t from = worse_one ? first_of_worse_ : 0;
  const std::size_t to = worse_one ? facts.size() : first_of_worse_;
  for (std::size_t id = from; id < to; ++id) {
    if (variables.of_fact[id].variable == OpenVariables::none) continue;
    record[pointer_of(facts[id].path)] = json_value(values[id]);
  }
  return record.dump();
}

}  // namespace engine
