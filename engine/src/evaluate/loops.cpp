// `for`, `some`, `every`: one body over the items of lists and ranges.

#include "evaluate/convert.h"

namespace engine {

namespace {

// What an iteration runs over: a list, or the whole numbers or days from one end to the other.
class Domain {
 public:
  static std::optional<Domain> of_list(std::span<const Value> items) {
    Domain d;
    d.items_ = items;
    d.size_ = items.size();
    return d;
  }
  // Downward ranges only where the text is `a..b` without brackets.
  static std::optional<Domain> of_ends(const Value& first, const Value& last, bool first_included, bool last_included,
                                       bool may_run_downward) {
    Domain d;
    std::int64_t from = 0;
    std::int64_t to = 0;
    if (first.is(Kind::number) && last.is(Kind::number)) {
      const auto a = first.number().to_int64();
      const auto b = last.number().to_int64();
      if (!a || !b) return std::nullopt;
      from = *a;
      to = *b;
    } else if (first.is(Kind::date) && last.is(Kind::date)) {
      d.dates_ = true;
      from = days_since_epoch(first.date());
      to = days_since_epoch(last.date());
    } else {
      return std::nullopt;
    }
    d.step_ = from <= to ? 1 : -1;
    if (d.step_ < 0 && !may_run_downward) {
      d.size_ = 0;
      return d;
    }
    if (!first_included) from += d.step_;
    if (!last_included) to -= d.step_;
    d.first_ = from;
    const auto distance = static_cast<std::uint64_t>(d.step_ > 0 ? to - from : from - to);
    d.size_ = (d.step_ > 0 ? to < from : from < to) ? 0 : distance + 1;
    return d;
  }

  std::uint64_t size() const { return size_; }
  Value operator[](std::uint64_t i) const {
    if (step_ == 0) return items_[i];
    const std::int64_t at = first_ + step_ * static_cast<std::int64_t>(i);
    if (!dates_) return Value::number(at);
    const std::optional<Date> date = date_from_days(at);
    return date ? Value::of(*date) : Value();
  }

 private:
  std::span<const Value> items_;
  std::uint64_t size_ = 0;
  std::int64_t first_ = 0;
  std::int64_t step_ = 0;
  bool dates_ = false;
};

// The part `NAME in DOMAIN` of an iteration.
struct Iterator {
  const Code* domain = nullptr;
  const Code* last = nullptr;  ///< For `a..b`: the end, and `domain` is the start.
  std::uint32_t slot = 0;

  std::optional<Domain> open(Frame& frame, const Code& at) const {
    State& state = *frame.state;
    const Value value = domain->run(frame);
    std::optional<Domain> result;
    if (last) {
      result = Domain::of_ends(value, last->run(frame), true, true, true);
    } else if (value.is(Kind::list)) {
      return Domain::of_list(value.list());
    } else if (value.is(Kind::range)) {
      const Range& r = value.range();
      result = Domain::of_ends(r.start, r.end, r.start_included, r.end_included, false);
    } else if (!value.is_null()) {
      Value* item = state.arena.allocate<Value>(1);  // Policy: a single value is a list of one.
      *item = value;
      return Domain::of_list({item, 1});
    }
    if (!result) {
      state.fault(at, "bad_iteration", "an iteration needs a list, or a range of whole numbers or dates");
      return result;
    }
    if (result->size() > state.budget.list_length) {
      state.exhausted = true;
      state.has_error = true;
      state.fault(at, "budget_exhausted", "an iteration over more than " + std::to_string(state.budget.list_length) + " items");
      return std::nullopt;
    }
    return result;
  }
};

// Runs `body` for every combination of items, the first iterator slowest. `body` returns false to stop.
template <class Body>
bool for_each(Frame& frame, const Code& at, std::span<const Iterator> iterators, Body&& body) {
  if (iterators.empty()) return body();
  const std::optional<Domain> domain = iterators.front().open(frame, at);
  if (!domain) return false;
  for (std::uint64_t i = 0; i < domain->size(); ++i) {
    if (!frame.state->step(at)) return false;
    frame.slots[iterators.front().slot] = (*domain)[i];
    if (!for_each(frame, at, iterators.subspan(1), body)) return false;
  }
  return true;
}

struct Loop : Code {
  Value run(Frame& frame) const override {
    State& state = *frame.state;
    std::size_t room = 16;
    std::size_t count = 0;
    Value* results = state.arena.allocate<Value>(room);
    const bool finished = for_each(frame, *this, iterators, [&] {
      if (count == state.budget.list_length) {
        state.exhausted = true;
        state.has_error = true;
        state.fault(*this, "budget_exhausted", "a list of more than " + std::to_string(count) + " items");
        return false;
      }
      frame.slots[partial_slot] = Value::list({results, count});
      const Value result = body->run(frame);
      if (count == room) {
        Value* larger = state.arena.allocate<Value>(room * 2);
        std::memcpy(static_cast<void*>(larger), results, room * sizeof(Value));
        results = larger;
        room *= 2;
      }
      results[count++] = result;
      return true;
    });
    return finished ? Value::list({results, count}) : Value();
  }
  std::vector<Iterator> iterators;
  std::uint32_t partial_slot = 0;
  const Code* body = nullptr;
};

template <bool deciding>  // true decides `some`, false decides `every`
struct Quantifier : Code {
  Value run(Frame& frame) const override {
    State& state = *frame.state;
    bool decided = false;
    bool unknown = false;
    const bool finished = for_each(frame, *this, iterators, [&] {
      const Value answer = body->run(frame);
      if (answer.is(Kind::boolean)) {
        decided = answer.boolean() == deciding;
        return !decided;
      }
      if (!answer.is_null() || boxed) {
        state.fault(*this, "bad_condition",
                    "`satisfies` needs a boolean, not a " + std::string(type_name(answer.kind())));
      }
      unknown = true;
      return !boxed;
    });
    if (decided) return Value::of(deciding);
    if (!finished || unknown) return {};
    return Value::of(!deciding);
  }
  std::vector<Iterator> iterators;
  const Code* body = nullptr;
  bool boxed = false;
};

std::vector<Iterator> compile_iterators(const Node& node, Compiler& compiler) {
  std::vector<Iterator> iterators;
  for (std::size_t i = 0; i + 1 < node.children.size(); ++i) {
    const Node& domain = *node.children[i];
    const bool bare = domain.kind == Node::Kind::range && domain.operation == Operation::subtract;
    Iterator iterator;
    iterator.domain = compiler.compile(bare ? *domain.children[0] : domain);
    iterator.last = bare ? compiler.compile(*domain.children[1]) : nullptr;
    iterator.slot = node.slots[i];
    iterators.push_back(iterator);
  }
  return iterators;
}

}  // namespace

const Code* compile_loop(const Node& node, Compiler& compiler) {
  Loop* code = compiler.make<Loop>(node);
  code->iterators = compile_iterators(node, compiler);
  code->partial_slot = node.slots.back();
  code->body = compiler.compile(*node.children.back());
  return code;
}

const Code* compile_quantifier(const Node& node, Compiler& compiler) {
  const auto fill = [&](auto* code) -> const Code* {
    code->iterators = compile_iterators(node, compiler);
    code->body = compiler.compile(*node.children.back());
    code->boxed = node.flag;
    return code;
  };
  if (node.kind == Node::Kind::some) return fill(compiler.make<Quantifier<true>>(node));
  return fill(compiler.make<Quantifier<false>>(node));
}

}  // namespace engine
