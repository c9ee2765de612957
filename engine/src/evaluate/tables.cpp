// Decision tables. Source: DMN 1.5 chapter 8; docs/feel.md section 13.

#include <algorithm>
#include <compare>
#include <optional>

#include "evaluate/column_index.h"
#include "evaluate/convert.h"
#include "model/body.h"

namespace engine {

namespace {

// Fewer rules are tested as fast as they are looked up.
constexpr std::size_t fewest_to_index = 6;

struct Table : Code {
  struct Input {
    const Code* expression = nullptr;
    const Type* type = nullptr;
    const Test* allowed = nullptr;
    std::optional<ColumnIndex> index;
  };
  struct Output {
    std::string_view name;
    const Type* type = nullptr;
    const Test* allowed = nullptr;
    std::vector<const Test*> ranking;  ///< One test per output value, best first.
    const Code* otherwise = nullptr;
  };
  struct Rule {
    std::vector<const Test*> inputs;  ///< Null where every value is accepted.
    Operands outputs;
    /// A rule with too few cells is refused, but compiled all the same.
    const Test* cell(std::size_t i) const { return i < inputs.size() ? inputs[i] : nullptr; }
  };

  Value run(Frame& frame) const override {
    State& state = *frame.state;
    Value* tested = state.arena.allocate<Value>(inputs.size());
    for (std::size_t i = 0; i < inputs.size(); ++i) {
      if (!read_input(frame, i, tested[i])) return {};
    }
    const std::span<std::uint64_t> left = look_up(state, tested);
    std::uint32_t* matching = state.arena.allocate<std::uint32_t>(rules.size());
    std::size_t count = 0;
    for (std::uint32_t r = 0; r < rules.size(); ++r) {
      if ((left[r / 64] >> (r % 64) & 1) == 0) continue;
      if (!state.step(*this)) return {};
      if (!fires(frame, rules[r], tested)) continue;
      matching[count++] = r;
      if (policy == HitPolicy::first) break;
    }
    if (count == 0) return no_match(frame);
    return apply(frame, {matching, count});
  }

  // The rules that the indexed columns leave, one bit each.
  std::span<std::uint64_t> look_up(State& state, const Value* tested) const {
    const std::size_t words = (rules.size() + 63) / 64;
    std::uint64_t* left = state.arena.allocate<std::uint64_t>(words);
    std::fill_n(left, words, ~std::uint64_t{0});
    for (std::size_t i = 0; i < inputs.size(); ++i) {
      if (!is_looked_up(i, tested[i])) continue;
      const std::span<const std::uint64_t> mask = inputs[i].index->lookup(tested[i]);
      for (std::size_t w = 0; w < words; ++w) left[w] &= mask[w];
    }
    return {left, words};
  }

  bool is_looked_up(std::size_t input, const Value& value) const {
    return inputs[input].index && inputs[input].index->covers(value);
  }

  bool read_input(Frame& frame, std::size_t i, Value& value) const {
    State& state = *frame.state;
    const Input& input = inputs[i];
    value = input.expression->raw(frame);  // each cell is then a test of the open fact
    if (input.type) value = convert(state, *input.expression, value, *input.type);
    if (!input.allowed) return true;
    if (passes(frame, *input.allowed, value) == Logic::yes) return true;
    state.fault(*input.expression, "input_outside_values",
                "the input value `" + literal_of(state.settled(value)) + "` is not among the allowed input values");
    return false;  // Policy: a table that is asked about an impossible value gives no answer.
  }

  Logic passes(Frame& frame, const Test& test, const Value& value) const {
    const auto check = [&](const Value& taken) {
      frame.slots[tested_slot] = taken;
      return test.check(frame, taken);
    };
    return value.is(Kind::open_fact) ? frame.state->test(value, check) : check(value);
  }

  bool fires(Frame& frame, const Rule& rule, const Value* tested) const {
    for (std::size_t i = 0; i < rule.inputs.size(); ++i) {
      const Test* test = rule.inputs[i];
      if (!test || is_looked_up(i, tested[i])) continue;
      if (passes(frame, *test, tested[i]) != Logic::yes) return false;
    }
    return true;
  }

  bool lists_results() const {
    return policy == HitPolicy::rule_order || policy == HitPolicy::output_order ||
           (policy == HitPolicy::collect && aggregation == Aggregation::none);
  }

  Value no_match(Frame& frame) const {
    State& state = *frame.state;
    const bool has_default = std::any_of(outputs.begin(), outputs.end(), [](const Output& o) { return o.otherwise; });
    if (has_default) {
      const Value value = assemble(frame, [&](std::size_t i) { return outputs[i].otherwise; });
      if (!lists_results()) return value;
      Value* item = state.arena.allocate<Value>(1);
      *item = value;
      return Value::list({item, 1});
    }
    if (lists_results()) return Value::list({});
    if (aggregation == Aggregation::count) return Value::number(0);
    return state.fault(*this, "no_rule_matched", "no rule of the table matches", gap_severity(state));
  }

