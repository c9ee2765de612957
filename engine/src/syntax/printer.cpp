#include "engine/value.h"
#include "syntax/tree.h"

namespace engine {

namespace {

using NK = Node::Kind;

// How tightly a construct binds; an operand that binds less tightly stands in parentheses.
int binding_strength(const Node& node) {
  switch (node.kind) {
    case NK::loop: case NK::conditional: case NK::some: case NK::every: case NK::function: return 0;
    case NK::disjunction: return 1;
    case NK::conjunction: return 2;
    case NK::comparison: case NK::between: case NK::in: return 3;
    case NK::arithmetic:
      switch (node.operation) {
        case Operation::add: case Operation::subtract: return 4;
        case Operation::multiply: case Operation::divide: return 5;
        default: return 6;
      }
    case NK::negate: return 7;
    case NK::instance_of: return 8;
    default: return 9;
  }
}

class Printer {
 public:
  std::string out;

  void operand(const Node& node, int least) {
    const bool parentheses = binding_strength(node) < least;
    if (parentheses) out += '(';
    write(node);
    if (parentheses) out += ')';
  }

  void write(const Node& node) {
    switch (node.kind) {
      case NK::null: out += "null"; break;
      case NK::boolean: out += node.flag ? "true" : "false"; break;
      case NK::number: out += node.text; break;
      case NK::string: out += literal_of(Value::string(node.text)); break;
      case NK::at_literal: out += "@" + literal_of(Value::string(node.text)); break;
      case NK::name: out += node.text; break;
      case NK::list: list(node, "[", "]", 0); break;
      case NK::context: context(node); break;
      case NK::range: range(node); break;
      case NK::unary_range:
        out += "(" + std::string(text_of(node.operation)) + " ";
        operand(*node.children[0], 4);
        out += ")";
        break;
      case NK::arithmetic: case NK::comparison: binary(node, std::string(text_of(node.operation))); break;
      case NK::conjunction: binary(node, "and"); break;
      case NK::disjunction: binary(node, "or"); break;
      case NK::negate:
        out += "-";
        operand(*node.children[0], 7);
        break;
      case NK::between:
        operand(*node.children[0], 4);
        out += " between ";
        operand(*node.children[1], 4);
        out += " and ";
        operand(*node.children[2], 4);
        break;
      case NK::in:
        operand(*node.children[0], 4);
        out += " in ";
        if (node.children[1]->kind == NK::test_list) {
          list(*node.children[1], "(", ")", 0);
        } else {
          test(*node.children[1], 4);
        }
        break;
      case NK::conditional:
        out += "if ";
        write(*node.children[0]);
        out += " then ";
        write(*node.children[1]);
        out += " else ";
        write(*node.children[2]);
        break;
      case NK::loop: iteration(node, "for", "return"); break;
      case NK::some: iteration(node, "some", "satisfies"); break;
      case NK::every: iteration(node, "every", "satisfies"); break;
      case NK::function: function(node); break;
      case NK::call: case NK::named_call: call(node); break;
      case NK::path:
        operand(*node.children[0], 9);
        out += "." + node.text;
        break;
      case NK::filter:
        operand(*node.children[0], 9);
        out += "[";
        write(*node.children[1]);
        out += "]";
        break;
      case NK::instance_of:
        operand(*node.children[0], 9);
        out += " instance of " + text_of(*node.types[0]);
        break;
      case NK::any_test: out += "-"; break;
      case NK::compare_test: case NK::value_test: test(node, 0); break;
      case NK::test_list: list(node, "", "", 0); break;
      case NK::not_test:
        out += "not(";
        write(*node.children[0]);
        out += ")";
        break;
      case NK::convert: write(*node.children[0]); break;
      case NK::table: case NK::no_logic: break;  // no text form
    }
  }

 private:
  void binary(const Node& node, const std::string& symbol) {
    const int strength = binding_strength(node);
    const bool chained = strength != 3;  // left associative; comparisons do not chain
    operand(*node.children[0], chained ? strength : strength + 1);
    out += " " + symbol + " ";
    operand(*node.children[1], strength + 1);
  }

  void test(const Node& node, int least) {
    if (node.kind == NK::compare_test) {
      out += std::string(text_of(node.operation)) + " ";
      operand(*node.children[0], 4);
    } else {
      operand(*node.children[0], least);
    }
  }

  void list(const Node& node, std::string_view open, std::string_view close, int least) {
    out += open;
    for (std::size_t i = 0; i < node.children.size(); ++i) {
      if (i > 0) out += ", ";
      operand(*node.children[i], least);
    }
    out += close;
  }

  void context(const Node& node) {
    out += "{";
    for (std::size_t i = 0; i < node.children.size(); ++i) {
      if (i > 0) out += ", ";
      out += literal_of(Value::string(node.names[i])) + ": ";
      write(*node.children[i]);
    }
    out += "}";
  }

  void range(const Node& node) {
    const bool bare = node.operation == Operation::subtract;  // `for x in a..b`
    if (!bare) out += node.flag ? "[" : "(";
    operand(*node.children[0], 4);
    out += "..";
    operand(*node.children[1], 4);
    if (!bare) out += node.flag_2 ? "]" : ")";
  }

  void iteration(const Node& node, std::string_view word, std::string_view body) {
    out += word;
    for (std::size_t i = 0; i + 1 < node.children.size(); ++i) {
      out += (i > 0 ? ", " : " ") + node.names[i] + " in ";
      operand(*node.children[i], node.children[i]->kind == NK::range ? 9 : 1);
    }
    out += " " + std::string(body) + " ";
    write(*node.children.back());
  }

  void function(const Node& node) {
    out += "function(";
    for (std::size_t i = 0; i < node.names.size(); ++i) {
      out += (i > 0 ? ", " : "") + node.names[i];
      if (node.types[i]) out += ": " + text_of(*node.types[i]);
    }
    out += node.flag ? ") external " : ") ";
    write(*node.children[0]);
  }

  void call(const Node& node) {
    operand(*node.children[0], 9);
    out += "(";
    for (std::size_t i = 1; i < node.children.size(); ++i) {
      if (i > 1) out += ", ";
      if (node.kind == NK::named_call) out += node.names[i - 1] + ": ";
      write(*node.children[i]);
    }
    out += ")";
  }
};

}  // namespace

namespace {

/// A cell that is one call of the function `not`.
bool is_call_of_not(const Node& cell) {
  if (cell.kind != NK::test_list || cell.children.size() != 1) return false;
  const Node& only = *cell.children[0];
  if (only.kind != NK::value_test || only.children[0]->kind != NK::call) return false;
  const Node& callee = *only.children[0]->children[0];
  return callee.kind == NK::name && callee.text == "not";
}

}  // namespace

std::string print(const Node& node) {
  Printer printer;
  if (is_call_of_not(node)) {  // bare, the cell `not(x)` is a test of its own
    printer.out = "(";
    printer.write(*node.children[0]->children[0]);
    return printer.out + ")";
  }
  printer.write(node);
  return printer.out;
}

}  // namespace engine
