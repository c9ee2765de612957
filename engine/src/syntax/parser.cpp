#include "syntax/parser.h"

#include <algorithm>

#include "syntax/parser_productions.h"
#include "syntax/unreachable.h"
#include "syntax/unicode.h"
#include "syntax/unreachable.h"

namespace engine {

using NK = Node::Kind;

Tree Parser::whole_expression() {
  if (peek().kind == Token::Kind::end) return make(NK::null, 0);
  Tree tree = expression();
  expect_end();
  return tree;
}

bool Parser::accept(std::string_view written) {
  if (!peek().is(written)) return false;
  ++at_;
  return true;
}

void Parser::expect(std::string_view written) {
  if (!accept(written)) fail("expected `" + std::string(written) + "`, found " + found());
}

void Parser::expect_end() {
  if (peek().kind != Token::Kind::end) fail("expected the end of the expression, found " + found());
}

std::string Parser::found() const {
  return peek().kind == Token::Kind::end ? "the end of the text" : "`" + std::string(peek().text) + "`";
}

void Parser::fail(std::string message, std::string help) const {
  throw SyntaxFault{{"syntax", std::move(message),
                     place_of(text_, peek().start, peek().size, context_.source), std::move(help)}};
}

Tree Parser::make(NK kind, std::uint32_t start) const {
  Tree node = std::make_unique<Node>(kind);
  node->start = start;
  node->size = 0;
  return node;
}

Tree Parser::finish(Tree node) const {
  const std::uint32_t end = at_ > 0 ? tokens_[at_ - 1].end() : 0;
  node->size = end > node->start ? end - node->start : 0;
  return node;
}

namespace {

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
    Errors warnings = parser.take_warnings();
    for (Error& warning : unreachable_branches(*tree, text, context.source)) warnings.push_back(std::move(warning));
    return Parsed{std::move(tree), std::move(warnings)};
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
  place.line = 1 + static_cast<std::uint32_t>(std::count(
                       text.begin(), text.begin() + static_cast<std::ptrdiff_t>(line_start), '\n'));
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
