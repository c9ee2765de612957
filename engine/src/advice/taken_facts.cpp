#include "advice/taken_facts.h"

#include <algorithm>

namespace engine {

void narrow(Box& box, std::uint32_t variable, const CandidateSet& set) {
  const auto at =
      std::lower_bound(box.begin(), box.end(), variable,
                       [](const auto& entry, std::uint32_t wanted) { return entry.first < wanted; });
  if (at != box.end() && at->first == variable) {
    at->second = set;
  } else {
    box.insert(at, {variable, set});
  }
}

bool is_same(const Value& a, const Value& b) {
  if (a.kind() != b.kind()) return false;
  switch (a.kind()) {
    case Kind::null:
      return true;
    case Kind::boolean:
      return a.boolean() == b.boolean();
    case Kind::number:
      return a.number() == b.number();
    case Kind::string:
      return a.string() == b.string();
    default:
      return false;
  }
}

TakenFacts::TakenFacts(std::span<const OpenFact> facts, const OpenVariables& variables)
    : facts_(facts), variables_(variables), touched_(facts.size()) {
  for (const Variable& variable : variables.variables)
    full_.push_back(CandidateSet::first(variable.candidates));
  taken_.resize(full_.size());
  values_.resize(facts.size());
  for (std::uint32_t fact = 0; fact < facts.size(); ++fact) {
    values_[fact] = facts[fact].why == OpenFact::Why::assumed ? facts[fact].assumed : Value::open_fact(fact);
  }
}

void TakenFacts::start(const Box& box) {
  steps_.clear();
  met_unknown_ = false;
  left_ = full_;
  for (const auto& [variable, set] : box) left_[variable] = set;
  for (std::uint32_t i = 0; i < left_.size(); ++i) {
    taken_[i] = left_[i].lowest();
    for (const Variable::Column& column : variables_.variables[i].columns) {
      values_[column.fact] = column.values[taken_[i]];
    }
  }
}

Box TakenFacts::box() const {
  Box box;
  for (std::uint32_t i = 0; i < left_.size(); ++i) {
    if (left_[i] != full_[i]) box.push_back({i, left_[i]});
  }
  return box;
}

/// Shrinks the set of the fact's variable to the candidates whose value is `alike` the one taken.
template <class Alike>
void TakenFacts::keep(std::uint32_t fact, Alike&& alike) {
  const auto [variable, column] = variables_.of_fact[fact];
  const std::vector<Value>& values = variables_.variables[variable].columns[column].values;
  // A test may itself read facts, even this one: what it shrank meanwhile stays shrunk.
  const CandidateSet before = left_[variable];
  CandidateSet kept;
  before.each([&, variable = variable](std::uint32_t i) {  // clang 14 captures no binding
    if (i == taken_[variable] || alike(values[i])) kept.insert(i);
  });
  kept = kept & left_[variable];
  if (kept == left_[variable]) return;
  steps_.push_back({variable, left_[variable], kept});
  left_[variable] = kept;
}

Value TakenFacts::read(std::uint32_t fact) {
  touched_[fact] = 1;
  if (variables_.of_fact[fact].variable == OpenVariables::none) {
    if (facts_[fact].why != OpenFact::Why::assumed) met_unknown_ = true;
    return values_[fact];
  }
  keep(fact, [&](const Value& other) { return is_same(other, values_[fact]); });
  return values_[fact];
}

Value TakenFacts::test(std::uint32_t fact, Test passes, const void* data) {
  touched_[fact] = 1;
  if (variables_.of_fact[fact].variable == OpenVariables::none) {
    if (facts_[fact].why != OpenFact::Why::assumed) {
      met_unknown_ = true;
      return {};
    }
    return passes(data, values_[fact]);
  }
  const Value result = passes(data, values_[fact]);
  keep(fact, [&](const Value& other) { return is_same(passes(data, other), result); });
  return result;
}

}  // namespace engine
