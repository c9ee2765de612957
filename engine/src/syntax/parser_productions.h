// The parser: its state, and its productions, lowest precedence first. Each parse_*.cpp holds one group of
// them.

#pragma once

#include <algorithm>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "syntax/parser.h"
#include "syntax/token.h"

namespace engine {

// Thrown at the first fault of the syntax and caught in parse(): the only exception of the parser.
struct SyntaxFault {
  Error error;
};

constexpr int deepest_nesting = 200;

class Parser {
 public:
  Parser(std::string_view text, const ParseContext& context, std::vector<Token> tokens)
      : text_(text), context_(context), scope_(context.scope), tokens_(std::move(tokens)) {}
  Tree whole_expression();
  Tree whole_unary_tests();
  Errors take_warnings() { return std::move(warnings_); }

 private:
  // --- tokens ---
  const Token& peek(std::size_t ahead = 0) const {
    return tokens_[std::min(at_ + ahead, tokens_.size() - 1)];
  }
  bool accept(std::string_view written);
  void expect(std::string_view written);
  void expect_end();
  std::string found() const;
  [[noreturn]] void fail(std::string message, std::string help = {}) const;
  Tree make(Node::Kind kind, std::uint32_t start) const;
  // Sets the node's end to the last token that was taken.
  Tree finish(Tree node) const;

  // --- scopes ---------------------------------------------------------------------------------------------------------
  template <class Body>
  auto within(const Scope& scope, Body body) {
    const Scope* outer = scope_;
    scope_ = &scope;
    struct Back {
      Parser& parser;
      const Scope* outer;
      ~Back() { parser.scope_ = outer; }
    } back{*this, outer};
    return body();
  }
  struct Depth {
    Parser& parser;
    explicit Depth(Parser & p) : parser(p) {
      if (++parser.depth_ > deepest_nesting) {
        parser.fail("the expression is nested more than " + std::to_string(deepest_nesting) + " deep");
      }
    }
    ~Depth() {
      --parser.depth_;
    }
  };
  // Brackets inside a range end are ordinary again.
  template <class Body>
  auto nested(Body body) {
    const bool before = in_range_end_;
    in_range_end_ = false;
    struct Back {
      Parser& parser;
      bool before;
      ~Back() { parser.in_range_end_ = before; }
    } back{*this, before};
    return body();
  }

  // --- expressions, lowest precedence first ---------------------------------------------------------------------------
  Tree expression();
  // A name such as `for all` may begin with a keyword.
  bool starts_known_name() const;
  Tree loop();
  Tree quantified();
  // `NAME in list`, or `NAME in a..b`, which may run downward and is only allowed here.
  void iteration(Node& node, std::vector<std::unique_ptr<Scope>>& scopes);
  static const Type* element_type(const Node& node);
  Tree conditional();
  static const Type* common_type(const Type& a, const Type& b);
  Tree binary(Node::Kind kind, Operation operation, Tree left, Tree right, const Type* type);
  Tree disjunction();
  Tree conjunction();
  static Operation comparison_operation(const Token& token);
  Tree comparison();
  void warn_clash(const Node& left, const Node& right);
  // `in` takes one test, or several in parentheses. `(1..5)` and `(a + b) * 2` begin with a parenthesis as well.
  Tree in_tests();
  bool continues_operand() const;
  Tree test_list(std::string_view);
  // `whole`: the test may be any expression; else it ends where a comparison would.
  Tree one_test(bool whole);
  static const Type* sum_type(Operation operation, const Type& a, const Type& b);
  Tree sum();
  static const Type* product_type(Operation operation, const Type& a, const Type& b);
  Tree product();
  Tree power();
  Tree negation();
  Tree instance();

  // --- access and calls -----------------------------------------------------------------------------------------------
  Tree postfix();
  // After the upper end of a range, a `[` that cannot begin a filter closes the range: `[1..10[`.
  bool closes_range() const;
  Tree path(Tree left);
  std::string property_name(const Type& holder, const Type*& type);
  void warn_unknown_key(const Type& holder);
  Tree filter(Tree left);
  Tree call(Tree callee);
  // Functions that give back what they were given keep its type, so that later paths know their keys.
  void refine_builtin_type(Node& node);
  // `name:` in front of an argument. Names may hold spaces and symbols, so look for the colon before any bracket.
  bool argument_name_follows() const;
  // A new name, as in declarations: all tokens up to `stop`, joined as they were spaced.
  std::string name_until(std::string_view stop);
  bool ends_name() const;

  // --- primary expressions --------------------------------------------------------------------------------------------
  Tree primary();
  Tree at_literal();
  Tree parenthesis();
  Tree bracket();
  // `]a..b[`
  Tree interval(std::uint32_t start, bool included);
  Tree upper_end(std::uint32_t start, bool start_included, Tree lower);
  Tree context();
  Tree word();
  Tree keyword_literal();
  Tree unknown_name(Tree node);
  void warn_shadowed(const Scope::Match& match);
  // Filters learn whether their predicate looks at the item: only then is it asked item by item.
  void mark_item_references(const Scope::Match& match);
  void mark_slot_reference(std::uint32_t slot, std::uint32_t level);
  Tree function();

  // --- types ----------------------------------------------------------------------------------------------------------
  const Type* type();
  const Type* context_type();
  const Type* function_type();
  struct OpenFilter {
    std::uint32_t slot;
    std::uint32_t level;
    Node* node;
  };
  // Where reading stands, to come back to when what follows can be read in two ways. A fault leaves scopes and filters
  // behind that are gone: going back forgets them.
  struct Mark {
    std::size_t at, filters, warnings;
    const Scope* scope;
    bool uses_tested_value, in_range_end;
  };
  Mark mark() const { return {at_, filters_.size(), warnings_.size(), scope_, uses_tested_value_, in_range_end_}; }
  void go_back(const Mark& mark) {
    at_ = mark.at;
    filters_.resize(mark.filters);
    warnings_.resize(mark.warnings);
    scope_ = mark.scope;
    uses_tested_value_ = mark.uses_tested_value;
    in_range_end_ = mark.in_range_end;
  }
  // Tests in parentheses, or nothing when the parenthesis belongs to one expression; `fault` then says how far it went.
  Tree tests_in_parentheses(std::optional<SyntaxFault>& fault);

  std::string_view text_;
  const ParseContext& context_;
  const Scope* scope_;
  std::vector<Token> tokens_;
  std::size_t at_ = 0;
  // Parentheses after `in` that are known to hold no list of tests: nested ones would be tried again and again.
  std::set<std::pair<std::size_t, bool>> no_test_lists_;
  int depth_ = 0;
  bool in_range_end_ = false;
  bool uses_tested_value_ = false;
  std::vector<OpenFilter> filters_;
  Errors warnings_;
};

}  // namespace engine
