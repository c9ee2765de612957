// What is fuzzed: each takes any bytes and must come back. A harness and the replay of old crashes both call
// these.

#pragma once

#include <stdexcept>
#include <string>
#include <string_view>

#include "engine/advice.h"
#include "engine/model.h"
#include "engine/record.h"
#include "engine/ruleset.h"
#include "engine/value.h"
#include "syntax/parser.h"

namespace fuzz {

// Small enough that a harness does thousands of runs a second, and that a run away shows.
inline constexpr engine::Budget budget{200'000, 400, 16u << 20, 100'000, 100'000};

inline void read_record(std::string_view bytes) {
  (void)engine::caller_id(bytes);
  const auto record = engine::read_record(bytes, "fuzz");
  if (record) (void)engine::findings_line(record->exam);
}

/// Text to tree and back: what is printed must parse to the same tree.
inline void parse_and_print(std::string_view bytes) {
  engine::Layout layout;
  engine::Scope scope(nullptr, &layout);
  for (const char* name : {"a", "the name", "l", "a-b", "?"}) scope.add_variable(name);
  engine::TypeStore types;
  const engine::ParseContext context{&scope, &types, "fuzz"};
  for (const auto parse : {engine::parse_expression, engine::parse_unary_tests}) {
    const auto parsed = parse(bytes, context);
    if (!parsed) continue;
    const std::string printed = print(*parsed->tree);
    const auto again = parse(printed, context);
    if (!again || !same_tree(*parsed->tree, *again->tree)) {
      throw std::logic_error("printed as `" + printed + "`, which is not the same tree");
    }
  }
}

/// An expression over a context that has a value of most types.
inline void evaluate_expression(std::string_view bytes) {
  engine::Arena arena;
  const engine::Value items[] = {engine::Value::number(1), engine::Value::string("a"), engine::Value()};
  const engine::Named scope[] = {{"a", engine::Value::number(7)},
                                 {"the name", engine::Value::string("text")},
                                 {"l", engine::Value::list(items)}};
  const auto answer = engine::evaluate(bytes, scope, arena);
  if (answer) (void)engine::literal_of(answer->value);
}

inline void evaluate_unary_tests(std::string_view bytes) {
  engine::Arena arena;
  const engine::Named scope[] = {{"a", engine::Value::number(7)}};
  (void)engine::evaluate_unary_tests(bytes, engine::Value::number(5), scope, arena);
}

/// Loads a file and, when it loads, decides all that can be decided without inputs.
inline void load_model(std::string_view bytes) {
  const auto model = engine::Model::load(bytes, "fuzz");
  if (!model) return;
  engine::Evaluation evaluation(*model, budget);
  const auto& elements = (*model)->elements();
  for (std::uint32_t i = 0; i < elements.size(); ++i) {
    if (elements[i].kind == engine::ElementView::Kind::decision)
      (void)engine::literal_of(evaluation.decide(i));
  }
}

struct Target {
  const char* name;  ///< Of the harness, and of its folder under crashes/.
  void (*run)(std::string_view);
};

inline constexpr Target targets[] = {{"record_reader", read_record},
                                     {"parser", parse_and_print},
                                     {"evaluator", evaluate_expression},
                                     {"unary_tests", evaluate_unary_tests},
                                     {"dmn_reader", load_model}};

}  // namespace fuzz
