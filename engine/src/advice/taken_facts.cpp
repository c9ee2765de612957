#include "advice/taken_facts.h"

#include <algorithm>

namespace engine {

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

namespace {

/// Fit to be compared by is_same().
bool is_plain(const Value& value) {
  return value.is_null() || value.is(Kind::boolean) || value.is(Kind::number) || value.is(Kind::string);
}

}  // namespace

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
    take(i, taken_[i]);
  }
}

void TakenFacts::take(std::uint32_t variable, std::uint32_t candidate) {
  for (const Variable::Column& column : variables_.variables[variable].columns) {
    values_[column.fact] = column.values[candidate];
  }
}

Value TakenFacts::read_on_trial(std::uint32_t fact) {
  touched_[fact] = 1;
  const std::uint32_t variable = variables_.of_fact[fact].variable;
  if (variable == OpenVariables::none) {
    if (facts_[fact].why != OpenFact::Why::assumed) trial_failed_ = true;
  } else if (on_trial_variable_ == OpenVariables::none) {
    on_trial_variable_ = variable;
  } else if (on_trial_variable_ != variable) {
    trial_failed_ = true;
  }
  return values_[fact];
}

std::size_t TakenFacts::KeyHash::operator()(const Key& key) const {
  std::uint64_t hash = 0;
  for (const std::uint64_t word : key) hash = (hash ^ word) * 0x9e3779b97f4a7c15ULL ^ (hash >> 29);
  return static_cast<std::size_t>(hash ^ (hash >> 32));
}

Value TakenFacts::kept(const Value& value) {
  if (value.is(Kind::string)) return Value::string(value.string(), arena_);
  if (!value.is(Kind::number)) return value;
  const Value number = Value::number(value.number(), arena_);
  return value.stands_for_others() ? number.standing_for_others() : number;
}

const TakenFacts::Remembered* TakenFacts::remembered(const Key& key) const {
  const auto at = remembered_.find(key);
  if (at == remembered_.end()) return nullptr;
  const Remembered& run = at->second;
  const bool is_test = run.variable == OpenVariables::none || !run.alike[taken_[run.variable]].empty();
  return is_test ? &run : nullptr;
}

Value TakenFacts::recall(const Remembered& run) {
  if (run.variable == OpenVariables::none) return run.values.front();
  const std::uint32_t taken = taken_[run.variable];
  shrink(run.variable, run.alike[taken] & left_[run.variable]);
  return run.values[taken];
}

/// Tries every candidate, also those that this search does not look at now. The run is on trial.
void TakenFacts::remember(const Key& key, const Trial& first, std::uint32_t variable, Run run, void* data) {
  Remembered found;
  found.variable = variable;
  if (variable == OpenVariables::none) {
    found.values.push_back(kept(first.value));
  } else {
    const std::uint32_t candidates = variables_.variables[variable].candidates;
    found.values.resize(candidates);
    found.alike.resize(candidates);
    CandidateSet tests;
    full_[variable].each([&](std::uint32_t i) {
      trial_failed_ = false;
      take(variable, i);
      const Trial trial = run(data);
      if (trial_failed_ || !trial.clean || !trial.alone || !is_plain(trial.value)) return;
      tests.insert(i);
      found.values[i] = kept(trial.value);
    });
    take(variable, taken_[variable]);
    tests.each([&](std::uint32_t i) {
      tests.each([&](std::uint32_t j) {
        if (is_same(found.values[i], found.values[j])) found.alike[i].insert(j);
      });
    });
  }
  remembered_.emplace(key, std::move(found));
}

std::optional<Value> TakenFacts::together(Run run, void* data, const void* site, const Key* key) {
  if (key) {
    if (const Remembered* before = remembered(*key)) return recall(*before);
  }
  constexpr std::uint32_t enough_tries = 8;
  Tries& tries = tries_[site];
  if (tries.failed >= enough_tries && tries.failed == tries.all) return std::nullopt;
  on_trial_ = true;
  trial_failed_ = false;
  on_trial_variable_ = OpenVariables::none;
  const Trial first = run(data);
  const bool is_one_test = !trial_failed_ && first.clean && is_plain(first.value);
  const std::uint32_t variable = on_trial_variable_;
  ++tries.all;
  if (!is_one_test) ++tries.failed;
  if (is_one_test && key && first.alone && !remembered_.contains(*key)) {
    remember(*key, first, variable, run, data);
    on_trial_ = false;
    if (const Remembered* now = remembered(*key)) return recall(*now);
    on_trial_ = true;
  }
  if (is_one_test && variable != OpenVariables::none) {
    CandidateSet kept;
    left_[variable].each([&](std::uint32_t i) {
      trial_failed_ = false;
      take(variable, i);
      const auto alike = [&](const Trial& other) {
        return !trial_failed_ && other.clean && is_same(other.value, first.value);
      };
      if (i == taken_[variable] || alike(run(data))) kept.insert(i);
    });
    take(variable, taken_[variable]);
    shrink(variable, kept);
  }
  on_trial_ = false;
  return is_one_test ? std::optional(first.value) : std::nullopt;
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
  shrink(variable, kept & left_[variable]);
}

void TakenFacts::shrink(std::uint32_t variable, const CandidateSet& kept) {
  if (kept == left_[variable]) return;
  steps_.push_back({variable, left_[variable], kept});
  left_[variable] = kept;
}

Value TakenFacts::read(std::uint32_t fact) {
  if (on_trial_) return read_on_trial(fact);
  touched_[fact] = 1;
  if (variables_.of_fact[fact].variable == OpenVariables::none) {
    if (facts_[fact].why != OpenFact::Why::assumed) met_unknown_ = true;
    return values_[fact];
  }
  keep(fact, [&](const Value& other) { return is_same(other, values_[fact]); });
  return values_[fact];
}

Value TakenFacts::test(std::uint32_t fact, Passes passes, const void* data) {
  if (on_trial_) {
    const Value value = read_on_trial(fact);
    return value.is(Kind::open_fact) ? Value() : passes(data, value);
  }
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
