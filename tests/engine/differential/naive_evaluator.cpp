#include "engine/differential/naive_evaluator.h"

#include <algorithm>

#include "engine/differential/naive_builtins.h"
#include "engine/differential/naive_values.h"

namespace testing {

namespace {

using engine::Kind;
using engine::Node;
using engine::Operation;
using NK = Node::Kind;

// One name, or the item of a filter, whose keys are names too. `outer` is what lies around it.
struct Names;
using Environment = std::shared_ptr<const Names>;
struct Names {
  std::string name;
  Plain value;
  bool is_item = false;
  Environment outer;
};

Environment with(Environment outer, std::string name, Plain value) {
  return std::make_shared<Names>(Names{std::move(name), std::move(value), false, std::move(outer)});
}
Environment with_item(Environment outer, Plain item) {
  return std::make_shared<Names>(Names{"item", std::move(item), true, std::move(outer)});
}

class Walker {
 public:
  Plain value(const Node& node, const Environment& names) {
    const auto child = [&](std::size_t i) { return value(*node.children[i], names); };
    switch (node.kind) {
      case NK::null:
        return {};
      case NK::boolean:
        return plain(node.flag);
      case NK::number:
        return plain(*engine::Decimal::parse(node.text));
      case NK::string:
        return plain(node.text);
      case NK::at_literal:
        return at_literal(node);
      case NK::name:
        return name(node, names);
      case NK::list:
        return plain_list(values(node, 0, names));
      case NK::context:
        return context(node, names);
      case NK::range:
        return range(node, names);
      case NK::unary_range:
        return unary_range(node, names);
      case NK::arithmetic:
        return noted(calculate(node.operation, child(0), child(1)));
      case NK::negate:
        return noted(negative(child(0)));
      case NK::comparison:
        return plain(compare(node.operation, child(0), child(1)));
      case NK::conjunction:
        return junction(node, names, false);
      case NK::disjunction:
        return junction(node, names, true);
      case NK::between:
        return between(node, names);
      case NK::in:
        return plain(satisfies(*node.children[1], child(0), names));
      case NK::conditional:
        return conditional(node, names);
      case NK::loop:
        return loop(node, names);
      case NK::some:
        return quantifier(node, names, true);
      case NK::every:
        return quantifier(node, names, false);
      case NK::function:
        return function(node, names);
      case NK::call:
        return call(node, names);
      case NK::named_call:
        return named_call(node, names);
      case NK::path:
        return path(child(0), node.text);
      case NK::filter:
        return filter(node, names);
      default:
        throw NotKnown("a construct that the naive evaluator does not know");
    }
  }

  Truth satisfies(const Node& test, const Plain& tested, const Environment& names) {
    switch (test.kind) {
      case NK::any_test:
        return true;
      case NK::not_test:
        return negated(satisfies(*test.children[0], tested, names));
      case NK::compare_test:
        return compare(test.operation, tested, value(*test.children[0], names));
      case NK::value_test:
        return value_test(test, tested, names);
      case NK::test_list: {
        Truth answer = false;
        for (const auto& one : test.children) {
          const Truth truth = satisfies(*one, tested, names);
          if (truth == true) return true;
          if (!truth) answer = std::nullopt;
        }
        return answer;
      }
      default:
        throw NotKnown("a test that the naive evaluator does not know");
    }
  }

  bool has_error() const { return has_error_; }
  bool error_is_open() const { return error_is_open_ && !has_error_; }
  bool value_is_open() const { return value_is_open_; }

 private:
  Plain fault(Fault how_bad = Fault::error) {
    has_error_ = has_error_ || how_bad == Fault::error;
    return {};
  }
  Plain noted(Plain result) { return result.is_null() ? fault() : result; }

  Items values(const Node& node, std::size_t first, const Environment& names) {
    Items all;
    for (std::size_t i = first; i < node.children.size(); ++i) all.push_back(value(*node.children[i], names));
    return all;
  }

  Plain at_literal(const Node& node) {
    if (const auto date = engine::parse_date(node.text)) return plain(*date);
    const auto duration = engine::parse_duration(node.text);
    if (!duration) throw NotKnown("a literal that is no date and no duration");
    return std::visit([](const auto& d) { return plain(d); }, *duration);
  }

  // --- names, paths, filters ---

  Plain name(const Node& node, const Environment& names) {
    bool item_is_null = false;
    for (const Names* at = names.get(); at; at = at->outer.get()) {
      if (at->is_item) {
        item_is_null = item_is_null || at->value.is_null();
        for (const auto& [key, entry] : at->value.entries) {
          if (key == node.text) return entry;
        }
      }
      if (at->name == node.text) {
        value_is_open_ = value_is_open_ || (item_is_null && !at->is_item);
        return at->value;
      }
    }
    if (const NaiveBuiltin* builtin = naive_builtin(node.text)) return function_of(*builtin);
    return {};
  }

