#include "syntax/parser.h"

#include <algorithm>
#include <optional>

#include "builtins/index.h"
#include "syntax/unicode.h"

namespace engine {

namespace {

using NK = Node::Kind;

// Thrown at the first fault of the syntax and caught in parse(): the only exception of this file.
struct SyntaxFault {
  Error error;
};

constexpr int deepest_nesting = 200;

class Parser {
 public:
  Parser(std::string_view text, const ParseContext& context, std::vector<Token> tokens)
      : text_(text), context_(context), scope_(context.scope), tokens_(std::move(tokens)) {}

  Tree whole_expression() {
    if (peek().kind == Token::Kind::end) return make(NK::null, 0);
    Tree tree = expression();
    expect_end();
    return tree;
  }

  Tree whole_unary_tests() {
    if (peek().kind == Token::Kind::end) return make(NK::any_test, 0);
    if (peek().is("-") && peek(1).kind == Token::Kind::end) {
      Tree any = make(NK::any_test, 0);
      ++at_;
      return any;
    }
    const std::uint32_t start = peek().start;
    if (peek().is("not") && peek(1).is("(")) {
      const std::size_t back = at_;
      at_ += 2;
      Tree inner = test_list(")");
      expect(")");
      if (peek().kind == Token::Kind::end) {
        Tree negation = make(NK::not_test, start);
        negation->children.push_back(std::move(inner));
        return finish(std::move(negation));
      }
      at_ = back;  // `not(...)` was the beginning of an expression
    }
    Tree tests = test_list("");
    expect_end();
    return tests;
  }

  Errors take_warnings() { return std::move(warnings_); }

 private:
  // --- tokens ---------------------------------------------------------------------------------------------------------

  const Token& peek(std::size_t ahead = 0) const { return tokens_[std::min(at_ + ahead, tokens_.size() - 1)]; }

  bool accept(std::string_view written) {
    if (!peek().is(written)) return false;
    ++at_;
    return true;
  }

  void expect(std::string_view written) {
    if (!accept(written)) fail("expected `" + std::string(written) + "`, found " + found());
  }

  void expect_end() {
    if (peek().kind != Token::Kind::end) fail("expected the end of the expression, found " + found());
  }

  std::string found() const {
    return peek().kind == Token::Kind::end ? "the end of the text" : "`" + std::string(peek().text) + "`";
  }

  [[noreturn]] void fail(std::string message, std::string help = {}) const {
    throw SyntaxFault{{"syntax", std::move(message), place_of(text_, peek().start, peek().size, context_.source),
                       std::move(help)}};
  }

  Tree make(NK kind, std::uint32_t start) const {
    Tree node = std::make_unique<Node>(kind);
    node->start = start;
    node->size = 0;
    return node;
  }

  // Sets the node's end to the last token that was taken.
  Tree finish(Tree node) const {
    const std::uint32_t end = at_ > 0 ? tokens_[at_ - 1].end() : 0;
    node->size = end > node->start ? end - node->start : 0;
    return node;
  }

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
    explicit Depth(Parser& p) : parser(p) {
      if (++parser.depth_ > deepest_nesting) {
        parser.fail("the expression is nested more than " + std::to_string(deepest_nesting) + " deep");
      }
    }
    ~Depth() { --parser.depth_; }
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

  Tree expression() {
    const Depth depth(*this);
    const Token& token = peek();
    const bool opening = token.is("for") || token.is("if") || token.is("some") || token.is("every");
    if (!opening || starts_known_name()) return disjunction();
    if (token.text == "for") return loop();
    if (token.text == "if") return conditional();
    return quantified();
  }

  // A name such as `for all` may begin with a keyword.
  bool starts_known_name() const {
    const Scope::Match match = scope_->find(tokens_, at_);
    return match.tokens > 0;
  }

  Tree loop() {
    const std::uint32_t start = peek().start;
    ++at_;
    Tree node = make(NK::loop, start);
    std::vector<std::unique_ptr<Scope>> scopes;
    const Scope* before = scope_;
    const Type* partial_type = context_.types->list_of(nullptr);
    do {
      iteration(*node, scopes);
    } while (accept(","));
    scopes.push_back(std::make_unique<Scope>(scope_, scope_->layout()));
    node->slots.push_back(scopes.back()->add_variable("partial", partial_type));
    scope_ = scopes.back().get();
    expect("return");
    node->children.push_back(expression());
    scope_ = before;
    node->type = context_.types->list_of(node->children.back()->type);
    return finish(std::move(node));
  }

