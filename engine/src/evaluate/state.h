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
enum class Logic : std::uint8_t;

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

  FactSource* source = nullptr;  ///< Asked instead of `assignment`.

  /// Whether the open fact passes `check(candidate) -> Logic`, a test of this fact alone: the source then knows that
  /// what passes alike need not be told apart.
  template <class Check>
  Logic test(const Value& open, Check&& check);

  /// `run() -> Value` as one test of what is open, when it is one; else just run.
  template <class Run>
  Value together(Run&& run, const void* site, const FactSource::Key* key);
  bool searching = false;      ///< together() is worth trying: something is open, and no test is under way.
  bool on_trial = false;       ///< A test is under way: nothing may be kept that a later part could read.
  bool left_trial = false;     ///< It would have kept something.
  bool read_elsewhere = false;  ///< The test under way read a decision.

  /// To be called with every number that is calculated with, rather than compared.
  void calculates_with(const Value& number) {
    if (number.stands_for_others() && source) source->calculated();
  }

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

/// Forgets at its end what was noted during its lifetime: for looking at what is not so.
class Notes {
 public:
  explicit Notes(Evaluation::State& state)
      : state_(state),
        diagnostics_(state.diagnostics.size()),
        trace_(state.trace.size()),
        had_error_(std::exchange(state.has_error, false)),
        was_undecided_(std::exchange(state.undecided, false)) {}
  Notes(const Notes&) = delete;
  Notes& operator=(const Notes&) = delete;
  ~Notes() {
    state_.diagnostics.resize(diagnostics_);
    state_.trace.resize(trace_);
    state_.has_error = had_error_ || state_.exhausted;
    state_.undecided = was_undecided_;
  }
  /// Nothing was noted but what is only for information.
  bool clean() const {
    return !state_.has_error && !state_.undecided && state_.diagnostics.size() == diagnostics_ &&
           state_.trace.size() == trace_;
  }

 private:
  Evaluation::State& state_;
  std::size_t diagnostics_, trace_;
  bool had_error_, was_undecided_;
};

/// Counts a level of nesting for its lifetime; false when there are too many.
class Nesting {
 public:
  Nesting(Evaluation::State& state, const Code& at)
      : state_(state), allowed_(++state.depth <= state.budget.depth && !state.exhausted) {
    if (!allowed_ && !state.exhausted) note_too_deep(at);
  }
  ~Nesting() { --state_.depth; }
  explicit operator bool() const { return allowed_; }

 private:
  void note_too_deep(const Code& at);

  Evaluation::State& state_;
  bool allowed_;
};

}  // namespace engine
