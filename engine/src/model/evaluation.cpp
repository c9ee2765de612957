// One run over a model.

#include "engine/model.h"

#include <algorithm>

#include "builtins/index.h"
#include "evaluate/convert.h"
#include "evaluate/model_values.h"
#include "model/body.h"
#include "syntax/parser.h"

namespace engine {

namespace {

// Stands for the caller where nothing of the model is to blame.
struct Caller : Code {
  Value run(Frame&) const override { return {}; }
};

const Code& caller() {
  static const Caller code;
  return code;
}

Value run_decision(State& state, const Code& at, const Element& element) {
  const Nesting nesting(state, at);
  if (!nesting || !state.step(at)) return {};
  Value* slots = state.arena.allocate<Value>(element.slots);
  std::fill(slots, slots + element.slots, Value());
  Frame frame{&state, nullptr, slots};
  const Value value = element.code->run(frame);
  return element.declared && !element.conforms ? convert(state, *element.code, value, *element.declared) : value;
}

}  // namespace

Value element_value(State& state, const Code& at, std::uint32_t index) {
  using Progress = State::Progress;
  const Element& element = state.model->body().elements[index];
  Progress& progress = state.progress[index];
  if (progress == Progress::done || progress == Progress::given) {
    state.read_elsewhere = state.read_elsewhere || progress == Progress::done;
    return state.values[index];
  }
  switch (element.kind) {
    case ElementView::Kind::input:
      return state.fault(at, "missing_input", "there is no value for the input `" + element.name + "`", Severity::info);
    case ElementView::Kind::function: case ElementView::Kind::service:
      return Value::of(&element.function);
    case ElementView::Kind::decision: break;
  }
  state.read_elsewhere = true;
  if (progress == Progress::running) {
    return state.fault(at, "cycle", "`" + element.name + "` asks for its own value");
  }
  if (state.on_trial) {  // its value would be kept beyond the trial
    state.left_trial = true;
    return {};
  }
  progress = Progress::running;
  const Value value = run_decision(state, at, element);
  state.progress[index] = Progress::done;
  state.values[index] = value;
  return value;
}

Evaluation::Evaluation(std::shared_ptr<const Model> model, Budget budget) : state_(std::make_unique<State>(budget)) {
  state_->model = std::move(model);
  reset();
}
Evaluation::~Evaluation() = default;

void Evaluation::reset() {
  const std::size_t count = state_->model->body().elements.size();
  state_->values.assign(count, Value());
  state_->progress.assign(count, State::Progress::none);
  state_->inputs_arena.clear();
  state_->source = nullptr;
  state_->searching = false;
  forget_decisions();
}

void Evaluation::forget_decisions() {
  State& s = *state_;
  for (State::Progress& progress : s.progress) {
    if (progress != State::Progress::given) progress = State::Progress::none;
  }
  s.arena.clear();
  s.diagnostics.clear();
  s.has_error = false;
  s.trace.clear();
  s.steps = 0;
  s.depth = 0;
  s.exhausted = false;
  s.undecided = false;
  std::fill(s.facts_read.begin(), s.facts_read.end(), std::uint8_t{0});
}

void Evaluation::set_now(const DateTime& now) { state_->now = now; }

void Evaluation::set_input(std::uint32_t index, const Value& value) {
  State& s = *state_;
  const Element& element = s.model->body().elements[index];
  s.values[index] = element.declared ? convert(s, caller(), value, *element.declared) : value;
  s.progress[index] = State::Progress::given;
}

Arena& Evaluation::arena() { return state_->inputs_arena; }

void Evaluation::assume(std::span<const Value> assignment) {
  state_->source = nullptr;
  state_->searching = false;
  state_->assignment = assignment;
  state_->facts_read.assign(assignment.size(), 0);
}

void Evaluation::assume(FactSource& source) {
  state_->source = &source;
  state_->searching = source.has_choices();
}

std::span<const std::uint8_t> Evaluation::facts_read() const { return state_->facts_read; }

Value Evaluation::decide(std::uint32_t element) {
  const Value value = element_value(*state_, caller(), element);
  if (state_->undecided || state_->exhausted) return {};
  const bool clinical = state_->model->body().profile == Profile::clinical;
  return clinical && state_->has_error ? Value() : value;
}

Value Evaluation::call(std::uint32_t element, std::span<const Value> arguments) {
  return engine::call(*state_, caller(), state_->model->body().elements[element].function, arguments);
}

Value Evaluation::call_by_name(std::uint32_t element, std::span<const Named> arguments) {
  const FunctionShape& shape = state_->model->body().elements[element].shape;
  std::vector<Value> ordered(shape.names.size());
  for (const Named& argument : arguments) {
    const auto at = std::find(shape.names.begin(), shape.names.end(), argument.name);
    if (at != shape.names.end()) ordered[static_cast<std::size_t>(at - shape.names.begin())] = argument.value;
  }
  return call(element, ordered);
}

const Diagnostics& Evaluation::diagnostics() const { return state_->diagnostics; }
bool Evaluation::has_error() const { return state_->has_error; }
std::span<const Fired> Evaluation::trace() const { return state_->trace; }

}  // namespace engine
