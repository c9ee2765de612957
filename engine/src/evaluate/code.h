// The compiled form of an expression: a tree of small objects with everything looked up beforehand.
// It never changes after compilation and is shared by all threads.

#pragma once

#include <atomic>
#include <deque>
#include <memory>
#include <string>
#include <vector>

#include "evaluate/state.h"
#include "syntax/tree.h"

namespace engine {

struct Code {
  const Origin* origin = nullptr;
  std::uint32_t start = 0;
  std::uint32_t size = 0;

  Code() = default;
  Code(const Code&) = delete;
  Code& operator=(const Code&) = delete;
  virtual ~Code() = default;
  virtual Value run(Frame& frame) const = 0;
  /// As run(), but an open fact that the expression names stays open.
  virtual Value raw(Frame& frame) const { return run(frame); }
  /// The value when it never changes; null pointer otherwise.
  virtual const Value* constant() const { return nullptr; }
};

using Operands = std::vector<const Code*>;

/// FEEL's three truth values.
enum class Logic : std::uint8_t { no, yes, unknown };
inline Logic logic(bool b) { return b ? Logic::yes : Logic::no; }
inline Logic negate(Logic l) { return l == Logic::unknown ? l : logic(l == Logic::no); }
inline Value value_of(Logic l) { return l == Logic::unknown ? Value() : Value::of(l == Logic::yes); }

template <class Check>
Logic Evaluation::State::test(const Value& open, Check&& check) {
  if (!source) return check(resolve(open));
  struct Candidates {
    const std::remove_reference_t<Check>& check;
    State& state;
    bool is_first = true;  // the value taken; the others are looked at without a trace
  } trial{check, *this};
  const auto passes = [](const void* data, const Value& candidate) {
    Candidates& t = *static_cast<Candidates*>(const_cast<void*>(data));
    if (std::exchange(t.is_first, false)) return value_of(t.check(candidate));
    const Notes notes(t.state);
    const Value result = value_of(t.check(candidate));
    return notes.clean() ? result : Value::number(0);  // an error is like no truth value
  };
  const Value result = source->test(open.fact(), passes, &trial);
  return result.is(Kind::boolean) ? logic(result.boolean()) : Logic::unknown;
}

template <class Run>
Value Evaluation::State::together(Run&& run, const void* site, const FactSource::Key* key) {
  if (!searching) return run();
  struct Whole {
    std::remove_reference_t<Run>& run;
    State& state;
  } whole{run, *this};
  const auto again = [](void* data) {
    Whole& w = *static_cast<Whole*>(data);
    const Notes notes(w.state);
    w.state.left_trial = false;
    w.state.read_elsewhere = false;
    const Value value = w.run();
    return FactSource::Trial{value, notes.clean() && !w.state.left_trial, !w.state.read_elsewhere};
  };
  searching = false;
  on_trial = true;
  const std::optional<Value> value = source->together(again, &whole, site, key);
  searching = true;
  on_trial = false;
  return value ? *value : run();
}

/// A unary test: whether a value satisfies it.
struct Test {
  Test() = default;
  Test(const Test&) = delete;
  Test& operator=(const Test&) = delete;
  virtual ~Test() = default;
  virtual Logic check(Frame& frame, const Value& tested) const = 0;
  /// True for the cell that every value satisfies.
  virtual bool is_any() const { return false; }
  /// The answer, when constants give it and it cannot be an error; else no value.
  virtual std::optional<Logic> by_constants(const Value&) const { return std::nullopt; }
  /// The constants that the tested value is compared with.
  virtual void add_constants(std::vector<Value>&) const {}
};

/// What a type demands of its values beyond their kind.
struct Constraint {
  const Test* test = nullptr;
  std::uint32_t slots = 0;  ///< Of the frame that the test runs in.
  std::uint32_t tested_slot = 0;
  std::string text;
};

/// The cells of a decision table, for what can be shown of it without running it.
struct TableCells {
  struct Column {
    const Type* type = nullptr;          ///< As declared, or null.
    const Test* allowed = nullptr;       ///< Null: every value.
    std::vector<const Test*> cells;      ///< One a rule; null where every value is accepted.
  };
  std::uint32_t number = 0;  ///< Index into Model::tables().
  HitPolicy policy{};
  bool has_default = false;
  std::size_t rules = 0;
  std::vector<Column> columns;
};

/// Owns code, and the constants and texts in it.
struct CodeStore {
  std::deque<std::unique_ptr<Code>> codes;
  std::deque<std::unique_ptr<Test>> tests;
  std::deque<Constraint> constraints;
  std::deque<Origin> origins;
  Arena constants;
  std::vector<Decimal> numbers;  ///< All numeric literals: where rules draw their lines.
  /// A key that some text reads, and the type of what it reads it of, as far as the text tells.
  struct KeyRead {
    std::string key;
    const Type* holder = nullptr;
  };
  std::vector<KeyRead> keys_read;
  std::vector<TableCells> tables;
  std::vector<const Type*> picked_by_position;  ///< Lists that some text takes an item of by its number.
};

/// Turns trees into code. One per expression text; `frame_slots` of the frame must be reserved by the caller.
class Compiler {
 public:
  explicit Compiler(CodeStore& store) : store_(store) {}