  Plain path(const Plain& holder, const std::string& key) {
    if (holder.is(Kind::context)) {
      for (const auto& [name, entry] : holder.entries) {
        if (name == key) return entry;
      }
      return fault();
    }
    if (holder.is(Kind::list)) {
      Items all;
      for (const Plain& item : holder.items) all.push_back(item.is_null() ? Plain() : path(item, key));
      return plain_list(std::move(all));
    }
    return property(holder, key);
  }

  Plain property(const Plain& holder, const std::string& key) {
    const auto number = [](std::int64_t n) { return plain(engine::Decimal(n)); };
    if (holder.is(Kind::date)) {
      if (key == "year") return number(holder.date.year);
      if (key == "month") return number(holder.date.month);
      if (key == "day") return number(holder.date.day);
    }
    if (holder.is(Kind::years_and_months)) {
      if (key == "years") return number(holder.months.count / 12);
      if (key == "months") return number(holder.months.count % 12);
    }
    if (holder.is(Kind::range)) {
      if (key == "start") return holder.range->start;
      if (key == "end") return holder.range->end;
    }
    return fault();
  }

  Plain filter(const Node& node, const Environment& names) {
    const Plain list = value(*node.children[0], names);
    if (list.is_null()) return fault(Fault::remark);
    const Items items = list.is(Kind::list) ? list.items : Items{list};
    const Node& predicate = *node.children[1];
    if (const auto index = index_of(predicate, items, names)) return item_at(items, *index);
    Items kept;
    std::size_t other = 0;
    for (const Plain& item : items) {
      const Plain answer = value(predicate, with_item(names, item));
      if (answer.is_true()) kept.push_back(item);
      if (!answer.is(Kind::boolean) && !answer.is_null()) ++other;
    }
    if (!items.empty() && other == items.size()) return fault();
    return plain_list(std::move(kept));
  }

  // The predicate's value without the item, where that is a number and the predicate speaks of no item.
  std::optional<engine::Decimal> index_of(const Node& predicate, const Items& items,
                                          const Environment& names) {
    const bool had_error = has_error_;
    const Plain index = value(predicate, names);
    const bool speaks = speaks_of_item(predicate, items);
    if (index.is(Kind::number) && !speaks) return index.number;
    if (index.is(Kind::number)) value_is_open_ = true;
    if (items.empty() && has_error_ && !had_error) error_is_open_ = true;
    has_error_ = had_error;
    return std::nullopt;
  }

  static bool speaks_of_item(const Node& node, const Items& items) {
    if (node.kind == NK::name) {
      if (node.text == "item") return true;
      for (const Plain& item : items) {
        for (const auto& [key, entry] : item.entries) {
          if (key == node.text) return true;
        }
      }
    }
    return std::any_of(node.children.begin(), node.children.end(),
                       [&](const auto& child) { return speaks_of_item(*child, items); });
  }

  static Plain item_at(const Items& items, const engine::Decimal& index) {
    const auto at = index.truncated_to_int64();
    const auto size = static_cast<std::int64_t>(items.size());
    if (!at || *at == 0 || *at > size || *at < -size) return {};
    return items[static_cast<std::size_t>(*at > 0 ? *at - 1 : size + *at)];
  }

  // --- values of several parts ---

  Plain context(const Node& node, Environment names) {
    Plain result;
    result.kind = Kind::context;
    for (std::size_t i = 0; i < node.names.size(); ++i) {
      for (std::size_t j = 0; j < i; ++j) {
        if (node.names[i] == node.names[j]) return fault();
      }
    }
    for (std::size_t i = 0; i < node.names.size(); ++i) {
      Plain entry = value(*node.children[i], names);
      names = with(names, node.names[i], entry);
      result.entries.push_back({node.names[i], std::move(entry)});
    }
    return result;
  }

  Plain range(const Node& node, const Environment& names) {
    return checked(
        {value(*node.children[0], names), value(*node.children[1], names), node.flag, node.flag_2, ""});
  }

  Plain checked(PlainRange range) {
    const bool both = !range.start.is_null() && !range.end.is_null();
    if (both) {
      const auto place = order(range.start, range.end);
      if (!place || *place > 0) return fault();
    }
    for (const Plain* end : {&range.start, &range.end}) {
      if (!end->is_null() && !order(*end, *end)) return fault();
    }
    return of(std::move(range));
  }