  Tree quantified() {
    const std::uint32_t start = peek().start;
    Tree node = make(peek().text == "some" ? NK::some : NK::every, start);
    ++at_;
    std::vector<std::unique_ptr<Scope>> scopes;
    const Scope* before = scope_;
    do {
      iteration(*node, scopes);
    } while (accept(","));
    expect("satisfies");
    node->children.push_back(expression());
    scope_ = before;
    node->type = basic_type(Type::Kind::boolean);
    return finish(std::move(node));
  }

  // `NAME in list`, or `NAME in a..b`, which may run downward and is only allowed here.
  void iteration(Node& node, std::vector<std::unique_ptr<Scope>>& scopes) {
    node.names.push_back(name_until("in"));
    expect("in");
    Tree domain = expression();
    if (accept("..")) {
      Tree range = make(NK::range, domain->start);
      range->type = context_.types->range_of(domain->type);
      range->children.push_back(std::move(domain));
      range->children.push_back(sum());
      range->flag = range->flag_2 = true;
      range->operation = Operation::subtract;  // marks "may run downward"
      domain = finish(std::move(range));
    }
    scopes.push_back(std::make_unique<Scope>(scope_, scope_->layout()));
    node.slots.push_back(scopes.back()->add_variable(node.names.back(), element_type(*domain)));
    scope_ = scopes.back().get();
    node.children.push_back(std::move(domain));
  }

  static const Type* element_type(const Node& node) {
    if ((node.type->kind == Type::Kind::list || node.type->kind == Type::Kind::range) && node.type->element) {
      return node.type->element;
    }
    return any_type();
  }

  Tree conditional() {
    Tree node = make(NK::conditional, peek().start);
    ++at_;
    node->children.push_back(expression());
    expect("then");
    node->children.push_back(expression());
    if (!peek().is("else")) fail("expected `else`, found " + found(), "FEEL has no `if` without `else`");
    ++at_;
    node->children.push_back(expression());
    node->type = common_type(*node->children[1]->type, *node->children[2]->type);
    return finish(std::move(node));
  }

  static const Type* common_type(const Type& a, const Type& b) {
    if (a.kind == Type::Kind::null) return &b;
    if (b.kind == Type::Kind::null) return &a;
    if (fits(a, b)) return &b;
    if (fits(b, a)) return &a;
    return any_type();
  }

  Tree binary(NK kind, Operation operation, Tree left, Tree right, const Type* type) {
    Tree node = make(kind, left->start);
    node->operation = operation;
    node->type = type;
    node->children.push_back(std::move(left));
    node->children.push_back(std::move(right));
    return finish(std::move(node));
  }

  Tree disjunction() {
    Tree left = conjunction();
    while (accept("or")) {
      left = binary(NK::disjunction, Operation::none, std::move(left), conjunction(),
                    basic_type(Type::Kind::boolean));
    }
    return left;
  }

  Tree conjunction() {
    Tree left = comparison();
    while (accept("and")) {
      left = binary(NK::conjunction, Operation::none, std::move(left), comparison(),
                    basic_type(Type::Kind::boolean));
    }
    return left;
  }

  static Operation comparison_operation(const Token& token) {
    if (token.kind != Token::Kind::symbol) return Operation::none;
    if (token.text == "=") return Operation::equal;
    if (token.text == "!=") return Operation::not_equal;
    if (token.text == "<") return Operation::less;
    if (token.text == "<=") return Operation::less_or_equal;
    if (token.text == ">") return Operation::greater;
    if (token.text == ">=") return Operation::greater_or_equal;
    return Operation::none;
  }

  Tree comparison() {
    Tree left = sum();
    const Operation operation = comparison_operation(peek());
    if (operation != Operation::none) {
      ++at_;
      Tree right = sum();
      warn_clash(*left, *right);
      Tree node =
          binary(NK::comparison, operation, std::move(left), std::move(right), basic_type(Type::Kind::boolean));
      if (comparison_operation(peek()) != Operation::none) {
        fail("comparisons cannot be chained", "write `a < b and b < c`");
      }
      return node;
    }
    if (accept("between")) {
      Tree node = make(NK::between, left->start);
      node->children.push_back(std::move(left));
      node->children.push_back(sum());
      expect("and");
      node->children.push_back(sum());
      node->type = basic_type(Type::Kind::boolean);
      return finish(std::move(node));
    }
    if (accept("in")) {
      Tree node = make(NK::in, left->start);
      node->children.push_back(std::move(left));
      node->children.push_back(in_tests());
      node->type = basic_type(Type::Kind::boolean);
      return finish(std::move(node));
    }
    return left;
  }

