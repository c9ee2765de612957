#include "engine/differential/expression_generator.h"

#include <algorithm>

#include "engine/differential/generator_parts.h"

namespace testing {

using namespace parts;

namespace {

constexpr int deepest = 4;

}  // namespace

Tree ExpressionGenerator::expression() {
  bound_.clear();
  has_tested_value_ = false;
  return any_sort(deepest);
}

Tree ExpressionGenerator::unary_tests(Sort tested) {
  bound_.clear();
  has_tested_value_ = true;
  tested_ = tested;
  Tree all = tests(tested, 3);
  has_tested_value_ = false;
  if (one_in(4)) return node_of(NK::not_test, Operation::none, std::move(all));
  return all;
}

Tree ExpressionGenerator::any_sort(int depth) {
  return make(static_cast<Sort>(below(static_cast<int>(Sort::function))), depth);
}

// Now and then something of another sort, or null: faults have to agree as well.
Tree ExpressionGenerator::make(Sort sort, int depth) {
  if (sort == Sort::anything) return any_sort(depth);
  if (one_in(60)) return node(NK::null);
  if (one_in(50) && sort != Sort::function) return any_sort(depth - 1);
  if (depth <= 0 || one_in(6)) return leaf(sort);
  if (one_in(12)) return conditional(sort, depth - 1);
  if (one_in(16) && sort != Sort::function) return applied(sort, depth - 1);
  switch (sort) {
    case Sort::number:
      return number(depth - 1);
    case Sort::text:
      return text(depth - 1);
    case Sort::truth:
      return truth(depth - 1);
    case Sort::date:
      return date(depth - 1);
    case Sort::period:
      return period(depth - 1);
    case Sort::numbers:
      return numbers(depth - 1);
    case Sort::texts:
      return texts(depth - 1);
    case Sort::record:
      return record(depth - 1);
    case Sort::records:
      return records(depth - 1);
    case Sort::range:
      return range(depth - 1);
    default:
      return function(depth - 1);
  }
}

// --- leaves ---

Tree ExpressionGenerator::leaf(Sort sort) {
  if (has_tested_value_ && tested_ == sort && one_in(3)) return node(NK::name, "?");
  if (one_in(2)) {
    if (Tree name = name_of(sort)) return name;
  }
  return literal(sort);
}

Tree ExpressionGenerator::name_of(Sort sort) {
  std::vector<std::string> fitting;
  for (const Known& known : bound_) {
    if (known.sort == sort) fitting.insert(fitting.end(), 3, known.name);
  }
  for (const Word& word : words) {
    if (word.sort == sort) fitting.push_back(word.name);
  }
  if (fitting.empty()) return nullptr;
  return node(NK::name, fitting[static_cast<std::size_t>(below(static_cast<int>(fitting.size())))]);
}

Tree ExpressionGenerator::literal(Sort sort) {
  static constexpr const char* numbers[] = {"0",  "1",   "2",    "3",   "5",   "10",
                                            "20", "0.5", "1.50", ".25", "1e2", "7"};
  static constexpr const char* texts[] = {"rectum", "caecum", "", "a \"b\"", "x, y", "c\\d"};
  static constexpr const char* dates[] = {"2024-02-29", "2026-03-31", "2024-01-01", "2025-12-31"};
  static constexpr const char* periods[] = {"P3Y", "P6M",  "P1Y1M", "-P1M", "P14D",
                                            "P1D", "-P2D", "PT0S",  "P0M"};
  switch (sort) {
    case Sort::number:
      return node(NK::number, one_of(numbers));
    case Sort::text:
      return node(NK::string, one_of(texts));
    case Sort::date:
      return node(NK::at_literal, one_of(dates));
    case Sort::period:
      return node(NK::at_literal, one_of(periods));
    case Sort::range:
      return node_of(NK::unary_range, Operation::less, literal(Sort::number));
    case Sort::truth: {
      Tree made = node(NK::boolean);
      made->flag = one_in(2);
      return made;
    }
    case Sort::function:
      return function(0);
    case Sort::record: {
      Tree made = node(NK::context);
      made->names = {"n"};
      made->children.push_back(literal(Sort::number));
      return made;
    }
    default: {
      Tree made = node(NK::list);
      const Sort item = sort == Sort::texts     ? Sort::text
                        : sort == Sort::records ? Sort::record
                                                : Sort::number;
      for (int i = below(4); i > 0; --i) made->children.push_back(literal(item));
      return made;
    }
  }
}

// --- each sort ---

Tree ExpressionGenerator::number(int depth) {
  static constexpr Operation operations[] = {Operation::add,    Operation::subtract, Operation::multiply,
                                             Operation::divide, Operation::add,      Operation::subtract};
  static constexpr const char* of_numbers[] = {"sum", "min", "max", "count"};
  switch (below(13)) {
    case 0:
      return node_of(NK::negate, Operation::none, make(Sort::number, depth));
    case 1:
      return call(one_of(of_numbers), list_of(make(Sort::numbers, depth)));
    case 2:
      return call("min", list_of(make(Sort::number, depth), make(Sort::number, depth)));
    case 3:
      return call("count", list_of(make(Sort::records, depth)));
    case 4:
      return call("string length", list_of(make(Sort::text, depth)));
    case 5:
      return call(one_in(2) ? "abs" : "floor", list_of(make(Sort::number, depth)));
    case 6:
      return call("modulo", list_of(make(Sort::number, depth), make(Sort::number, depth)));
    case 7:
      return key_of(Sort::number, depth);
    case 8:
      return node_of(NK::filter, Operation::none, make(Sort::numbers, depth), make(Sort::number, depth - 1));
    case 9: {
      Tree year = node(NK::path, one_in(2) ? "year" : "month");
      year->children.push_back(make(Sort::date, depth));
      return year;
    }
    case 10:
      return node_of(NK::arithmetic, Operation::power, make(Sort::number, depth), literal(Sort::number));
    default:
      return node_of(NK::arithmetic, one_of(operations), make(Sort::number, depth),
                     make(Sort::number, depth));
  }
}

Tree ExpressionGenerator::text(int depth) {
  switch (below(6)) {
    case 0:
      return call("upper case", list_of(make(Sort::text, depth)));
    case 1:
      return call("substring", list_of(make(Sort::text, depth), make(Sort::number, depth - 1)));
    case 2:
      return call("substring",
                  list_of(make(Sort::text, depth), literal(Sort::number), literal(Sort::number)));
    case 3:
      return key_of(Sort::text, depth);
    case 4:
      return node_of(NK::filter, Operation::none, make(Sort::texts, depth), make(Sort::number, depth - 1));
    default:
      return node_of(NK::arithmetic, Operation::add, make(Sort::text, depth), make(Sort::text, depth));
  }
}

Tree ExpressionGenerator::truth(int depth) {
  static constexpr Operation comparisons[] = {Operation::equal,   Operation::not_equal,
                                              Operation::less,    Operation::less_or_equal,
                                              Operation::greater, Operation::greater_or_equal};
  static constexpr Sort ordered[] = {Sort::number, Sort::number, Sort::number,
                                     Sort::text,   Sort::date,   Sort::period};
  const auto junction = [&](NK kind) {
    return node_of(kind, Operation::none, make(Sort::truth, depth), make(Sort::truth, depth));
  };
  switch (below(13)) {
    case 0:
      return junction(NK::conjunction);
    case 1:
      return junction(NK::disjunction);
    case 2:
      return call("not", list_of(make(Sort::truth, depth)));
    case 3:
      return quantifier(depth);
    case 4:
    case 5:
      return in(depth);
    case 6: {
      const Sort sort = one_of(ordered);
      return node_of(NK::between, Operation::none, make(sort, depth), make(sort, depth), make(sort, depth));
    }
    case 7: {
      const Sort sort = static_cast<Sort>(below(static_cast<int>(Sort::function)));
      return node_of(NK::comparison, one_in(2) ? Operation::equal : Operation::not_equal, make(sort, depth),
                     make(sort, depth));
    }
    case 8:
      return key_of(Sort::truth, depth);
    case 9:
      return call(one_in(2) ? "contains" : "starts with",
                  list_of(make(Sort::text, depth), make(Sort::text, depth)));
    case 10:
      return call("list contains", list_of(make(Sort::numbers, depth), make(Sort::number, depth)));
    default: {
      const Sort sort = one_of(ordered);
      return node_of(NK::comparison, one_of(comparisons), make(sort, depth), make(sort, depth));
    }
  }
}

Tree ExpressionGenerator::date(int depth) {
  return node_of(NK::arithmetic, one_in(2) ? Operation::add : Operation::subtract, make(Sort::date, depth),
                 make(Sort::period, depth));
}

Tree ExpressionGenerator::period(int depth) {
  switch (below(4)) {
    case 0:
      return node_of(NK::negate, Operation::none, make(Sort::period, depth));
    case 1:
      return node_of(NK::arithmetic, Operation::subtract, make(Sort::date, depth), make(Sort::date, depth));
    case 2:
      return node_of(NK::arithmetic, Operation::multiply, make(Sort::period, depth),
                     node(NK::number, one_in(2) ? "2" : "3"));
    default:
      return node_of(NK::arithmetic, Operation::add, make(Sort::period, depth), make(Sort::period, depth));
  }
}

Tree ExpressionGenerator::numbers(int depth) {
  static constexpr const char* changes[] = {"reverse", "distinct values", "flatten"};
  switch (below(9)) {
    case 0:
      return filter(make(Sort::numbers, depth), Sort::number, depth);
    case 1:
    case 2:
      return loop(Sort::number, depth);
    case 3:
      return call("append", list_of(make(Sort::numbers, depth), make(Sort::number, depth)));
    case 4:
      return call("concatenate", list_of(make(Sort::numbers, depth), make(Sort::numbers, depth)));
    case 5:
      return call(one_of(changes), list_of(make(Sort::numbers, depth)));
    case 6: {
      Tree before = node(NK::function);
      before->names = {"x", "y"};
      before->types = {nullptr, nullptr};
      before->children.push_back(node_of(NK::comparison,
                                         one_in(2) ? Operation::less : Operation::greater_or_equal,
                                         node(NK::name, "x"), node(NK::name, "y")));
      return call("sort", list_of(make(Sort::numbers, depth), std::move(before)));
    }
    case 7: {
      Tree all = node(NK::path, "n");
      all->children.push_back(make(Sort::records, depth));
      return all;
    }
    default: {
      Tree list = node(NK::list);
      for (int i = below(4); i > 0; --i) list->children.push_back(make(Sort::number, depth));
      return list;
    }
  }
}

Tree ExpressionGenerator::texts(int depth) {
  switch (below(4)) {
    case 0:
      return filter(make(Sort::texts, depth), Sort::text, depth);
    case 1:
      return loop(Sort::text, depth);
    case 2: {
      Tree all = node(NK::path, "s");
      all->children.push_back(make(Sort::records, depth));
      return all;
    }
    default: {
      Tree list = node(NK::list);
      for (int i = below(3); i > 0; --i) list->children.push_back(make(Sort::text, depth));
      return list;
    }
  }
}

Tree ExpressionGenerator::record(int depth) {
  if (one_in(3))
    return node_of(NK::filter, Operation::none, make(Sort::records, depth), literal(Sort::number));
  Tree made = node(NK::context);
  const std::size_t before = bound_.size();
  for (const Word& key : keys) {
    if (!one_in(3)) continue;
    made->children.push_back(make(key.sort, depth));
    made->names.emplace_back(key.name);
    bound_.push_back({key.name, key.sort});  // later entries see it
  }
  bound_.resize(before);
  return made;
}

Tree ExpressionGenerator::records(int depth) {
  switch (below(5)) {
    case 0:
      return loop(Sort::record, depth);
    case 1:
    case 2:
      return filter(make(Sort::records, depth), Sort::record, depth);
    case 3:
      return name_of(Sort::records);
    default: {
      Tree list = node(NK::list);
      for (int i = 1 + below(2); i > 0; --i) list->children.push_back(make(Sort::record, depth));
      return list;
    }
  }
}

Tree ExpressionGenerator::range(int depth) {
  static constexpr Operation signs[] = {Operation::less,    Operation::less_or_equal,
                                        Operation::greater, Operation::greater_or_equal,
                                        Operation::equal,   Operation::not_equal};
  const Sort sort = one_in(4) ? Sort::date : Sort::number;
  if (one_in(3)) return node_of(NK::unary_range, one_of(signs), make(sort, depth));
  Tree made = node_of(NK::range, Operation::none, make(sort, depth), make(sort, depth));
  made->flag = one_in(2);
  made->flag_2 = one_in(2);
  return made;
}

Tree ExpressionGenerator::function(int depth) {
  Tree made = node(NK::function);
  const std::size_t before = bound_.size();
  for (int i = below(3); i > 0; --i) {
    const char* name = one_of(variables);
    if (std::find(made->names.begin(), made->names.end(), name) != made->names.end()) continue;
    made->names.emplace_back(name);
    made->types.push_back(nullptr);
    bound_.push_back({name, Sort::number});
  }
  made->children.push_back(make(Sort::number, depth));
  bound_.resize(before);
  return made;
}

// --- what any sort can be made of ---

Tree ExpressionGenerator::conditional(Sort sort, int depth) {
  return node_of(NK::conditional, Operation::none, make(Sort::truth, depth), make(sort, depth),
                 make(sort, depth));
}

Tree ExpressionGenerator::call(const char* function, std::vector<Tree> arguments) {
  Tree made = node_of(NK::call, Operation::none, node(NK::name, function));
  for (Tree& argument : arguments) made->children.push_back(std::move(argument));
  return made;
}

// A function written where it is called, by position or by name.
Tree ExpressionGenerator::applied(Sort result, int depth) {
  Tree function = node(NK::function);
  function->names = {"x", "total size"};
  function->types = {nullptr, nullptr};
  const Sort second = static_cast<Sort>(below(static_cast<int>(Sort::function)));
  bound_.push_back({"x", Sort::number});
  bound_.push_back({"total size", second});
  function->children.push_back(make(result, depth));
  bound_.resize(bound_.size() - 2);
  const bool named = one_in(3);
  Tree made = node_of(named ? NK::named_call : NK::call, Operation::none, std::move(function));
  if (named) {
    made->names = {"total size", "x"};
    made->children.push_back(make(second, depth));
    made->children.push_back(make(Sort::number, depth));
  } else {
    made->children.push_back(make(Sort::number, depth));
    if (!one_in(20)) made->children.push_back(make(second, depth));
  }
  return made;
}

// The keys of the item hide names of the same spelling, whatever those are outside.
Tree ExpressionGenerator::filter(Tree list, Sort item, int depth) {
  const std::size_t before = bound_.size();
  bound_.push_back({"item", item});
  if (item == Sort::record) {
    for (const Word& key : keys) {
      // Only where the text can tell: a name of several words must be a key that is known beforehand.
      const bool plain_word = std::string_view(key.name).find(' ') == std::string_view::npos;
      if (plain_word || (list->kind == NK::name && list->text == "lesions"))
        bound_.push_back({key.name, key.sort});
    }
  }
  Tree predicate = make(Sort::truth, depth);
  bound_.resize(before);
  return node_of(NK::filter, Operation::none, std::move(list), std::move(predicate));
}

Tree ExpressionGenerator::key_of(Sort sort, int depth) {
  std::vector<const char*> fitting;
  for (const Word& key : keys) {
    if (key.sort == sort) fitting.push_back(key.name);
  }
  Tree path = node(NK::path, fitting[static_cast<std::size_t>(below(static_cast<int>(fitting.size())))]);
  path->children.push_back(make(Sort::record, depth));
  return path;
}

}  // namespace testing
