#include "evaluate/state.h"

#include "evaluate/code.h"
#include "syntax/unicode.h"

namespace engine {

namespace {

// A faulty expression over a long list would note the same thing again and again.
constexpr std::size_t most_diagnostics = 100;

}  // namespace

Value Evaluation::State::resolve(const Value& open) {
  const std::uint32_t id = open.fact();
  if (source) {
    const Value taken_now = source->read(id);
    if (!taken_now.is(Kind::open_fact)) return taken_now;
    undecided = true;
    return {};
  }
  if (id >= assignment.size()) {
    undecided = true;
    return {};
  }
  facts_read[id] = 1;
  const Value& taken = assignment[id];
  if (!taken.is(Kind::open_fact)) return taken;
  undecided = true;
  return {};
}

Value Evaluation::State::fault(const Code& at, std::string_view code, std::string message, Severity severity) {
  if (quiet > 0 || undecided) return {};
  if (severity == Severity::error) has_error = true;
  if (diagnostics.size() >= most_diagnostics) return {};
  Diagnostic& note = diagnostics.emplace_back();
  note.severity = severity;
  note.code = code;
  note.message = std::move(message);
  if (at.origin) {
    note.element = at.origin->element;
    note.rule = at.origin->rule;
    note.cell = at.origin->cell;
    note.text = at.origin->text;
    const std::string_view text = note.text;
    note.offset = columns(text.substr(0, std::min<std::size_t>(at.start, text.size())));
    note.length = columns(text.substr(std::min<std::size_t>(at.start, text.size()), at.size));
  }
  return {};
}

bool Evaluation::State::out_of_budget(const Code& at) {
  if (!exhausted) {
    exhausted = true;
    const bool by_steps = steps > budget.steps;
    // Said even while quiet: an answer that ran out must not pass for one that did not.
    const int before = std::exchange(quiet, 0);
    fault(at, "budget_exhausted",
          by_steps ? "the evaluation took more than " + std::to_string(budget.steps) + " steps"
                   : "the evaluation took more than " + std::to_string(budget.memory) + " bytes of memory");
    quiet = before;
    has_error = true;
  }
  return false;
}

void Nesting::note_too_deep(const Code& at) {
  state_.exhausted = true;
  state_.has_error = true;
  const int before = std::exchange(state_.quiet, 0);
  state_.fault(at, "budget_exhausted", "calls are nested more than " + std::to_string(state_.budget.depth) + " deep");
  state_.quiet = before;
}

}  // namespace engine