  void warn_clash(const Node& left, const Node& right) {
    if (!clash(*left.type, *right.type)) return;
    warnings_.push_back({"type_clash",
                         "a " + engine::text_of(*left.type) + " is compared with a " + engine::text_of(*right.type) +
                             ": the answer is always null",
                         place_of(text_, left.start, right.start + right.size - left.start, context_.source),
                         {}});
  }

  // `in` takes one test, or several in parentheses. `(1..5)` and `(a + b) * 2` begin with a parenthesis as well.
  Tree in_tests() {
    const std::uint32_t start = peek().start;
    if (peek().is("(")) {
      const std::size_t back = at_;
      ++at_;
      std::optional<SyntaxFault> fault;
      try {
        Tree tests = make(NK::test_list, start);
        if (!peek().is(")")) tests = test_list(")");
        if (accept(")") && !continues_operand()) {
          tests->start = start;
          return finish(std::move(tests));
        }
      } catch (SyntaxFault& f) {
        fault = std::move(f);
      }
      const std::size_t furthest = at_;
      at_ = back;
      try {
        return one_test(false);
      } catch (SyntaxFault& f) {
        if (fault && furthest > at_) throw *fault;
        throw;
      }
    }
    return one_test(false);
  }

  bool continues_operand() const {
    static constexpr std::string_view operators[] = {".", "[", "(", "+", "-", "*", "/", "**", ".."};
    return std::any_of(std::begin(operators), std::end(operators), [&](auto o) { return peek().is(o); });
  }

  Tree test_list(std::string_view) {
    Tree list = make(NK::test_list, peek().start);
    do {
      list->children.push_back(one_test(true));
    } while (accept(","));
    list->type = basic_type(Type::Kind::boolean);
    return finish(std::move(list));
  }

  // `whole`: the test may be any expression; else it ends where a comparison would.
  Tree one_test(bool whole) {
    const std::uint32_t start = peek().start;
    const Operation operation = comparison_operation(peek());
    if (operation != Operation::none) {
      ++at_;
      Tree node = make(NK::compare_test, start);
      node->operation = operation;
      node->children.push_back(sum());
      return finish(std::move(node));
    }
    Tree node = make(NK::value_test, start);
    const bool outer_uses = uses_tested_value_;
    uses_tested_value_ = false;
    node->children.push_back(whole ? expression() : sum());
    node->flag = uses_tested_value_;
    uses_tested_value_ = outer_uses || uses_tested_value_;
    return finish(std::move(node));
  }

  static const Type* sum_type(Operation operation, const Type& a, const Type& b) {
    using T = Type::Kind;
    if (a.kind == b.kind && (a.kind == T::number || a.kind == T::years_and_months || a.kind == T::days_and_time)) return &a;
    if (a.kind == T::string && b.kind == T::string && operation == Operation::add) return &a;
    const bool b_duration = b.kind == T::years_and_months || b.kind == T::days_and_time;
    if ((a.kind == T::date || a.kind == T::date_time) && b_duration) return &a;
    if (a.kind == T::date && b.kind == T::date && operation == Operation::subtract) return basic_type(T::days_and_time);
    return any_type();
  }

  Tree sum() {
    Tree left = product();
    for (;;) {
      const Operation operation = peek().is("+")   ? Operation::add
                                  : peek().is("-") ? Operation::subtract
                                                   : Operation::none;
      if (operation == Operation::none || peek().kind != Token::Kind::symbol) return left;
      ++at_;
      Tree right = product();
      const Type* type = sum_type(operation, *left->type, *right->type);
      left = binary(NK::arithmetic, operation, std::move(left), std::move(right), type);
    }
  }

  static const Type* product_type(Operation operation, const Type& a, const Type& b) {
    using T = Type::Kind;
    if (a.kind == T::number && b.kind == T::number) return &a;
    const bool a_duration = a.kind == T::years_and_months || a.kind == T::days_and_time;
    if (a_duration && b.kind == T::number) return &a;
    if (a_duration && a.kind == b.kind && operation == Operation::divide) return basic_type(T::number);
    return any_type();
  }