  // A gap in a clinical table leaves the whole evaluation without an answer: what reads the null would guess.
  Severity gap_severity(const State& state) const {
    if (aggregation != Aggregation::none) return Severity::info;
    const bool clinical = state.model && state.model->body().profile == Profile::clinical;
    return clinical ? Severity::error : Severity::warning;
  }

  // One value, or a context of the outputs by name. `code_of(i)` may be null.
  template <class CodeOf>
  Value assemble(Frame& frame, CodeOf code_of) const {
    State& state = *frame.state;
    Value* values = state.arena.allocate<Value>(outputs.size());
    for (std::size_t i = 0; i < outputs.size(); ++i) {
      const Code* code = code_of(i);
      values[i] = code ? checked_output(frame, i, *code) : Value();
    }
    if (outputs.size() == 1) return values[0];
    const auto count = static_cast<std::uint32_t>(outputs.size());
    return Value::of(static_cast<const Context*>(state.arena.make<Context>(count, names.data(), values)));
  }

  Value checked_output(Frame& frame, std::size_t i, const Code& code) const {
    State& state = *frame.state;
    const Output& output = outputs[i];
    Value value = code.run(frame);
    if (output.type) value = convert(state, code, value, *output.type);
    if (!output.allowed || value.is_null()) return value;
    frame.slots[tested_slot] = value;
    if (output.allowed->check(frame, value) == Logic::yes) return value;
    return state.fault(code, "output_outside_values",
                       "the output `" + literal_of(value) + "` is not among the output values");
  }

  Value output_of(Frame& frame, std::uint32_t rule) const {
    frame.state->trace.push_back({number, rule});
    return assemble(frame, [&](std::size_t i) { return rules[rule].outputs[i]; });
  }

  Value apply(Frame& frame, std::span<std::uint32_t> matching) const {
    State& state = *frame.state;
    switch (policy) {
      case HitPolicy::unique:
        if (matching.size() > 1) return clash(state, matching, "UNIQUE allows one");
        return output_of(frame, matching[0]);
      case HitPolicy::first: return output_of(frame, matching[0]);
      case HitPolicy::any: return any(frame, matching);
      case HitPolicy::priority: return first_ranked(frame, matching);
      case HitPolicy::rule_order: return Value::list(all(frame, matching));
      case HitPolicy::output_order: return Value::list(ranked(frame, matching));
      case HitPolicy::collect: return collect(frame, matching);
    }
    return {};
  }

  Value clash(State& state, std::span<const std::uint32_t> matching, const std::string& what) const {
    std::string list;
    for (const std::uint32_t rule : matching) list += (list.empty() ? "" : ", ") + std::to_string(rule + 1);
    return state.fault(*this, "hit_policy_violated", "rules " + list + " match together, but " + what);
  }

  std::span<Value> all(Frame& frame, std::span<const std::uint32_t> matching) const {
    Value* values = frame.state->arena.allocate<Value>(matching.size());
    for (std::size_t i = 0; i < matching.size(); ++i) values[i] = output_of(frame, matching[i]);
    return {values, matching.size()};
  }

  Value any(Frame& frame, std::span<const std::uint32_t> matching) const {
    State& state = *frame.state;
    const std::span<Value> values = all(frame, matching);
    for (const Value& value : values) {
      if (equal(state, value, values[0]) != Logic::yes) {
        return clash(state, matching, "ANY needs the same output from all");
      }
    }
    return values[0];
  }

  // The rank of each output of a result, best 0. Unlisted outputs rank last.
  std::span<const std::size_t> rank(Frame& frame, const Value& result) const {
    State& state = *frame.state;
    std::size_t* ranks = state.arena.allocate<std::size_t>(outputs.size());
    for (std::size_t i = 0; i < outputs.size(); ++i) {
      const Value value = outputs.size() == 1 ? result : result.context().values[i];
      const std::vector<const Test*>& ranking = outputs[i].ranking;
      frame.slots[tested_slot] = value;
      ++state.quiet;
      const auto found = std::find_if(ranking.begin(), ranking.end(), [&](const Test* test) {
        return test->check(frame, value) == Logic::yes;
      });
      --state.quiet;
      if (found == ranking.end() && !ranking.empty()) {
        state.fault(*this, "output_unranked", "the output `" + literal_of(value) + "` is not among the output values");
      }
      ranks[i] = static_cast<std::size_t>(found - ranking.begin());
    }
    return {ranks, outputs.size()};
  }

  std::span<Value> ranked(Frame& frame, std::span<const std::uint32_t> matching) const {
    State& state = *frame.state;
    const std::span<Value> values = all(frame, matching);
    if (std::all_of(outputs.begin(), outputs.end(), [](const Output& o) { return o.ranking.empty(); })) {
      state.fault(*this, "no_output_values", "the hit policy ranks outputs, but no output values are listed");
      return values;
    }
    struct Ranked {
      std::span<const std::size_t> ranks;
      std::size_t place;  // keeps the order of the table among equals
      Value value;
    };
    Ranked* order = state.arena.allocate<Ranked>(values.size());
    for (std::size_t i = 0; i < values.size(); ++i) order[i] = {rank(frame, values[i]), i, values[i]};
    std::sort(order, order + values.size(), [](const Ranked& a, const Ranked& b) {
      const auto ranks = std::lexicographical_compare_three_way(a.ranks.begin(), a.ranks.end(), b.ranks.begin(), b.ranks.end());
      return ranks != 0 ? ranks < 0 : a.place < b.place;
    });
    for (std::size_t i = 0; i < values.size(); ++i) values[i] = order[i].value;
    return values;
  }