  static Plain of(PlainRange range) {
    Plain result;
    result.kind = Kind::range;
    result.range = std::make_shared<PlainRange>(std::move(range));
    return result;
  }

  Plain unary_range(const Node& node, const Environment& names) {
    const Plain end = value(*node.children[0], names);
    const std::string operation(engine::text_of(node.operation));
    const bool only_equality = operation == "=" || operation == "!=";
    if (end.is_null() || (!only_equality && !order(end, end))) return fault();
    if (operation == "=") return of({end, end, true, true, operation});
    if (operation == "!=") return of({end, end, false, false, operation});
    if (operation[0] == '<') return of({Plain(), end, false, operation == "<=", operation});
    return of({end, Plain(), operation == ">=", false, operation});
  }

  // --- logic ---

  Truth compare(Operation operation, const Plain& a, const Plain& b) {
    if (operation == Operation::equal || operation == Operation::not_equal) {
      const Truth same = equal(a, b);
      if (!same) fault();
      return operation == Operation::equal ? same : negated(same);
    }
    const auto place = order(a, b);
    if (!place) {
      fault();
      return std::nullopt;
    }
    switch (operation) {
      case Operation::less:
        return *place < 0;
      case Operation::less_or_equal:
        return *place <= 0;
      case Operation::greater:
        return *place > 0;
      default:
        return *place >= 0;
    }
  }

  Plain junction(const Node& node, const Environment& names, bool deciding) {
    const auto decides = [&](const Plain& v) { return v.is(Kind::boolean) && v.truth == deciding; };
    const Plain left = value(*node.children[0], names);
    if (decides(left)) return left;
    const Plain right = value(*node.children[1], names);
    if (decides(right)) return right;
    return left.is(Kind::boolean) && right.is(Kind::boolean) ? plain(!deciding) : Plain();
  }

  Plain between(const Node& node, const Environment& names) {
    const Plain tested = value(*node.children[0], names);
    const Truth above = compare(Operation::greater_or_equal, tested, value(*node.children[1], names));
    const Truth below = compare(Operation::less_or_equal, tested, value(*node.children[2], names));
    if (above == false || below == false) return plain(false);
    return above && below ? plain(true) : Plain();
  }

  Plain conditional(const Node& node, const Environment& names) {
    const Plain condition = value(*node.children[0], names);
    if (condition.is_true()) return value(*node.children[1], names);
    if (condition.is_false() || condition.is_null()) return value(*node.children[2], names);
    return fault();
  }

  Truth value_test(const Node& test, const Plain& tested, const Environment& names) {
    const Plain wanted = value(*test.children[0], names);
    if (test.flag) {  // it uses `?`
      if (wanted.is(Kind::boolean)) return wanted.truth;
      if (!wanted.is_null()) fault();
      return std::nullopt;
    }
    if (wanted.is(Kind::list)) return in_list(wanted, tested);
    if (!wanted.is(Kind::range)) return compare(Operation::equal, tested, wanted);
    const Truth inside = contains(*wanted.range, tested);
    if (!inside && tested.is(Kind::range) && equal(tested, wanted) == true) return true;
    if (!inside) fault();
    return inside;
  }

  static Truth in_list(const Plain& wanted, const Plain& tested) {
    if (equal(tested, wanted) == true) return true;
    Truth answer = false;
    for (const Plain& item : wanted.items) {
      const Truth match = item.is(Kind::range) ? contains(*item.range, tested) : equal(tested, item);
      if (match == true) return true;
      if (!match && item.is(Kind::range)) answer = std::nullopt;
    }
    return answer;
  }

  // --- loops ---

  // What the names of a loop run over; no value, noted, when that is nothing to run over.
  std::optional<Items> domain(const Node& node, const Environment& names) {
    const bool bare = node.kind == NK::range && node.operation == Operation::subtract;
    if (bare) {
      return counted(value(*node.children[0], names), value(*node.children[1], names), true, true, true);
    }
    const Plain over = value(node, names);
    if (over.is(Kind::list)) return over.items;
    if (over.is(Kind::range)) {
      const PlainRange& r = *over.range;
      return counted(r.start, r.end, r.start_included, r.end_included, false);
    }
    if (over.is_null()) {
      fault();
      return std::nullopt;
    }
    return Items{over};
  }