  Tree product() {
    Tree left = power();
    for (;;) {
      const Operation operation = peek().is("*")   ? Operation::multiply
                                  : peek().is("/") ? Operation::divide
                                                   : Operation::none;
      if (operation == Operation::none) return left;
      ++at_;
      Tree right = power();
      const Type* type = product_type(operation, *left->type, *right->type);
      left = binary(NK::arithmetic, operation, std::move(left), std::move(right), type);
    }
  }

  Tree power() {
    Tree left = negation();
    while (accept("**")) {
      left = binary(NK::arithmetic, Operation::power, std::move(left), negation(),
                    basic_type(Type::Kind::number));
    }
    return left;
  }

  Tree negation() {
    if (!peek().is("-")) return instance();
    const Depth depth(*this);
    Tree node = make(NK::negate, peek().start);
    ++at_;
    node->children.push_back(negation());
    node->type = node->children[0]->type;
    return finish(std::move(node));
  }

  Tree instance() {
    Tree left = postfix();
    if (!(peek().is("instance") && peek(1).is("of"))) return left;
    at_ += 2;
    Tree node = make(NK::instance_of, left->start);
    node->children.push_back(std::move(left));
    node->types.push_back(type());
    node->type = basic_type(Type::Kind::boolean);
    return finish(std::move(node));
  }

  // --- access and calls -----------------------------------------------------------------------------------------------

  Tree postfix() {
    Tree left = primary();
    for (;;) {
      if (peek().is(".")) {
        left = path(std::move(left));
      } else if (peek().is("[") && !(in_range_end_ && closes_range())) {
        left = filter(std::move(left));
      } else if (peek().is("(")) {
        left = call(std::move(left));
      } else {
        return left;
      }
    }
  }

  // After the upper end of a range, a `[` that cannot begin a filter closes the range: `[1..10[`.
  bool closes_range() const {
    const Token& next = peek(1);
    if (next.kind == Token::Kind::end) return true;
    static constexpr std::string_view after[] = {".",  ")",  ",", "]", "}", "=", "!=", "<", "<=", ">", ">=", "+", "*",
                                                 "/",  "**", "and", "or", "then", "else", "return", "satisfies", "in",
                                                 "between", "instance"};
    return std::any_of(std::begin(after), std::end(after), [&](auto a) { return next.is(a); });
  }

  Tree path(Tree left) {
    ++at_;
    Tree node = make(NK::path, left->start);
    const Type& whole = *left->type;
    const Type* holder = whole.kind == Type::Kind::list && whole.element ? whole.element : &whole;
    const Type* found_type = any_type();
    node->text = property_name(*holder, found_type);
    const bool over_list = whole.kind == Type::Kind::list;
    node->type = over_list ? context_.types->list_of(found_type) : found_type;
    if (over_list && holder->kind == Type::Kind::any) node->type = any_type();
    node->children.push_back(std::move(left));
    return finish(std::move(node));
  }

  std::string property_name(const Type& holder, const Type*& type) {
    std::uint32_t longest = 0;
    std::string name;
    const auto consider = [&](std::string_view candidate, const Type* candidate_type) {
      const std::uint32_t count = NamePattern(candidate).matches(tokens_, at_);
      if (count > longest) {
        longest = count;
        name = candidate;
        type = candidate_type;
      }
    };
    for (const Type::Field& field : holder.fields) consider(field.name, field.type);
    if (holder.kind != Type::Kind::context) {
      const Type* number = basic_type(Type::Kind::number);
      consider("time offset", basic_type(Type::Kind::days_and_time));
      consider("start included", basic_type(Type::Kind::boolean));
      consider("end included", basic_type(Type::Kind::boolean));
      if (holder.kind != Type::Kind::any) {
        for (const std::string_view property : {"year", "month", "day", "weekday", "hour", "minute", "second", "years",
                                                "months", "days", "hours", "minutes", "seconds"}) {
          consider(property, number);
        }
      }
    }
    if (longest > 0) {
      at_ += longest;
      return name;
    }
    if (peek().kind != Token::Kind::word) fail("expected a name after `.`, found " + found());
    if (!holder.fields.empty()) warn_unknown_key(holder);
    name = std::string(peek().text);
    ++at_;
    while (peek().kind == Token::Kind::word && !is_keyword(peek().text)) {
      name += " " + std::string(peek().text);
      ++at_;
    }
    return name;
  }