  const Code* compile(const Node& node);
  CodeStore& store() { return store_; }

  template <class T, class... Arguments>
  T* make(const Node& node, Arguments&&... arguments) {
    auto code = std::make_unique<T>(std::forward<Arguments>(arguments)...);
    T* raw = code.get();
    raw->origin = origin_;
    raw->start = node.start;
    raw->size = node.size;
    store_.codes.push_back(std::move(code));
    return raw;
  }
  template <class T, class... Arguments>
  T* make_test(Arguments&&... arguments) {
    auto test = std::make_unique<T>(std::forward<Arguments>(arguments)...);
    T* raw = test.get();
    store_.tests.push_back(std::move(test));
    return raw;
  }
  Operands compile_all(const std::vector<Tree>& trees);

  /// While it lives, code is said to come from the text of `node`, if a text begins there.
  class InText {
   public:
    InText(Compiler& compiler, const Node& node) : compiler_(compiler), outer_(compiler.origin_) {
      if (node.origin) compiler.origin_ = node.origin;
    }
    ~InText() { compiler_.origin_ = outer_; }

   private:
    Compiler& compiler_;
    const Origin* outer_;
  };

 private:
  CodeStore& store_;
  const Origin* origin_ = nullptr;
};

// One function per kind of node, in the file that holds its code.
const Code* compile_literal(const Node& node, Compiler& compiler);
const Code* compile_name(const Node& node, Compiler& compiler);
const Code* compile_path(const Node& node, Compiler& compiler);
const Code* compile_filter(const Node& node, Compiler& compiler);
const Code* compile_arithmetic(const Node& node, Compiler& compiler);
const Code* compile_negation(const Node& node, Compiler& compiler);
const Code* compile_comparison(const Node& node, Compiler& compiler);
const Code* compile_between(const Node& node, Compiler& compiler);
const Code* compile_in(const Node& node, Compiler& compiler);
const Code* compile_junction(const Node& node, Compiler& compiler);
const Code* compile_conditional(const Node& node, Compiler& compiler);
const Code* compile_loop(const Node& node, Compiler& compiler);
const Code* compile_quantifier(const Node& node, Compiler& compiler);
const Code* compile_list(const Node& node, Compiler& compiler);
const Code* compile_context(const Node& node, Compiler& compiler);
const Code* compile_range(const Node& node, Compiler& compiler);
const Code* compile_function(const Node& node, Compiler& compiler);
const Code* compile_call(const Node& node, Compiler& compiler);
const Code* compile_instance_of(const Node& node, Compiler& compiler);
const Code* compile_convert(const Node& node, Compiler& compiler);
const Code* compile_table(const Node& node, Compiler& compiler);
/// Unary tests: a table cell, allowed values, what stands after `in`.
const Test* compile_tests(const Node& node, Compiler& compiler);

}  // namespace engine
