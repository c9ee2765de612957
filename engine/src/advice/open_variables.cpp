#include "advice/open_variables.h"

#include <algorithm>
#include <string_view>

#include "advice/taken_facts.h"

namespace engine {

namespace {

constexpr std::int64_t most_tenths = 100'000;  // ten metres: no threshold beyond it parts two sizes

bool is_size(const OpenFact& fact) {
  return fact.least.has_value() && fact.most.has_value();
}

/// The whole tenths on both sides of `threshold`, or the threshold itself when it is one.
void add_tenths(const Decimal& threshold, std::vector<std::int32_t>& tenths) {
  const auto scaled = multiply(threshold, 10);
  if (!scaled) return;
  const auto below = round(*scaled, 0, Rounding::floor);
  const auto whole = below ? below->to_int64() : std::nullopt;
  if (!whole || *whole < 0 || *whole > most_tenths) return;
  tenths.push_back(static_cast<std::int32_t>(*whole));
  if (!scaled->is_integer()) tenths.push_back(static_cast<std::int32_t>(*whole) + 1);
}

void add_sizes(const Fact<Millimetres>& size, std::vector<std::int32_t>& tenths) {
  if (size.state == Fact<Millimetres>::State::not_stated) return;
  tenths.push_back(size.value.tenths);
  if (size.state == Fact<Millimetres>::State::bounded) tenths.push_back(size.most.tenths);
}

void add_sizes(const Examination& exam, std::vector<std::int32_t>& tenths) {
  for (const Lesion& lesion : exam.lesions) {
    add_sizes(lesion.size, tenths);
    if (lesion.histology) add_sizes(lesion.histology->size, tenths);
  }
}

std::vector<std::int32_t> all_thresholds(std::span<const Decimal> of_rules, const Record& record) {
  std::vector<std::int32_t> tenths;
  for (const Decimal& threshold : of_rules) add_tenths(threshold, tenths);
  add_sizes(record.exam, tenths);
  if (record.previous) {
    for (const Examination& exam : *record.previous) add_sizes(exam, tenths);
  }
  std::sort(tenths.begin(), tenths.end());
  tenths.erase(std::unique(tenths.begin(), tenths.end()), tenths.end());
  return tenths;
}

/// The dysplasias that `fact` leaves open and that are reported with `type`.
std::vector<Value> dysplasias(const OpenFact& fact, const Value& type) {
  std::vector<Value> possible;
  for (const Value& option : dysplasia_options(type.string())) {
    const bool open = std::any_of(fact.options.begin(), fact.options.end(),
                                  [&](const Value& other) { return is_same(option, other); });
    if (open || fact.options.empty()) possible.push_back(option);
  }
  return possible;
}

Variable histology_variable(std::span<const OpenFact> facts, std::uint32_t type, std::uint32_t dysplasia) {
  Variable pairs;
  pairs.columns = {{type, {}}, {dysplasia, {}}};
  for (const Value& option : facts[type].options) {
    for (const Value& reported : dysplasias(facts[dysplasia], option)) {
      pairs.columns[0].values.push_back(option);
      pairs.columns[1].values.push_back(reported);
    }
  }
  pairs.candidates = static_cast<std::uint32_t>(pairs.columns[0].values.size());
  return pairs;
}

Variable size_variable(std::uint32_t id, const OpenFact& fact, std::span<const std::int32_t> thresholds,
                       std::uint32_t between, Arena& arena) {
  Variable sizes;
  sizes.columns = {{id, {}}};
  for (const SizeCandidate& candidate :
       size_candidates(fact.least->tenths, fact.most->tenths, thresholds, between)) {
    const Decimal size =
        candidate.tenths % 10 == 0 ? Decimal{candidate.tenths / 10} : Decimal::of(candidate.tenths, -1);
    const bool alone = candidate.stretch.from == candidate.stretch.to;
    const Value value = Value::number(size, arena);
    sizes.columns[0].values.push_back(alone ? value : value.standing_for_others());
    sizes.stretches.push_back(candidate.stretch);
  }
  sizes.candidates = static_cast<std::uint32_t>(sizes.columns[0].values.size());
  return sizes;
}

Variable term_variable(std::uint32_t id, const OpenFact& fact) {
  Variable terms;
  terms.columns = {{id, fact.options}};
  terms.candidates = static_cast<std::uint32_t>(fact.options.size());
  return terms;
}

/// By fact id: the dysplasia that is read together with this open type; else `none`.
std::vector<std::uint32_t> dysplasia_of_type(std::span<const OpenFact> facts) {
  std::vector<std::uint32_t> partner(facts.size(), OpenVariables::none);
  for (std::uint32_t id = 0; id < facts.size(); ++id) {
    if (facts[id].type_fact >= 0) partner[static_cast<std::size_t>(facts[id].type_fact)] = id;
  }
  return partner;
}

}  // namespace

std::vector<SizeCandidate> size_candidates(std::int32_t least, std::int32_t most,
                                           std::span<const std::int32_t> thresholds, std::uint32_t between) {
  std::vector<std::int32_t> points = {least};
  for (const std::int32_t threshold : thresholds) {
    if (threshold > least && threshold < most) points.push_back(threshold);
  }
  if (most > least) points.push_back(most);

  std::vector<SizeCandidate> found;
  for (std::size_t i = 0; i < points.size(); ++i) {
    found.push_back({points[i], {points[i], points[i]}});
    if (i + 1 == points.size()) break;
    const std::int32_t from = points[i] + 1;
    const std::int32_t to = points[i + 1] - 1;
    if (from > to) continue;
    const std::int32_t first_whole = (from + 9) / 10 * 10 <= to ? (from + 9) / 10 * 10 : from;
    const std::int32_t last_whole = to / 10 * 10 >= from ? to / 10 * 10 : to;
    std::vector<std::int32_t> inner = {first_whole, last_whole, from, to, (from + to) / 2};
    std::vector<std::int32_t> chosen;
    for (const std::int32_t size : inner) {
      const bool is_new = std::find(chosen.begin(), chosen.end(), size) == chosen.end();
      if (is_new && chosen.size() < between) chosen.push_back(size);
    }
    std::sort(chosen.begin(), chosen.end());
    for (std::size_t k = 0; k < chosen.size(); ++k) {
      found.push_back(
          {chosen[k], {k == 0 ? from : chosen[k], k + 1 == chosen.size() ? to : chosen[k + 1] - 1}});
    }
  }
  return found;
}

OpenVariables open_variables(std::span<const OpenFact> facts, std::span<const Decimal> thresholds,
                             const Record& record, Arena& arena) {
  OpenVariables open;
  open.of_fact.resize(facts.size());
  const auto is_open = [](const OpenFact& fact) { return fact.why != OpenFact::Why::assumed; };
  if (std::none_of(facts.begin(), facts.end(), is_open)) return open;

  const auto sizes = static_cast<std::uint32_t>(std::count_if(
      facts.begin(), facts.end(), [&](const OpenFact& fact) { return is_open(fact) && is_size(fact); }));
  // As many values in a stretch as sizes are open, so that each order of them occurs.
  const std::uint32_t between = std::clamp(sizes, 1U, 4U);
  const std::vector<std::int32_t> tenths =
      sizes > 0 ? all_thresholds(thresholds, record) : std::vector<std::int32_t>{};
  const std::vector<std::uint32_t> partner = dysplasia_of_type(facts);

  for (std::uint32_t id = 0; id < facts.size(); ++id) {
    const OpenFact& fact = facts[id];
    if (!is_open(fact) || fact.type_fact >= 0) continue;
    Variable variable = partner[id] != OpenVariables::none ? histology_variable(facts, id, partner[id])
                        : is_size(fact)                    ? size_variable(id, fact, tenths, between, arena)
                                                           : term_variable(id, fact);
    // What cannot be worked through stays open: whoever reads it gets a question, never a guess.
    if (variable.candidates == 0 || variable.candidates > CandidateSet::capacity) continue;
    const auto at = static_cast<std::uint32_t>(open.variables.size());
    for (std::uint32_t column = 0; column < variable.columns.size(); ++column) {
      open.of_fact[variable.columns[column].fact] = {at, column};
    }
    open.variables.push_back(std::move(variable));
  }
  return open;
}

}  // namespace engine