  void warn_unknown_key(const Type& holder) {
    std::vector<std::string_view> keys;
    std::string list;
    for (const Type::Field& field : holder.fields) {
      keys.push_back(field.name);
      list += (list.empty() ? "`" : ", `") + field.name + "`";
    }
    const std::string near = nearest(peek().text, keys);
    warnings_.push_back({"unknown_key", "there is no `" + std::string(peek().text) + "` here",
                         place_of(text_, peek().start, peek().size, context_.source),
                         (near.empty() ? "" : "did you mean `" + near + "`? ") + "there are " + list});
  }

  Tree filter(Tree left) {
    ++at_;
    Tree node = make(NK::filter, left->start);
    const Type& whole = *left->type;
    const Type* element = whole.kind == Type::Kind::list ? whole.element : &whole;
    Scope items(scope_, scope_->layout());
    const std::uint32_t slot = scope_->layout()->take();
    items.set_item(slot, element && element->kind != Type::Kind::any ? element : nullptr);
    node->slots.push_back(slot);
    node->children.push_back(std::move(left));
    filters_.push_back({slot, scope_->layout()->level, node.get()});
    Tree predicate = within(items, [&] { return nested([&] { return expression(); }); });
    filters_.pop_back();
    expect("]");
    const bool index = predicate->type->kind == Type::Kind::number && !node->refers_to_item;
    node->type = index ? (element ? element : any_type())
                 : whole.kind == Type::Kind::list ? &whole
                 : whole.kind == Type::Kind::any  ? any_type()
                                                  : context_.types->list_of(&whole);
    if (!index && predicate->type->kind != Type::Kind::boolean && !node->refers_to_item) node->type = any_type();
    node->children.push_back(std::move(predicate));
    return finish(std::move(node));
  }

  Tree call(Tree callee) {
    ++at_;
    const bool named = argument_name_follows();
    Tree node = make(named ? NK::named_call : NK::call, callee->start);
    const Node& function = *callee;
    if (function.binding.kind == Binding::Kind::builtin) {
      node->type = builtin_result_type(function.binding.index, *context_.types);
    } else if (function.type->kind == Type::Kind::function && function.type->result) {
      node->type = function.type->result;
    }
    node->children.push_back(std::move(callee));
    nested([&] {
      if (accept(")")) return;
      do {
        if (named) {
          node->names.push_back(name_until(":"));
          expect(":");
        }
        node->children.push_back(expression());
      } while (accept(","));
      expect(")");
    });
    if (node->children[0]->binding.kind == Binding::Kind::builtin && !named) refine_builtin_type(*node);
    return finish(std::move(node));
  }

  // Functions that give back what they were given keep its type, so that later paths know their keys.
  void refine_builtin_type(Node& node) {
    const std::string_view name = node.children[0]->text;
    if (node.children.size() < 2) return;
    const Type* first = node.children[1]->type;
    const bool keeps = name == "sublist" || name == "append" || name == "reverse" || name == "remove" ||
                       name == "distinct values" || name == "sort" || name == "insert before";
    if (keeps && first->kind == Type::Kind::list) node.type = first;
    const bool joins = name == "concatenate" || name == "union";
    if (joins && first->kind == Type::Kind::list) {
      const bool same = std::all_of(node.children.begin() + 1, node.children.end(), [&](const Tree& argument) {
        return fits(*argument->type, *first) && fits(*first, *argument->type);
      });
      if (same) node.type = first;
    }
    if ((name == "min" || name == "max") && node.children.size() == 2 && first->kind == Type::Kind::list &&
        first->element) {
      node.type = first->element;
    }
  }

  // `name:` in front of an argument. Names may hold spaces and symbols, so look for the colon before any bracket.
  bool argument_name_follows() const {
    for (std::size_t i = at_; i < tokens_.size(); ++i) {
      const Token& token = tokens_[i];
      if (token.is(":")) return i > at_;
      if (token.kind == Token::Kind::end || token.kind == Token::Kind::string) return false;
      for (const std::string_view stop : {",", "(", ")", "[", "]", "{", "}", "=", "<", ">", "..", "!=", "<=", ">="}) {
        if (token.is(stop)) return false;
      }
    }
    return false;
  }

