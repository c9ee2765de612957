// Names, paths, filters: how expressions reach values.

#include <array>

#include "builtins/index.h"
#include "evaluate/convert.h"
#include "evaluate/function.h"
#include "evaluate/model_values.h"
#include "evaluate/properties.h"

namespace engine {

namespace {

struct Slot : Code {
  explicit Slot(std::uint32_t s) : slot(s) {}
  Value run(Frame& frame) const override { return frame.state->settled(frame.slots[slot]); }
  Value raw(Frame& frame) const override { return frame.slots[slot]; }
  std::uint32_t slot;
};

struct OuterSlot : Code {
  OuterSlot(std::uint32_t u, std::uint32_t s) : up(u), slot(s) {}
  Value run(Frame& frame) const override { return frame.state->settled(raw(frame)); }
  Value raw(Frame& frame) const override {
    Frame* f = &frame;
    for (std::uint32_t i = 0; i < up; ++i) f = f->outer;
    return f->slots[slot];
  }
  std::uint32_t up, slot;
};

struct Element : Code {
  explicit Element(std::uint32_t e) : element(e) {}
  Value run(Frame& frame) const override {
    State& state = *frame.state;
    const State::Progress progress = state.progress[element];
    const bool is_known = progress == State::Progress::done || progress == State::Progress::given;
    if (progress == State::Progress::done) state.read_elsewhere = true;
    return state.settled(is_known ? state.values[element] : element_value(state, *this, element));
  }
  std::uint32_t element;
};

struct BuiltinName : Code {
  explicit BuiltinName(Value v) : value(v) {}
  Value run(Frame&) const override { return value; }
  const Value* constant() const override { return &value; }
  Value value;
};

struct UnknownName : Code {
  explicit UnknownName(std::string n) : name(std::move(n)) {}
  Value run(Frame& frame) const override {
    return frame.state->fault(*this, "unknown_name", "nothing here is called `" + name + "`");
  }
  std::string name;
};

// Where a key was last found in a context, so that the next look starts there. Only a hint: any value is right.
class Hint {
 public:
  std::uint32_t get() const { return at_.load(std::memory_order_relaxed); }
  void set(std::uint32_t at) const { at_.store(at, std::memory_order_relaxed); }

 private:
  mutable std::atomic<std::uint32_t> at_{0};
};

// A name in a filter: the item's key if it has one, else what the name means outside.
struct ItemName : Code {
  Value run(Frame& frame) const override { return frame.state->settled(raw(frame)); }
  Value raw(Frame& frame) const override {
    const Value value = item->run(frame);
    if (value.is(Kind::context)) {
      const Context& context = value.context();
      const std::uint32_t at = context.position(key, hint.get());
      if (at < context.size) {
        hint.set(at);
        return context.values[at];
      }
    }
    return otherwise ? otherwise->raw(frame) : Value();  // a missing key in a filter is null without a word
  }
  const Code* item = nullptr;
  std::string key;
  const Code* otherwise = nullptr;
  Hint hint;
};

struct Path : Code {
  Value run(Frame& frame) const override { return frame.state->settled(raw(frame)); }
  Value raw(Frame& frame) const override { return get(*frame.state, holder->run(frame)); }

  Value get(State& state, const Value& value) const {
    switch (value.kind()) {
      case Kind::context: {
        const Context& context = value.context();
        const std::uint32_t at = context.position(key, hint.get());
        if (at == context.size) {
          return state.fault(*this, "no_such_key", "there is no `" + key + "` in the context");
        }
        hint.set(at);
        return context.values[at];
      }
      case Kind::list: {
        const std::span<const Value> items = value.list();
        Value* results = state.arena.allocate<Value>(items.size());
        for (std::size_t i = 0; i < items.size(); ++i) results[i] = items[i].is_null() ? Value() : state.settled(get(state, items[i]));
        return Value::list({results, items.size()});
      }
      case Kind::null:
        return state.fault(*this, "path_of_null", "null has no `" + key + "`");
      default: {
        if (const std::optional<Value> property = property_of(value, key, state.arena)) return *property;
        return state.fault(*this, "no_such_property",
                           "a " + std::string(type_name(value.kind())) + " has no `" + key + "`");
      }
    }
  }

  const Code* holder = nullptr;
  std::string key;
  Hint hint;
};

struct Filter : Code {
  Value run(Frame& frame) const override {
    State& state = *frame.state;
    const Value whole = list->run(frame);
    if (whole.is_null()) return state.fault(*this, "filter_of_null", "null cannot be filtered", Severity::warning);
    const Value* single = state.arena.allocate<Value>(1);
    *const_cast<Value*>(single) = whole;
    const std::span<const Value> items = whole.is(Kind::list) ? whole.list() : std::span<const Value>(single, 1);
    if (asks_once) {
      frame.slots[slot] = Value();
      if (speculative) ++state.quiet;
      const Value answer = predicate->run(frame);
      if (speculative) --state.quiet;
      if (answer.is(Kind::number)) {
        if (speculative) predicate->run(frame);  // again, aloud: what it notes counts
        return at_index(items, answer.number());
      }
      if (!speculative) return all_or_none(state, items, answer);
    }
    return select(frame, items);
  }

