// Literals, lists, contexts, ranges.

#include "evaluate/convert.h"

namespace engine {

namespace {

struct Constant : Code {
  explicit Constant(Value v) : value(v) {}
  Value run(Frame&) const override { return value; }
  const Value* constant() const override { return &value; }
  Value value;
};

// A literal whose text is not what it should be: null, said each time.
struct BadLiteral : Code {
  explicit BadLiteral(std::string m) : message(std::move(m)) {}
  Value run(Frame& frame) const override { return frame.state->fault(*this, "bad_literal", message); }
  std::string message;
};

struct List : Code {
  explicit List(Operands o) : items(std::move(o)) {}
  Value run(Frame& frame) const override {
    Value* values = frame.state->arena.allocate<Value>(items.size());
    for (std::size_t i = 0; i < items.size(); ++i) values[i] = items[i]->run(frame);
    return Value::list({values, items.size()});
  }
  Operands items;
};

struct ContextLiteral : Code {
  Value run(Frame& frame) const override {
    State& state = *frame.state;
    if (duplicate) return state.fault(*this, "duplicate_key", "the key `" + *duplicate + "` stands twice");
    Value* values = state.arena.allocate<Value>(entries.size());
    for (std::size_t i = 0; i < entries.size(); ++i) {
      values[i] = entries[i]->run(frame);
      frame.slots[slots[i]] = values[i];
    }
    if (gives_last) return values[entries.size() - 1];
    const auto count = static_cast<std::uint32_t>(entries.size());
    return Value::of(static_cast<const Context*>(state.arena.make<Context>(count, keys.data(), values)));
  }
  std::vector<std::string> names;
  std::vector<std::string_view> keys;
  Operands entries;
  std::vector<std::uint32_t> slots;
  bool gives_last = false;
  const std::string* duplicate = nullptr;
};

struct RangeLiteral : Code {
  Value run(Frame& frame) const override {
    Range range{lower->run(frame), upper->run(frame), start_included, end_included, Range::Form::interval};
    return make_range(*frame.state, *this, range);
  }
  const Code* lower = nullptr;
  const Code* upper = nullptr;
  bool start_included = false;
  bool end_included = false;
};

// `(< 10)`
struct UnaryRange : Code {
  Value run(Frame& frame) const override {
    State& state = *frame.state;
    const Value end = bound->run(frame);
    using Form = Range::Form;
    Range range;
    switch (operation) {
      case Operation::less: range = {{}, end, false, false, Form::less}; break;
      case Operation::less_or_equal: range = {{}, end, false, true, Form::less_or_equal}; break;
      case Operation::greater: range = {end, {}, false, false, Form::greater}; break;
      case Operation::greater_or_equal: range = {end, {}, true, false, Form::greater_or_equal}; break;
      case Operation::equal: range = {end, end, true, true, Form::equal}; break;
      default: range = {end, end, false, false, Form::not_equal}; break;
    }
    if (end.is_null() || (!is_ordered(end.kind()) && range.form != Form::equal && range.form != Form::not_equal)) {
      return state.fault(*this, "bad_range", "a range needs an end that has an order");
    }
    return Value::of(static_cast<const Range*>(state.arena.make<Range>(range)));
  }
  Operation operation = Operation::none;
  const Code* bound = nullptr;
};

// `@"..."`: a date, else a date and time, else a time, else a duration.
std::optional<Value> at_value(std::string_view text, Arena& arena) {
  if (const auto date = parse_date(text)) return Value::of(*date);
  if (text.find('T') != std::string_view::npos && text.substr(0, 1) != "P" && text.substr(0, 2) != "-P") {
    if (const auto date_time = parse_date_time(text)) return Value::of(*date_time, arena);
  }
  if (const auto time = parse_time(text)) return Value::of(*time, arena);
  if (const auto duration = parse_duration(text)) {
    return std::visit([](const auto& d) { return Value::of(d); }, *duration);
  }
  return std::nullopt;
}

}  // namespace

const Code* compile_literal(const Node& node, Compiler& compiler) {
  Arena& arena = compiler.store().constants;
  switch (node.kind) {
    case Node::Kind::boolean: return compiler.make<Constant>(node, Value::of(node.flag));
    case Node::Kind::string: return compiler.make<Constant>(node, Value::string(node.text, arena));
    case Node::Kind::number: {
      const std::optional<Decimal> number = Decimal::parse(node.text);
      if (!number) return compiler.make<BadLiteral>(node, "`" + node.text + "` is too large for a number");
      compiler.store().numbers.push_back(*number);
      return compiler.make<Constant>(node, Value::number(*number, arena));
    }
    case Node::Kind::at_literal: {
      const std::optional<Value> value = at_value(node.text, arena);
      if (!value) return compiler.make<BadLiteral>(node, "`" + node.text + "` is no date, time or duration");
      return compiler.make<Constant>(node, *value);
    }
    default: return compiler.make<Constant>(node, Value());
  }
}

const Code* compile_list(const Node& node, Compiler& compiler) {
  Operands items = compiler.compile_all(node.children);
  Arena& arena = compiler.store().constants;
  Value* values = arena.allocate<Value>(items.size());
  for (std::size_t i = 0; i < items.size(); ++i) {
    const Value* constant = items[i]->constant();
    if (!constant) return compiler.make<List>(node, std::move(items));
    values[i] = *constant;
  }
  return compiler.make<Constant>(node, Value::list({values, items.size()}));
}

const Code* compile_context(const Node& node, Compiler& compiler) {
  Operands entries = compiler.compile_all(node.children);
  ContextLiteral* code = compiler.make<ContextLiteral>(node);
  code->entries = std::move(entries);
  code->names = node.names;
  code->slots = node.slots;
  code->gives_last = node.flag;
  for (const std::string& name : code->names) {
    for (const std::string_view earlier : code->keys) {
      if (earlier == name && !node.flag) code->duplicate = &name;
    }
    code->keys.push_back(name);
  }
  return code;
}

const Code* compile_range(const Node& node, Compiler& compiler) {
  if (node.kind == Node::Kind::unary_range) {
    UnaryRange* code = compiler.make<UnaryRange>(node);
    code->operation = node.operation;
    code->bound = compiler.compile(*node.children[0]);
    return code;
  }
  RangeLiteral* code = compiler.make<RangeLiteral>(node);
  code->lower = compiler.compile(*node.children[0]);
  code->upper = compiler.compile(*node.children[1]);
  code->start_included = node.flag;
  code->end_included = node.flag_2;
  // A range of constants is made once.
  const Value* a = code->lower->constant();
  const Value* b = code->upper->constant();
  const bool ordered = a && b && a->kind() == b->kind() && is_ordered(a->kind()) && order(*a, *b) <= 0;
  if (!ordered) return code;
  const Range range{*a, *b, node.flag, node.flag_2, Range::Form::interval};
  return compiler.make<Constant>(node, Value::of(static_cast<const Range*>(compiler.store().constants.make<Range>(range))));
}

}  // namespace engine