  // A new name, as in declarations: all tokens up to `stop`, joined as they were spaced.
  std::string name_until(std::string_view stop) {
    const std::size_t first = at_;
    std::string name;
    while (peek().kind != Token::Kind::end && !(peek().is(stop) && at_ > first) && !ends_name()) {
      if (at_ > first && peek().space_before) name += ' ';
      name += peek().text;
      ++at_;
    }
    const bool starts_well = at_ > first && tokens_[first].kind == Token::Kind::word;
    if (!starts_well) {
      at_ = first;
      fail("expected a name, found " + found());
    }
    return name;
  }

  bool ends_name() const {
    static constexpr std::string_view stops[] = {",", ":", "(", ")", "[", "]", "{", "}", "="};
    return peek().kind == Token::Kind::string ||
           std::any_of(std::begin(stops), std::end(stops), [&](auto s) { return peek().is(s); });
  }

  // --- primary expressions --------------------------------------------------------------------------------------------

  Tree primary() {
    const Depth depth(*this);
    const Token& token = peek();
    switch (token.kind) {
      case Token::Kind::number: {
        // `2 x` may be part of a name, but a name cannot begin with a digit
        Tree node = make(NK::number, token.start);
        node->text = token.text;
        node->type = basic_type(Type::Kind::number);
        ++at_;
        return finish(std::move(node));
      }
      case Token::Kind::string: {
        Tree node = make(NK::string, token.start);
        node->text = unescaped(token.text);
        node->type = basic_type(Type::Kind::string);
        ++at_;
        return finish(std::move(node));
      }
      case Token::Kind::word:
        return word();
      case Token::Kind::symbol:
        if (token.text == "(") return parenthesis();
        if (token.text == "[") return bracket();
        if (token.text == "]") return interval(peek().start, false);
        if (token.text == "{") return context();
        if (token.text == "@") return at_literal();
        break;
      case Token::Kind::end:
        break;
    }
    fail("expected an expression, found " + found());
  }

  Tree at_literal() {
    Tree node = make(NK::at_literal, peek().start);
    ++at_;
    if (peek().kind != Token::Kind::string) fail("expected a string after `@`, found " + found());
    node->text = unescaped(peek().text);
    ++at_;
    return finish(std::move(node));
  }

  Tree parenthesis() {
    const std::uint32_t start = peek().start;
    const Operation operation = comparison_operation(peek(1));
    if (operation != Operation::none) {
      at_ += 2;
      Tree node = make(NK::unary_range, start);
      node->operation = operation;
      node->children.push_back(nested([&] { return sum(); }));
      expect(")");
      node->type = context_.types->range_of(node->children[0]->type);
      return finish(std::move(node));
    }
    ++at_;
    Tree inner = nested([&] { return expression(); });
    if (accept("..")) return upper_end(start, false, std::move(inner));
    expect(")");
    return inner;
  }

  Tree bracket() {
    const std::uint32_t start = peek().start;
    ++at_;
    Tree list = make(NK::list, start);
    list->type = context_.types->list_of(basic_type(Type::Kind::null));
    if (accept("]")) return finish(std::move(list));
    list->children.push_back(nested([&] { return expression(); }));
    if (accept("..")) return upper_end(start, true, std::move(list->children[0]));
    const Type* element = list->children[0]->type;
    nested([&] {
      while (accept(",")) {
        list->children.push_back(expression());
        element = common_type(*element, *list->children.back()->type);
      }
      expect("]");
    });
    // Contexts with other keys are looked at one by one when the list is filtered.
    const bool mixed = element->kind == Type::Kind::context &&
                       std::any_of(list->children.begin(), list->children.end(), [&](const Tree& child) {
                         return !fits(*child->type, *element) || !fits(*element, *child->type);
                       });
    list->type = context_.types->list_of(mixed ? any_type() : element);
    return finish(std::move(list));
  }

  // `]a..b[`
  Tree interval(std::uint32_t start, bool included) {
    ++at_;
    Tree lower = nested([&] { return sum(); });
    expect("..");
    return upper_end(start, included, std::move(lower));
  }

