// A loaded DMN model: decisions, business knowledge models and inputs, checked and compiled once; evaluated
// many times.
//
// Reads DMN 1.1 to 1.6 by namespace. Names are resolved at load; evaluation looks nothing up by text.
// A Model never changes after load and may be used from several threads at once, each with its own
// Evaluation. Source: DMN 1.5 (OMG formal/2024-01-01) chapters 6, 7, 8 and 10; docs/feel.md lists every
// departure.

#pragma once

#include <array>
#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "engine/diagnostic.h"
#include "engine/result.h"
#include "engine/value.h"

namespace engine {

/// `clinical` is `standard` plus: an unknown name, a type clash, a hit policy violation, an input outside its
/// values and a single-hit table without a match leave the evaluation without an answer. It never picks a
/// rule silently.
enum class Profile : std::uint8_t { standard, clinical };

/// Limits of one evaluation. Reaching one gives null and the diagnostic `budget_exhausted`.
struct Budget {
  std::uint64_t steps = 50'000'000;        ///< Calls, decisions, rules tried, and turns of loops and filters.
  std::uint32_t depth = 2'000;             ///< Nested evaluations and calls.
  std::size_t memory = 256u << 20;         ///< Bytes of values.
  std::uint32_t list_length = 10'000'000;  ///< Items of one list.
  std::uint32_t string_length = 16'000'000;  ///< Bytes of one string.
};

/// A table rule that fired.
struct Fired {
  std::uint32_t table = 0;  ///< Index into Model::tables().
  std::uint32_t rule = 0;   ///< From 0.
};

/// What a reader of the file sees of a decision table. `inputs` and `cells` are FEEL text.
struct TableView {
  std::string decision;  ///< Name of the decision or function that the table belongs to.
  std::string id;
  std::string hit_policy;                                 ///< `UNIQUE`, `COLLECT SUM` ...
  std::vector<std::string> inputs, outputs, annotations;  ///< Column headings.
  struct Rule {
    std::vector<std::string> inputs, outputs, annotations;
  };
  std::vector<Rule> rules;
};

struct ElementView {
  enum class Kind : std::uint8_t { input, decision, function, service };
  Kind kind{};
  std::string name, id, type, description;
  std::string namespace_name;  ///< Of the file that holds it; imported elements carry their prefix in `name`.
  std::string own_name;        ///< Without that prefix.
  std::string text;            ///< FEEL text when the logic is one literal expression, else empty.
};

/// An `import` element of a DMN file: which other model it takes in.
struct Import {
  std::string namespace_name;
  std::string location;  ///< `locationURI`, as written; empty when it has none.
  std::string digest;  ///< `sha256:...` from the attribute `digest` of any namespace; empty when it has none.
};

class Model {
 public:
  /// The text of the model that is imported; no value when there is none.
  using Importer = std::function<std::optional<std::string>(const Import&)>;

  /// Every fault of the file in one run: broken XML, unknown names, clashing types, missing requirements,
  /// cycles. `source` names the file in errors. Warnings are kept (warnings()).
  static Result<std::shared_ptr<const Model>> load(std::string_view xml, std::string_view source,
                                                   Profile profile = Profile::standard,
                                                   const Importer& importer = {});

  const std::string& name() const;
  const std::string& namespace_name() const;
  const Errors& warnings() const;
  const std::vector<ElementView>& elements() const;
  const std::vector<TableView>& tables() const;
  /// Index of the decision, input, function or service called `name`; none when there is none.
  std::optional<std::uint32_t> find(std::string_view name, ElementView::Kind kind) const;

  struct Body;  // engine/src/model
  explicit Model(std::unique_ptr<Body> body);
  ~Model();
  const Body& body() const { return *body_; }

 private:
  std::unique_ptr<Body> body_;
};

/// Every number that the model's FEEL text writes, in no order, with repetitions: where its rules draw their
/// lines.
std::span<const Decimal> numeric_literals(const Model& model);

/// Says what the open facts of a record are taken to be while a model is evaluated.
class FactSource {
 public:
  using Passes = Value (*)(const void* data, const Value& candidate);
  virtual ~FactSource() = default;
  /// The value that `fact` is taken to be; Kind::open_fact when nothing can be taken.
  virtual Value read(std::uint32_t fact) = 0;
  /// The result of `passes` (true, false or null) for the value taken. The source may call it with other
  /// values, to learn which of them it tells apart.
  virtual Value test(std::uint32_t fact, Passes passes, const void* data) = 0;

