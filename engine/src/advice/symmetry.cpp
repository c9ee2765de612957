#include "advice/symmetry.h"

#include <algorithm>
#include <optional>
#include <string_view>

#include "advice/taken_facts.h"
#include "model/body.h"

namespace engine {

namespace {

/// Names of a lesion that mean nothing for what is advised.
bool is_label(std::string_view key) {
  return key == "id" || key == "specimen";
}

/// Whether the model may tell lesions apart by their labels. The `id` of an examination does not count.
bool reads_labels(const Model& model) {
  const auto& keys = model.body().codes.keys_read;
  return std::any_of(keys.begin(), keys.end(), [](const CodeStore::KeyRead& read) {
    if (!is_label(read.key)) return false;
    const Type* holder = read.holder->kind == Type::Kind::list ? read.holder->element : read.holder;
    if (!holder || holder->kind != Type::Kind::context) return true;
    return std::none_of(holder->fields.begin(), holder->fields.end(),
                        [](const Type::Field& field) { return field.name == "lesions"; });
  });
}

/// Whether the model takes a lesion by its place in the list, as far as its types tell.
bool picks_by_place(const Model& model) {
  const auto& lists = model.body().codes.picked_by_position;
  return std::any_of(lists.begin(), lists.end(), [](const Type* list) {
    const Type* item = list->kind == Type::Kind::list ? list->element : nullptr;
    return item && item->kind == Type::Kind::context &&
           std::any_of(item->fields.begin(), item->fields.end(),
                       [](const Type::Field& field) { return field.name == "histology"; });
  });
}

/// The variables that two lesions hold in the same places, while they are alike otherwise.
class Comparison {
 public:
  Comparison(std::span<const OpenFact> facts, const OpenVariables& variables)
      : facts_(facts), variables_(variables) {}

  bool alike(const Value& a, const Value& b) {
    if (a.kind() != b.kind()) return false;
    if (a.is(Kind::open_fact)) return open_alike(a.fact(), b.fact());
    if (a.is(Kind::context)) return contexts_alike(a.context(), b.context());
    return is_same(a, b);
  }

  Symmetry::Block first, second;

 private:
  bool contexts_alike(const Context& a, const Context& b) {
    if (a.size != b.size) return false;
    for (std::uint32_t i = 0; i < a.size; ++i) {
      if (a.keys[i] != b.keys[i]) return false;
      if (!is_label(a.keys[i]) && !alike(a.values[i], b.values[i])) return false;
    }
    return true;
  }

  bool open_alike(std::uint32_t a, std::uint32_t b) {
    if (facts_[a].why != facts_[b].why) return false;
    const OpenVariables::Where at = variables_.of_fact[a], other = variables_.of_fact[b];
    if (at.variable == OpenVariables::none || other.variable == OpenVariables::none) {
      return at.variable == other.variable;
    }
    if (at.column != other.column || !same_candidates(at, other)) return false;
    if (std::find(first.begin(), first.end(), at.variable) == first.end()) {
      first.push_back(at.variable);
      second.push_back(other.variable);
    }
    return true;
  }

  bool same_candidates(OpenVariables::Where a, OpenVariables::Where b) const {
    const std::vector<Value>& x = variables_.variables[a.variable].columns[a.column].values;
    const std::vector<Value>& y = variables_.variables[b.variable].columns[b.column].values;
    return std::equal(x.begin(), x.end(), y.begin(), y.end(), is_same);
  }

  std::span<const OpenFact> facts_;
  const OpenVariables& variables_;
};

}  // namespace

Symmetry::Symmetry(const Model& model, const BoundRecord& bound, const OpenVariables& variables) {
  if (variables.variables.size() < 2 || reads_labels(model) || picks_by_place(model)) return;
  add_lesions(bound.exam, bound.facts, variables);
  if (bound.previous.is(Kind::list)) {
    for (const Value& exam : bound.previous.list()) add_lesions(exam, bound.facts, variables);
  }
  places_.resize(variables.variables.size());
  for (std::uint32_t g = 0; g < groups_.size(); ++g) {
    for (std::uint32_t b = 0; b < groups_[g].size(); ++b) {
      for (std::uint32_t i = 0; i < groups_[g][b].size(); ++i) places_[groups_[g][b][i]] = {g, b, i};
    }
  }
}

void Symmetry::add_lesions(const Value& exam, std::span<const OpenFact> facts,
                           const OpenVariables& variables) {
  if (!exam.is(Kind::context)) return;
  const Context& context = exam.context();
  const std::uint32_t lesions = context.position("lesions");
  if (lesions == context.size || !context.values[lesions].is(Kind::list)) return;
  const std::span<const Value> items = context.values[lesions].list();
  std::vector<std::uint8_t> grouped(items.size());
  for (std::size_t i = 0; i < items.size(); ++i) {
    if (grouped[i] != 0) continue;
    std::vector<Block> group;
    for (std::size_t j = i + 1; j < items.size(); ++j) {
      Comparison comparison(facts, variables);
      if (grouped[j] != 0 || !comparison.alike(items[i], items[j]) || comparison.first.empty()) continue;
      if (group.empty()) group.push_back(comparison.first);
      group.push_back(comparison.second);
      grouped[j] = 1;
    }
    if (!group.empty()) groups_.push_back(std::move(group));
  }
}

Box Symmetry::standard(const Box& box) const {
  Box ordered;
  for (const auto& [variable, set] : box) {
    if (find(variable).group == nullptr) ordered.emplace_back(variable, set);
  }
  for (const std::vector<Block>& group : groups_) {
    using Sets = std::vector<std::optional<CandidateSet>>;  // of one lesion, in the order of its block
    std::vector<Sets> lesions;
    for (const Block& block : group) {
      Sets& sets = lesions.emplace_back();
      for (const std::uint32_t variable : block) {
        const CandidateSet* set = set_of(box, variable);
        sets.push_back(set ? std::optional(*set) : std::nullopt);
      }
    }
    std::sort(lesions.begin(), lesions.end());
    for (std::size_t b = 0; b < group.size(); ++b) {
      for (std::size_t i = 0; i < group[b].size(); ++i) {
        if (lesions[b][i]) ordered.emplace_back(group[b][i], *lesions[b][i]);
      }
    }
  }
  std::sort(ordered.begin(), ordered.end());
  return ordered;
}

Box Symmetry::swapped(const Box& box, const Block& a, const Block& b) {
  Box other;
  for (const auto& [variable, set] : box) {
    const auto in_a = std::find(a.begin(), a.end(), variable), in_b = std::find(b.begin(), b.end(), variable);
    narrow(other,
           in_a != a.end()   ? b[static_cast<std::size_t>(in_a - a.begin())]
           : in_b != b.end() ? a[static_cast<std::size_t>(in_b - b.begin())]
                             : variable,
           set);
  }
  return other;
}

Symmetry::Where Symmetry::find(std::uint32_t variable) const {
  if (variable >= places_.size() || places_[variable].group == UINT32_MAX) return {};
  const Place& place = places_[variable];
  return {&groups_[place.group], place.block, place.index};
}

}  // namespace engine