  Tree upper_end(std::uint32_t start, bool start_included, Tree lower) {
    Tree node = make(NK::range, start);
    node->flag = start_included;
    node->type = context_.types->range_of(lower->type);
    node->children.push_back(std::move(lower));
    const bool before = in_range_end_;
    in_range_end_ = true;
    node->children.push_back(sum());
    in_range_end_ = before;
    if (accept("]")) {
      node->flag_2 = true;
    } else if (!accept(")") && !accept("[")) {
      fail("expected `]`, `)` or `[` at the end of the range, found " + found());
    }
    return finish(std::move(node));
  }

  Tree context() {
    Tree node = make(NK::context, peek().start);
    ++at_;
    Type* type = context_.types->make(Type::Kind::context);
    Scope entries(scope_, scope_->layout());
    within(entries, [&] {
      nested([&] {
        if (accept("}")) return;
        do {
          std::string key;
          if (peek().kind == Token::Kind::string) {
            key = unescaped(peek().text);
            ++at_;
          } else {
            key = name_until(":");
          }
          expect(":");
          node->children.push_back(expression());
          type->fields.push_back({key, node->children.back()->type});
          node->slots.push_back(entries.add_variable(key, node->children.back()->type));
          node->names.push_back(std::move(key));
        } while (accept(","));
        expect("}");
      });
    });
    node->type = type;
    return finish(std::move(node));
  }

  Tree word() {
    const Token& token = peek();
    const Scope::Match match = scope_->find(tokens_, at_);
    if (match.tokens <= 1) {
      if (Tree literal = keyword_literal()) return literal;
    }
    if (token.is("function") && peek(1).is("(") && match.tokens <= 1) return function();
    if (match.tokens == 0 && is_keyword(token.text)) fail("expected an expression, found " + found());
    Tree node = make(NK::name, token.start);
    node->item_keys = match.item_keys;
    mark_item_references(match);
    if (match.tokens == 0) return unknown_name(std::move(node));
    node->text = match.name;
    node->type = match.type;
    if (match.known) {
      node->binding = match.known->binding;
      if (node->binding.kind == Binding::Kind::slot) {
        node->binding.up = scope_->layout()->level - match.known->level;
        mark_slot_reference(node->binding.index, match.known->level);
      }
      if (match.name == "?") uses_tested_value_ = true;
    }
    if (!match.item_keys.empty() && !match.item_keys.back().certain) node->type = any_type();
    at_ += match.tokens;
    return finish(std::move(node));
  }

  Tree keyword_literal() {
    const Token& token = peek();
    Tree node;
    if (token.is("null")) {
      node = make(NK::null, token.start);
      node->type = basic_type(Type::Kind::null);
    } else if (token.is("true") || token.is("false")) {
      node = make(NK::boolean, token.start);
      node->flag = token.text == "true";
      node->type = basic_type(Type::Kind::boolean);
    } else {
      return nullptr;
    }
    ++at_;
    return finish(std::move(node));
  }

  Tree unknown_name(Tree node) {
    node->text = std::string(peek().text);
    if (node->item_keys.empty()) {
      const std::string near = nearest(peek().text, scope_->names());
      warnings_.push_back({"unknown_name", "nothing here is called `" + node->text + "`",
                           place_of(text_, peek().start, peek().size, context_.source),
                           near.empty() ? "" : "did you mean `" + near + "`?"});
    }
    ++at_;
    return finish(std::move(node));
  }

  // Filters learn whether their predicate looks at the item: only then is it asked item by item.
  void mark_item_references(const Scope::Match& match) {
    for (const ItemKey& key : match.item_keys) {
      for (const OpenFilter& filter : filters_) {
        const bool same = filter.slot == key.item.index && filter.level == scope_->layout()->level - key.item.up;
        if (!same) continue;
        if (key.certain) filter.node->refers_to_item = true;
        filter.node->may_refer_to_item = true;
      }
    }
  }
  void mark_slot_reference(std::uint32_t slot, std::uint32_t level) {
    for (const OpenFilter& filter : filters_) {
      if (filter.slot == slot && filter.level == level) filter.node->refers_to_item = true;
    }
  }

  Tree function() {
    Tree node = make(NK::function, peek().start);
    at_ += 2;
    Layout layout{0, scope_->layout()->level + 1};
    Scope parameters(scope_, &layout);
    Type* type = context_.types->make(Type::Kind::function);
    if (!accept(")")) {
      do {
        node->names.push_back(name_until(":"));
        const Type* declared = accept(":") ? this->type() : nullptr;
        node->types.push_back(declared);
        type->parameters.push_back(declared ? declared : any_type());
        node->slots.push_back(parameters.add_variable(node->names.back(), declared ? declared : any_type()));
      } while (accept(","));
      expect(")");
    }
    node->flag = accept("external");
    node->children.push_back(within(parameters, [&] { return nested([&] { return expression(); }); }));
    node->frame_slots = layout.slots;
    node->binding.index = scope_->layout()->slots;
    type->result = node->children[0]->type;
    node->type = type;
    return finish(std::move(node));
  }

