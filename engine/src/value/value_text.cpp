// Values as FEEL text.

#include <algorithm>
#include <vector>

#include "engine/value.h"
#include "evaluate/function.h"
#include "syntax/token.h"

namespace engine {

namespace {

void append_quoted(std::string& out, std::string_view text) {
  static constexpr char hex[] = "0123456789ABCDEF";
  out += '"';
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    switch (c) {
      case '"':
        out += "\\\"";
        break;
      case '\\':
        out += "\\\\";
        break;
      case '\n':
        out += "\\n";
        break;
      case '\r':
        out += "\\r";
        break;
      case '\t':
        out += "\\t";
        break;
      default:
        if (byte < 0x20 || byte == 0x7F) {
          out.append("\\u00").append(1, hex[byte >> 4]).append(1, hex[byte & 0xF]);
        } else {
          out += c;
        }
    }
  }
  out += '"';
}

// True when the key needs no quotes: words, one space between two of them, no reserved word among them.
bool is_plain_key(std::string_view key) {
  const Result<std::vector<Token>> tokens = tokens_of(key);
  if (!tokens || tokens->front().kind != Token::Kind::word) return false;
  std::string spelt;
  for (const Token& token : *tokens) {
    if (token.kind == Token::Kind::end) break;
    const bool word = token.kind == Token::Kind::word && !is_keyword(token.text);
    if (!word && token.kind != Token::Kind::number) return false;
    if (token.space_before) spelt += ' ';
    spelt += token.text;
  }
  return spelt == key;  // comments and runs of spaces would be lost
}

std::string_view sign_of(Range::Form form) {
  switch (form) {
    case Range::Form::less:
      return "<";
    case Range::Form::less_or_equal:
      return "<=";
    case Range::Form::greater:
      return ">";
    case Range::Form::greater_or_equal:
      return ">=";
    case Range::Form::equal:
      return "=";
    default:
      return "!=";
  }
}

void append_scalar(std::string& out, const Value& value);

void append_range(std::string& out, const Range& range) {
  if (range.form != Range::Form::interval) {
    out.append("(").append(sign_of(range.form));
    append_scalar(out, range.start.is_null() ? range.end : range.start);
    out += ')';
    return;
  }
  out += range.start_included ? '[' : '(';
  append_scalar(out, range.start);
  out += "..";
  append_scalar(out, range.end);
  out += range.end_included ? ']' : ')';
}

void append_function(std::string& out, const Function& function) {
  out += "function(";
  for (const std::string& name : function.shape->names) {
    if (out.back() != '(') out += ", ";
    out += name;
  }
  out += ')';
}

// As it stands alone: dates, times and durations bare.
std::string bare_text(const Value& value) {
  switch (value.kind()) {
    case Kind::date:
      return text_of(value.date());
    case Kind::time:
      return text_of(value.time());
    case Kind::date_time:
      return text_of(value.date_time());
    case Kind::years_and_months:
      return text_of(value.months());
    case Kind::days_and_time:
      return text_of(value.duration());
    default:
      return {};
  }
}

void append_scalar(std::string& out, const Value& value) {
  const auto call = [&](std::string_view function) {
    out.append(function).append("(\"").append(bare_text(value)).append("\")");
  };
  switch (value.kind()) {
    case Kind::boolean:
      out += value.boolean() ? "true" : "false";
      break;
    case Kind::number:
      out += value.number().text();
      break;
    case Kind::string:
      append_quoted(out, value.string());
      break;
    case Kind::date:
      call("date");
      break;
    case Kind::time:
      call("time");
      break;
    case Kind::date_time:
      call("date and time");
      break;
    case Kind::years_and_months:
    case Kind::days_and_time:
      call("duration");
      break;
    case Kind::range:
      append_range(out, value.range());
      break;
    case Kind::function:
      append_function(out, value.function());
      break;
    case Kind::open_fact:
      out += "unknown";
      break;
    default:
      out += "null";
      break;
  }
}

/// A list or context that has been written as far as `next`.
struct Open {
  const Value* value;
  std::size_t next = 0;

  bool is_list() const { return value->is(Kind::list); }
  std::size_t size() const { return is_list() ? value->list().size() : value->context().size; }
  const Value& item() const { return is_list() ? value->list()[next] : value->context().values[next]; }
};

void append_key(std::string& out, std::string_view key) {
  if (is_plain_key(key)) {
    out += key;
  } else {
    append_quoted(out, key);
  }
  out += ": ";
}

}  // namespace

// Without recursion: values may be nested deeper than the machine's stack.
std::string literal_of(const Value& value) {
  std::string out;
  std::vector<Open> open;
  const auto begin = [&](const Value& part) {
    const bool has_parts = part.is(Kind::list) || part.is(Kind::context);
    if (has_parts) {
      open.push_back({&part});
      out += part.is(Kind::list) ? '[' : '{';
    } else {
      append_scalar(out, part);
    }
  };
  begin(value);
  while (!open.empty()) {
    Open& current = open.back();
    if (current.next == current.size()) {
      out += current.is_list() ? ']' : '}';
      open.pop_back();
      continue;
    }
    if (current.next > 0) out += ", ";
    if (!current.is_list()) append_key(out, current.value->context().keys[current.next]);
    const Value& item = current.item();
    ++current.next;
    begin(item);
  }
  return out;
}

std::string text_of(const Value& value) {
  if (value.is(Kind::string)) return std::string(value.string());
  std::string bare = bare_text(value);
  return bare.empty() ? literal_of(value) : bare;
}

std::string_view type_name(Kind kind) {
  switch (kind) {
    case Kind::null:
      return "null";
    case Kind::boolean:
      return "boolean";
    case Kind::number:
      return "number";
    case Kind::string:
      return "string";
    case Kind::date:
      return "date";
    case Kind::time:
      return "time";
    case Kind::date_time:
      return "date and time";
    case Kind::years_and_months:
      return "years and months duration";
    case Kind::days_and_time:
      return "days and time duration";
    case Kind::list:
      return "list";
    case Kind::context:
      return "context";
    case Kind::range:
      return "range";
    case Kind::function:
      return "function";
    case Kind::open_fact:
      return "unknown fact";
  }
  return "null";
}

}  // namespace engine