  Value first_ranked(Frame& frame, std::span<const std::uint32_t> matching) const {
    return ranked(frame, matching)[0];
  }

  Value collect(Frame& frame, std::span<const std::uint32_t> matching) const {
    if (aggregation == Aggregation::count) {
      for (const std::uint32_t rule : matching) frame.state->trace.push_back({number, rule});
      return Value::number(static_cast<std::int64_t>(matching.size()));
    }
    const std::span<Value> values = all(frame, matching);
    if (aggregation == Aggregation::none) return Value::list(values);
    return aggregate(*frame.state, values);
  }

  Value aggregate(State& state, std::span<const Value> values) const {
    Value result = values[0];
    const bool summing = aggregation == Aggregation::sum;
    for (const Value& value : values) {
      if (value.is_null() || value.kind() != result.kind() || (summing && !value.is(Kind::number)) ||
          !is_ordered(value.kind())) {
        return state.fault(*this, "bad_aggregation", "the outputs cannot be taken together: `" + literal_of(value) + "`");
      }
    }
    for (const Value& value : values.subspan(1)) {
      if (summing) {
        result = arithmetic(state, *this, Operation::add, result, value);
        if (result.is_null()) return result;
      } else {
        const std::partial_ordering ordering = order(value, result);
        if (aggregation == Aggregation::minimum ? ordering < 0 : ordering > 0) result = value;
      }
    }
    return result;
  }

  TableCells cells() const {
    TableCells all;
    all.number = number;
    all.policy = policy;
    all.has_default = std::any_of(outputs.begin(), outputs.end(), [](const Output& o) { return o.otherwise; });
    all.rules = rules.size();
    for (std::size_t i = 0; i < inputs.size(); ++i) {
      TableCells::Column& column = all.columns.emplace_back();
      column.type = inputs[i].type;
      column.allowed = inputs[i].allowed;
      for (const Rule& rule : rules) column.cells.push_back(rule.cell(i));
    }
    return all;
  }

  void index_columns() {
    if (rules.size() < fewest_to_index) return;
    for (std::size_t i = 0; i < inputs.size(); ++i) {
      std::vector<const Test*> cells;
      for (const Rule& rule : rules) cells.push_back(rule.cell(i));
      inputs[i].index = ColumnIndex::of(cells);
    }
  }

  HitPolicy policy = HitPolicy::unique;
  Aggregation aggregation = Aggregation::none;
  std::uint32_t number = 0;
  std::uint32_t tested_slot = 0;
  std::vector<Input> inputs;
  std::vector<Output> outputs;
  std::vector<std::string_view> names;
  std::vector<Rule> rules;
};

std::vector<const Test*> ranking_of(const Node& allowed, Compiler& compiler) {
  std::vector<const Test*> ranking;
  if (allowed.kind != Node::Kind::test_list) return {compile_tests(allowed, compiler)};
  for (const Tree& child : allowed.children) ranking.push_back(compile_tests(*child, compiler));
  return ranking;
}

}  // namespace

const Code* compile_table(const Node& node, Compiler& compiler) {
  const TableTree& tree = *node.table;
  Table* code = compiler.make<Table>(node);
  code->policy = tree.policy;
  code->aggregation = tree.aggregation;
  code->number = tree.number;
  code->tested_slot = tree.tested_slot;
  for (const TableTree::Input& input : tree.inputs) {
    code->inputs.push_back({compiler.compile(*input.expression), input.type,
                            input.allowed ? compile_tests(*input.allowed, compiler) : nullptr, std::nullopt});
  }
  for (const TableTree::Output& output : tree.outputs) {
    Table::Output& o = code->outputs.emplace_back();
    o.name = compiler.store().constants.keep(output.name);
    o.type = output.type;
    if (output.allowed) {
      o.allowed = compile_tests(*output.allowed, compiler);
      o.ranking = ranking_of(*output.allowed, compiler);
    }
    o.otherwise = output.otherwise ? compiler.compile(*output.otherwise) : nullptr;
    code->names.push_back(o.name);
  }
  for (const TableTree::Rule& rule : tree.rules) {
    Table::Rule& r = code->rules.emplace_back();
    for (const Tree& cell : rule.inputs) {
      const Test* test = compile_tests(*cell, compiler);
      r.inputs.push_back(test->is_any() ? nullptr : test);
    }
    r.outputs = compiler.compile_all(rule.outputs);
  }
  code->index_columns();
  compiler.store().tables.push_back(code->cells());
  return code;
}

}  // namespace engine
