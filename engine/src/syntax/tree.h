// An expression as a tree: what the parser makes, the printer writes back, and the compiler turns into code.

#pragma once

#include <cstdint>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "types/type.h"

namespace engine {

enum class Operation : std::uint8_t {
  none, add, subtract, multiply, divide, power, equal, not_equal, less, less_or_equal, greater, greater_or_equal
};
std::string_view text_of(Operation operation);

/// What a name stands for, found when it was parsed.
struct Binding {
  enum class Kind : std::uint8_t { unknown, slot, element, builtin };
  Kind kind = Kind::unknown;
  std::uint32_t up = 0;     ///< Function bodies outward, for a slot.
  std::uint32_t index = 0;  ///< Slot, element or built-in.
};

/// A filter's item whose keys may hide the name. Nearest first.
struct ItemKey {
  Binding item;
  bool certain = false;  ///< The item's type has the key; else it is looked for at run time.
};

/// The text that a tree was parsed from, for diagnostics.
struct Origin {
  std::string text;
  std::string element;      ///< Decision, function or input that the text belongs to.
  std::int32_t rule = -1;   ///< In a decision table, from 0.
  std::int32_t cell = -1;
};

struct Node;
struct TableTree;
using Tree = std::unique_ptr<Node>;

struct Node {
  enum class Kind : std::uint8_t {
    null, boolean, number, string, at_literal, name, list, context, range, unary_range, arithmetic, negate, comparison,
    conjunction, disjunction, between, in, conditional, loop, some, every, function, call, named_call, path, filter,
    instance_of,
    // unary tests
    any_test, compare_test, value_test, test_list, not_test,
    // boxed expressions of DMN files
    convert, table, no_logic
  };

  Kind kind;
  Operation operation = Operation::none;
  /// boolean: its value; range: start included; value_test: uses `?`; function: external; context: the last entry is
  /// the result; filter, some, every: boxed, where what is no boolean is an error; named_call: boxed, may leave out
  /// arguments
  bool flag = false;
  bool flag_2 = false;           ///< range: end included
  std::uint32_t start = 0;       ///< Bytes in the text.
  std::uint32_t size = 0;
  std::string text;              ///< number, string, at_literal: the characters; name, path: the name
  std::vector<Tree> children;
  std::vector<std::string> names;  ///< Keys of a context; parameters; iteration variables; named arguments.
  std::vector<std::uint32_t> slots;  ///< Of `names`, where they are variables; filter: the item's; loop: `partial` last.
  std::vector<const Type*> types;  ///< Of parameters (null: none given); instance_of: the type asked for.
  Binding binding;
  std::vector<ItemKey> item_keys;
  const Type* type = any_type();   ///< As far as the text alone tells.
  std::uint32_t frame_slots = 0;   ///< function: slots of its body. `binding.index` holds those around it.
  bool refers_to_item = false;     ///< filter: the predicate mentions its item, or a key that it surely has.
  bool may_refer_to_item = false;  ///< filter: the predicate mentions a name that the item may have.

  const Origin* origin = nullptr;  ///< Set where a text begins; lives as long as the model.
  std::unique_ptr<TableTree> table;

  explicit Node(Kind k);
  ~Node();
};

enum class HitPolicy : std::uint8_t { unique, any, priority, first, rule_order, output_order, collect };
enum class Aggregation : std::uint8_t { none, sum, minimum, maximum, count };

/// A decision table: its cells as trees.
struct TableTree {
  struct Input {
    Tree expression;
    const Type* type = nullptr;  ///< Null: none declared.
    Tree allowed;                ///< Unary tests, or null.
    std::uint32_t slot = 0;      ///< Of the tested value `?`.
  };
  struct Output {
    std::string name;
    const Type* type = nullptr;
    Tree allowed;   ///< Unary tests; the order of its tests ranks the outputs.
    Tree otherwise; ///< Default output entry, or null.
  };
  struct Rule {
    std::vector<Tree> inputs;
    std::vector<Tree> outputs;
  };
  HitPolicy policy = HitPolicy::unique;
  Aggregation aggregation = Aggregation::none;
  std::uint32_t number = 0;  ///< Index into Model::tables().
  std::uint32_t tested_slot = 0;
  std::vector<Input> inputs;
  std::vector<Output> outputs;
  std::vector<Rule> rules;
};

/// Same shape, names and literals; positions and types do not count.
bool same_tree(const Node& a, const Node& b);

/// FEEL text that parses to the same tree in the same scope, unless a name there holds an operator between spaces (`a + b`).
std::string print(const Node& node);

}  // namespace engine
