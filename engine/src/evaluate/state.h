// What one evaluation holds while it runs, and the two ways in which it notes things: diagnostics and budgets.

#pragma once

#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "engine/model.h"
#include "syntax/tree.h"

namespace engine {

struct Code;

/// The variables of a function body or a whole expression. `outer` is where the function was written.
struct Frame {
  Evaluation::State* state;
  Frame* outer;
  Value* slots;
};

struct Evaluation::State {
  explicit State(Budget b) : budget(b) {}

  Budget budget;
  std::shared_ptr<const Model> model;  ///< None for a single expression.
  Arena arena;                         ///< Values of this run.
  Arena inputs_arena;                  ///< Input values, which outlive forget_decisions().
  std::vector<Value> values;           ///< By element of the model.
  enum class Progress : std::uint8_t { none, given, running, done };
  std::vector<Progress> progress;

  std::span<const Value> assignment;
  std::vector<std::uint8_t> facts_read;
  bool undecided = false;  ///< An open fact without an assumption was read: the rest of this run is void.

  std::optional<DateTime> now;
  Diagnostics diagnostics;
  bool has_error = false;
  std::vector<Fired> trace;

  std::uint64_t steps = 0;
  std::uint32_t depth = 0;
  bool exhausted = false;
  int quiet = 0;  ///< While above 0, nothing is noted: the value is looked at speculatively.

  /// What the open fact is taken to be; null, and `undecided`, when that is not decided.
  Value resolve(const Value& open);
  Value settled(const Value& value) { return value.is(Kind::open_fact) ? resolve(value) : value; }

  /// Notes a diagnostic and returns null.
  Value fault(const Code& at, std::string_view code, std::string message, Severity severity = Severity::error);

  /// True while the budget lasts. Called once per iteration, call and decision.
  bool step(const Code& at) {
    if (++steps <= budget.steps && arena.used() <= budget.memory && !exhausted) return true;
    return out_of_budget(at);
  }
  bool out_of_budget(const Code& at);
};

/// Counts a level of nesting for its lifetime; false when there are too many.
class Nesting {
 public:
  Nesting(Evaluation::State& state, const Code& at);
  ~Nesting() { --state_.depth; }
  explicit operator bool() const { return allowed_; }

 private:
  Evaluation::State& state_;
  bool allowed_;
};

}  // namespace engine