  // --- types ----------------------------------------------------------------------------------------------------------

  const Type* type() {
    const Depth depth(*this);
    if (peek(1).is("<")) {
      if (peek().is("list") || peek().is("range")) {
        const bool list = peek().is("list");
        at_ += 2;
        const Type* element = type();
        expect(">");
        return list ? context_.types->list_of(element) : context_.types->range_of(element);
      }
      if (peek().is("context")) return context_type();
      if (peek().is("function")) return function_type();
    }
    std::uint32_t longest = 0;
    const Type* found_type = nullptr;
    for (const std::string_view name : context_.types->names()) {
      const std::uint32_t count = NamePattern(name).matches(tokens_, at_);
      if (count > longest) {
        longest = count;
        found_type = context_.types->find(name);
      }
    }
    if (!found_type) {
      const std::string near = nearest(peek().text, context_.types->names());
      fail("no type is called " + found(), near.empty() ? "" : "did you mean `" + near + "`?");
    }
    at_ += longest;
    return found_type;
  }

  const Type* context_type() {
    at_ += 2;
    Type* type = context_.types->make(Type::Kind::context);
    if (accept(">")) return type;
    do {
      std::string name = name_until(":");
      expect(":");
      type->fields.push_back({std::move(name), this->type()});
    } while (accept(","));
    expect(">");
    return type;
  }

  const Type* function_type() {
    at_ += 2;
    Type* type = context_.types->make(Type::Kind::function);
    if (!accept(">")) {
      do {
        type->parameters.push_back(this->type());
      } while (accept(","));
      expect(">");
    }
    expect("->");
    type->result = this->type();
    return type;
  }

  struct OpenFilter {
    std::uint32_t slot;
    std::uint32_t level;
    Node* node;
  };

  std::string_view text_;
  const ParseContext& context_;
  const Scope* scope_;
  std::vector<Token> tokens_;
  std::size_t at_ = 0;
  int depth_ = 0;
  bool in_range_end_ = false;
  bool uses_tested_value_ = false;
  std::vector<OpenFilter> filters_;
  Errors warnings_;
};

template <class Whole>
Result<Parsed> parse(std::string_view text, const ParseContext& context, Whole whole) {
  Result<std::vector<Token>> tokens = tokens_of(text);
  if (!tokens) {
    Errors errors = tokens.errors();
    for (Error& error : errors) error.place = place_of(text, error.place.column, 1, context.source);
    return errors;
  }
  Parser parser(text, context, std::move(*tokens));
  try {
    Tree tree = whole(parser);
    return Parsed{std::move(tree), parser.take_warnings()};
  } catch (SyntaxFault& fault) {
    return std::move(fault.error);
  }
}

}  // namespace

Place place_of(std::string_view text, std::uint32_t start, std::uint32_t size, std::string_view source) {
  Place place;
  place.source = std::string(source);
  const std::size_t from = std::min<std::size_t>(start, text.size());
  const std::size_t before = from == 0 ? std::string_view::npos : text.rfind('\n', from - 1);
  const std::size_t line_start = before == std::string_view::npos ? 0 : before + 1;
  std::size_t line_end = text.find('\n', from);
  if (line_end == std::string_view::npos) line_end = text.size();
  place.line = 1 + static_cast<std::uint32_t>(std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(line_start), '\n'));
  place.column = 1 + columns(text.substr(line_start, from - line_start));
  place.length = columns(text.substr(from, std::min<std::size_t>(size, line_end - from)));
  place.excerpt = std::string(text.substr(line_start, line_end - line_start));
  return place;
}

Result<Parsed> parse_expression(std::string_view text, const ParseContext& context) {
  return parse(text, context, [](Parser& parser) { return parser.whole_expression(); });
}

Result<Parsed> parse_unary_tests(std::string_view text, const ParseContext& context) {
  return parse(text, context, [](Parser& parser) { return parser.whole_unary_tests(); });
}

}  // namespace engine
