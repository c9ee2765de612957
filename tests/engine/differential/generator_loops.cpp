// Loops, quantifiers and unary tests made at random.

#include <algorithm>

#include "engine/differential/expression_generator.h"
#include "engine/differential/generator_parts.h"

namespace testing {

using namespace parts;

// Adds `NAME in DOMAIN` to a loop; what the name stands for.
Sort ExpressionGenerator::variable(Node& loop, int depth) {
  static constexpr Sort domains[] = {Sort::numbers, Sort::numbers, Sort::texts, Sort::records, Sort::range};
  loop.names.emplace_back(one_of(variables));
  const Sort domain = one_of(domains);
  if (domain == Sort::range) {
    static constexpr const char* ends[] = {"0", "1", "2", "3", "4"};
    Tree range =
        node_of(NK::range, Operation::none, node(NK::number, one_of(ends)), node(NK::number, one_of(ends)));
    const bool bare = one_in(2);
    range->operation = bare ? Operation::subtract : Operation::none;
    range->flag = bare || one_in(2);
    range->flag_2 = bare || one_in(2);
    loop.children.push_back(std::move(range));
    return Sort::number;
  }
  loop.children.push_back(make(domain, depth - 1));
  return domain == Sort::numbers ? Sort::number : domain == Sort::texts ? Sort::text : Sort::record;
}

Tree ExpressionGenerator::loop(Sort body, int depth) {
  Tree made = node(NK::loop);
  const std::size_t before = bound_.size();
  for (int i = one_in(4) ? 2 : 1; i > 0; --i) {
    const Sort sort = variable(*made, depth);
    bound_.push_back({made->names.back(), sort});
  }
  if (body == Sort::number) bound_.push_back({"partial", Sort::numbers});
  made->children.push_back(make(body, depth));
  bound_.resize(before);
  return made;
}

Tree ExpressionGenerator::quantifier(int depth) {
  Tree made = node(one_in(2) ? NK::some : NK::every);
  const std::size_t before = bound_.size();
  for (int i = one_in(4) ? 2 : 1; i > 0; --i) {
    const Sort sort = variable(*made, depth);
    bound_.push_back({made->names.back(), sort});
  }
  made->children.push_back(make(Sort::truth, depth));
  bound_.resize(before);
  return made;
}

// --- unary tests ---

namespace {

bool needs_parentheses(const Node& tested) {
  switch (tested.kind) {
    case NK::unary_range:
    case NK::loop:
    case NK::conditional:
    case NK::some:
    case NK::every:
    case NK::function:
    case NK::conjunction:
    case NK::disjunction:
    case NK::comparison:
    case NK::between:
    case NK::in:
      return true;
    default:
      return false;
  }
}

}  // namespace

Tree ExpressionGenerator::in(int depth) {
  static constexpr Sort sorts[] = {Sort::number, Sort::number, Sort::text, Sort::date, Sort::numbers};
  const Sort sort = one_of(sorts);
  const bool had_tested_value = has_tested_value_;
  has_tested_value_ = false;  // `?` is the cell's, not that of `in`
  Tree right = one_in(2) ? tests(sort, depth) : one_test(sort, depth);
  has_tested_value_ = had_tested_value;
  if (right->kind == NK::value_test &&
      needs_parentheses(*right->children[0])) {  // which make it a list of one
    right = node_of(NK::test_list, Operation::none, std::move(right));
  }
  return node_of(NK::in, Operation::none, make(sort, depth), std::move(right));
}

Tree ExpressionGenerator::tests(Sort tested, int depth) {
  Tree list = node(NK::test_list);
  for (int i = 1 + below(3); i > 0; --i) list->children.push_back(one_test(tested, depth));
  return list;
}

namespace {

bool uses_tested_value(const Node& tree) {
  if (tree.kind == NK::name && tree.text == "?") return true;
  return std::any_of(tree.children.begin(), tree.children.end(),
                     [](const Tree& child) { return uses_tested_value(*child); });
}

}  // namespace

Tree ExpressionGenerator::one_test(Sort tested, int depth) {
  static constexpr Operation signs[] = {Operation::less,    Operation::less_or_equal,
                                        Operation::greater, Operation::greater_or_equal,
                                        Operation::equal,   Operation::not_equal};
  if (one_in(3)) return node_of(NK::compare_test, one_of(signs), make(tested, depth - 1));
  Tree test = node(NK::value_test);
  if (has_tested_value_ && one_in(3)) {
    test->children.push_back(make(Sort::truth, depth));
  } else if (one_in(2)) {
    test->children.push_back(make(one_in(2) ? Sort::range : Sort::numbers, depth - 1));
  } else {
    test->children.push_back(make(tested, depth - 1));
  }
  test->flag = uses_tested_value(*test->children[0]);
  return test;
}

}  // namespace testing