  static Value at_index(std::span<const Value> items, const Decimal& index) {
    const std::optional<std::int64_t> whole = index.truncated_to_int64();  // Policy: a fraction is cut off.
    const auto size = static_cast<std::int64_t>(items.size());
    if (!whole || *whole == 0 || *whole > size || *whole < -size) return {};
    return items[static_cast<std::size_t>(*whole > 0 ? *whole - 1 : size + *whole)];
  }

  Value all_or_none(State& state, std::span<const Value> items, const Value& answer) const {
    if (answer.is_true()) return Value::list(items);
    if (items.empty() || answer.is_false() || answer.is_null()) return Value::list({});
    return state.fault(*this, "bad_predicate",
                       "a filter needs a number or a boolean, not a " + std::string(type_name(answer.kind())));
  }

  Value select(Frame& frame, std::span<const Value> items) const {
    State& state = *frame.state;
    Value* kept = state.arena.allocate<Value>(items.size());
    std::size_t count = 0;
    bool all_other = !items.empty();
    for (const Value& item : items) {
      if (!state.step(*this)) return {};
      frame.slots[slot] = item;
      const Value answer = predicate->run(frame);
      if (answer.is_true()) kept[count++] = item;
      const bool other = !answer.is(Kind::boolean) && !answer.is_null();
      if (other && boxed) return bad(state, answer);
      if (boxed && answer.is_null()) return bad(state, answer);
      all_other = all_other && other;
    }
    if (all_other) {
      return state.fault(*this, "bad_predicate", "the filter gave no boolean for any item");
    }
    return Value::list({kept, count});
  }

  Value bad(State& state, const Value& answer) const {
    return state.fault(*this, "bad_predicate",
                       "the filter gave a " + std::string(type_name(answer.kind())) + " where a boolean is needed");
  }

  const Code* list = nullptr;
  const Code* predicate = nullptr;
  std::uint32_t slot = 0;
  bool asks_once = false;    ///< The predicate may be an index: it is looked at once without an item.
  bool speculative = false;  ///< It may depend on the item as well.
  bool boxed = false;
};

// The value of each built-in as a function, made once.
Value builtin_function(std::uint32_t index) {
  static const auto table = [] {
    struct Table {
      std::deque<FunctionShape> shapes;
      std::deque<Function> functions;
    };
    auto t = std::make_unique<Table>();
    for (const Builtin& b : builtins()) {
      FunctionShape& shape = t->shapes.emplace_back();
      shape.name = std::string(b.name);
      shape.builtin = &b;
      for (const std::string_view name : b.signatures.front().names) {
        shape.names.emplace_back(name);
        shape.types.push_back(nullptr);
      }
      t->functions.push_back({&shape, nullptr});
    }
    return t;
  }();
  return Value::of(&static_cast<const Function&>(table->functions[index]));
}

const Code* slot_code(const Node& node, const Binding& binding, Compiler& compiler) {
  if (binding.up == 0) return compiler.make<Slot>(node, binding.index);
  return compiler.make<OuterSlot>(node, binding.up, binding.index);
}

}  // namespace

const Code* compile_name(const Node& node, Compiler& compiler) {
  const Code* code = nullptr;
  switch (node.binding.kind) {
    case Binding::Kind::slot: code = slot_code(node, node.binding, compiler); break;
    case Binding::Kind::element: code = compiler.make<Element>(node, node.binding.index); break;
    case Binding::Kind::builtin: code = compiler.make<BuiltinName>(node, builtin_function(node.binding.index)); break;
    case Binding::Kind::unknown:
      if (node.item_keys.empty()) return compiler.make<UnknownName>(node, node.text);
      break;
  }
  for (auto key = node.item_keys.rbegin(); key != node.item_keys.rend(); ++key) {
    ItemName* item = compiler.make<ItemName>(node);
    item->item = slot_code(node, key->item, compiler);
    item->key = node.text;
    compiler.store().keys_read.push_back({node.text, any_type()});
    item->otherwise = code;
    code = item;
  }
  return code;
}

const Code* compile_path(const Node& node, Compiler& compiler) {
  Path* code = compiler.make<Path>(node);
  code->holder = compiler.compile(*node.children[0]);
  code->key = node.text;
  compiler.store().keys_read.push_back({node.text, node.children[0]->type});
  return code;
}

const Code* compile_filter(const Node& node, Compiler& compiler) {
  Filter* code = compiler.make<Filter>(node);
  code->list = compiler.compile(*node.children[0]);
  code->predicate = compiler.compile(*node.children[1]);
  code->slot = node.slots[0];
  code->boxed = node.flag;
  if (node.children[1]->type->kind == Type::Kind::number) {
    compiler.store().picked_by_position.push_back(node.children[0]->type);
  }
  code->asks_once = !node.refers_to_item && !node.flag;
  code->speculative = node.may_refer_to_item;
  return code;
}

}  // namespace engine