  struct Trial {
    Value value;
    bool clean = true;  ///< Without an error, and without anything that would be kept for later.
    bool alone = true;  ///< It read no decision.
  };
  using Run = Trial (*)(void* data);
  /// Names a run: one that is `alone` gives the same value for the same facts whenever the key is the same.
  using Key = std::array<std::uint64_t, 10>;
  /// The value of `run`, taken as one test, when it turns on one thing that is open: the source calls it again with
  /// other values to learn which of them it tells apart. No value when it turns on several: then it is to be run once
  /// more, in its parts. `site` is the place in the model, `key` may be null. What was learnt of them may be remembered
  /// as long as the inputs stand.
  virtual std::optional<Value> together(Run run, void* data, const void* site, const Key* key) = 0;
  /// A rule calculated with a value that stands for others (Value::stands_for_others): the result speaks for
  /// it alone.
  virtual void calculated() = 0;
  /// There is something to choose; else together() is never called.
  virtual bool has_choices() const = 0;
};

/// One run over a model: its inputs, its memory, what it noted. Reusable: reset() keeps the memory.
/// Values that it returns live until reset() or destruction. Not for two threads at once.
class Evaluation {
 public:
  explicit Evaluation(std::shared_ptr<const Model> model, Budget budget = {});
  ~Evaluation();
  Evaluation(const Evaluation&) = delete;
  Evaluation& operator=(const Evaluation&) = delete;

  /// Forgets inputs, values, diagnostics and trace.
  void reset();
  /// Forgets the computed decisions, diagnostics and trace, keeps the inputs: for the next completion of the
  /// facts.
  void forget_decisions();

  /// `now()` and `today()`: without it they are null with a diagnostic, so that a result never depends on the
  /// machine.
  void set_now(const DateTime& now);
  /// The value for the input data with that index. It is converted to its declared type and checked.
  void set_input(std::uint32_t element, const Value& value);
  /// Memory for input values; freed by reset().
  Arena& arena();

  /// What the open facts are taken to be, by fact id: Kind::open_fact means "not decided". The span must
  /// outlive use.
  void assume(std::span<const Value> assignment);
  /// The same, asked for one by one in the order of evaluation. `source` must outlive use.
  void assume(FactSource& source);
  /// One byte per fact of `assume`: not 0 when the fact was read since the last reset or forget_decisions.
  std::span<const std::uint8_t> facts_read() const;

  /// The value of a decision or service output, computed once per run.
  Value decide(std::uint32_t element);
  /// Calls a function or service by position of its parameters.
  Value call(std::uint32_t element, std::span<const Value> arguments);
  /// The same by name; parameters that are not named are null.
  Value call_by_name(std::uint32_t element, std::span<const struct Named> arguments);

  const Diagnostics& diagnostics() const;
  bool has_error() const;
  std::span<const Fired> trace() const;

  struct State;  // engine/src/evaluate
  State& state() { return *state_; }

 private:
  std::unique_ptr<State> state_;
};

/// One FEEL expression by itself, over named values.
struct Named {
  std::string_view name;
  Value value;
};
struct Answer {
  Value value;  ///< Lives in the arena that was passed; a function also needs `code`.
  Diagnostics diagnostics;
  std::shared_ptr<const void>
      code;  ///< Keeps the expression's code and variables, which a function value points into.
};
/// Parses and evaluates `text`. Errors are faults of the text; faults of evaluation are diagnostics.
Result<Answer> evaluate(std::string_view text, std::span<const Named> scope, Arena& arena,
                        const std::optional<DateTime>& now = std::nullopt);
/// Whether `tested` satisfies the unary tests `text` (a table cell).
Result<Answer> evaluate_unary_tests(std::string_view text, const Value& tested, std::span<const Named> scope,
                                    Arena& arena);

/// JSON to FEEL: objects to contexts, numbers to decimals, strings to strings; `@"..."` strings are not
/// special.
Result<Value> value_from_json(std::string_view json, Arena& arena);

}  // namespace engine