  std::optional<Items> counted(const Plain& first, const Plain& last, bool with_first, bool with_last,
                               bool may_go_down) {
    const auto number = [](const Plain& end) -> std::optional<std::int64_t> {
      if (end.is(Kind::number)) return end.number.to_int64();
      if (end.is(Kind::date)) return engine::days_since_epoch(end.date);
      return std::nullopt;
    };
    const auto from = number(first), to = number(last);
    if (first.kind != last.kind || !from || !to) {
      fault();
      return std::nullopt;
    }
    Items all;
    const std::int64_t step = *from <= *to ? 1 : -1;
    if (step < 0 && !may_go_down) return all;
    for (std::int64_t i = *from; i != *to + step; i += step) {
      if ((i == *from && !with_first) || (i == *to && !with_last)) continue;
      all.push_back(first.is(Kind::date) ? plain(*engine::date_from_days(i)) : plain(engine::Decimal(i)));
    }
    return all;
  }

  // Calls `body` for every combination, until it says false. False when there was nothing to run over.
  template <class Body>
  bool each(const Node& node, std::size_t variable, const Environment& names, const Body& body) {
    if (variable == node.names.size()) return body(names);
    const auto all = domain(*node.children[variable], names);
    if (!all) return false;
    for (const Plain& item : *all) {
      if (!each(node, variable + 1, with(names, node.names[variable], item), body)) return false;
    }
    return true;
  }

  Plain loop(const Node& node, const Environment& names) {
    Items results;
    const bool finished = each(node, 0, names, [&](const Environment& inner) {
      results.push_back(value(*node.children.back(), with(inner, "partial", plain_list(results))));
      return true;
    });
    return finished ? plain_list(std::move(results)) : Plain();
  }

  Plain quantifier(const Node& node, const Environment& names, bool deciding) {
    bool decided = false, unknown = false;
    const bool finished = each(node, 0, names, [&](const Environment& inner) {
      const Plain answer = value(*node.children.back(), inner);
      decided = answer.is(Kind::boolean) && answer.truth == deciding;
      if (!answer.is(Kind::boolean)) unknown = true;
      if (!answer.is(Kind::boolean) && !answer.is_null()) fault();
      return !decided;
    });
    if (decided) return plain(deciding);
    return finished && !unknown ? plain(!deciding) : Plain();
  }

  // --- functions ---

  static Plain of(PlainFunction code) {
    Plain result;
    result.kind = Kind::function;
    result.function = std::make_shared<PlainFunction>(std::move(code));
    return result;
  }

  Plain function(const Node& node, const Environment& names) {
    return of([this, &node, names](const Items& arguments) {
      if (arguments.size() != node.names.size()) return fault();
      Environment inner = names;
      for (std::size_t i = 0; i < arguments.size(); ++i) inner = with(inner, node.names[i], arguments[i]);
      return value(*node.children[0], inner);
    });
  }

  Plain function_of(const NaiveBuiltin& builtin) {
    return of([this, &builtin](Items arguments) {
      if (arguments.size() < builtin.least || arguments.size() > builtin.most) return fault();
      NaiveCall call{std::move(arguments), [this](Fault how_bad) { return fault(how_bad); }};
      return builtin.run(call);
    });
  }

  Plain call(const Node& node, const Environment& names) {
    const Plain callee = value(*node.children[0], names);
    Items arguments = values(node, 1, names);
    return callee.is(Kind::function) ? (*callee.function)(std::move(arguments)) : fault();
  }

  // Of functions written in place only: their parameters are in the tree.
  Plain named_call(const Node& node, const Environment& names) {
    const Node& callee = *node.children[0];
    if (callee.kind != NK::function)
      throw NotKnown("a call by name of a function that is not written in place");
    const Items given = values(node, 1, names);
    Items ordered;
    for (const std::string& parameter : callee.names) {
      const auto at = std::find(node.names.begin(), node.names.end(), parameter);
      if (at == node.names.end()) return fault();
      ordered.push_back(given[static_cast<std::size_t>(at - node.names.begin())]);
    }
    if (given.size() != ordered.size()) return fault();
    return (*function(callee, names).function)(std::move(ordered));
  }

  bool has_error_ = false;
  bool error_is_open_ = false;
  bool value_is_open_ = false;
};

Environment environment(std::span<const PlainNamed> scope) {
  Environment names;
  for (const PlainNamed& named : scope) names = with(names, named.name, named.value);
  return names;
}

}  // namespace

NaiveAnswer evaluate_naively(const engine::Node& tree, std::span<const PlainNamed> scope) {
  Walker walker;
  Plain value = walker.value(tree, environment(scope));
  return {std::move(value), walker.has_error(), walker.error_is_open(), walker.value_is_open()};
}

NaiveAnswer test_naively(const engine::Node& tests, const Plain& tested, std::span<const PlainNamed> scope) {
  Walker walker;
  const Truth truth = walker.satisfies(tests, tested, with(environment(scope), "?", tested));
  return {plain(truth), walker.has_error(), walker.error_is_open(), walker.value_is_open()};
}

}  // namespace testing
