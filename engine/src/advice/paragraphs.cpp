#include "advice/paragraphs.h"

#include <utility>

#include "text/printable.h"

namespace engine {

namespace {

constexpr std::size_t label_width = 11;

}  // namespace

void Paragraphs::headline(std::string_view text) {
  wrap(text, 0, 0);
}

void Paragraphs::add(std::string_view label, std::string_view text) {
  const bool continues = label.empty() || label == label_;
  out_ += "  ";
  out_ += continues ? std::string_view() : label;
  out_.append(continues ? label_width : label_width - label.size(), ' ');
  if (!label.empty()) label_ = label;
  wrap(text, label_width + 2, label_width + 4);
}

void Paragraphs::add_below(std::string_view text, std::size_t deeper) {
  out_.append(label_width + 2 + deeper, ' ');
  wrap(text, label_width + 2 + deeper, label_width + 4 + deeper);
}

// The cursor stands at column `first_indent`; further lines begin at `indent`. A word longer than a line
// stays whole.
void Paragraphs::wrap(std::string_view text, std::size_t first_indent, std::size_t indent) {
  const std::string clean = printable(text);
  std::string_view rest = clean;
  std::size_t column = first_indent;
  bool at_start = true;
  while (!rest.empty()) {
    const std::size_t from = rest.find_first_not_of(' ');
    if (from == std::string_view::npos) break;
    rest.remove_prefix(from);
    const std::string_view word = rest.substr(0, rest.find(' '));
    rest.remove_prefix(word.size());
    const std::size_t width = count_code_points(word);
    if (!at_start && column + 1 + width > columns) {
      out_ += '\n';
      out_.append(indent, ' ');
      column = indent;
      at_start = true;
    }
    if (!at_start) {
      out_ += ' ';
      ++column;
    }
    out_ += word;
    column += width;
    at_start = false;
  }
  out_ += '\n';
}

}  // namespace engine
