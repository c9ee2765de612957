#include "engine/differential/plain_value.h"

namespace testing {

using engine::Kind;

Plain plain(bool truth) {
  Plain value;
  value.kind = Kind::boolean;
  value.truth = truth;
  return value;
}
Plain plain(const engine::Decimal& number) {
  Plain value;
  value.kind = Kind::number;
  value.number = number;
  return value;
}
Plain plain(std::string text) {
  Plain value;
  value.kind = Kind::string;
  value.text = std::move(text);
  return value;
}
Plain plain(const engine::Date& date) {
  Plain value;
  value.kind = Kind::date;
  value.date = date;
  return value;
}
Plain plain(engine::Months months) {
  Plain value;
  value.kind = Kind::years_and_months;
  value.months = months;
  return value;
}
Plain plain(engine::Duration duration) {
  Plain value;
  value.kind = Kind::days_and_time;
  value.duration = duration;
  return value;
}
Plain plain_list(Items items) {
  Plain value;
  value.kind = Kind::list;
  value.items = std::move(items);
  return value;
}

namespace {

std::string operation_of(engine::Range::Form form) {
  using Form = engine::Range::Form;
  switch (form) {
    case Form::interval:
      return "";
    case Form::less:
      return "<";
    case Form::less_or_equal:
      return "<=";
    case Form::greater:
      return ">";
    case Form::greater_or_equal:
      return ">=";
    case Form::equal:
      return "=";
    case Form::not_equal:
      return "!=";
  }
  return "";
}

Plain plain_range(const engine::Range& range) {
  Plain value;
  value.kind = Kind::range;
  value.range =
      std::make_shared<PlainRange>(PlainRange{plain(range.start), plain(range.end), range.start_included,
                                              range.end_included, operation_of(range.form)});
  return value;
}

}  // namespace

Plain plain(const engine::Value& value) {
  switch (value.kind()) {
    case Kind::boolean:
      return plain(value.boolean());
    case Kind::number:
      return plain(value.number());
    case Kind::string:
      return plain(std::string(value.string()));
    case Kind::date:
      return plain(value.date());
    case Kind::years_and_months:
      return plain(value.months());
    case Kind::days_and_time:
      return plain(value.duration());
    case Kind::range:
      return plain_range(value.range());
    case Kind::list: {
      Items items;
      for (const engine::Value& item : value.list()) items.push_back(plain(item));
      return plain_list(std::move(items));
    }
    case Kind::context: {
      Plain context;
      context.kind = Kind::context;
      const engine::Context& c = value.context();
      for (std::uint32_t i = 0; i < c.size; ++i)
        context.entries.push_back({std::string(c.keys[i]), plain(c.values[i])});
      return context;
    }
    default: {
      Plain other;
      other.kind = value.kind();
      return other;
    }
  }
}

std::string text_of(const Plain& value) {
  switch (value.kind) {
    case Kind::null:
      return "null";
    case Kind::boolean:
      return value.truth ? "true" : "false";
    case Kind::number:
      return value.number.text();
    case Kind::string:
      return '"' + value.text + '"';
    case Kind::date:
      return engine::text_of(value.date);
    case Kind::years_and_months:
      return engine::text_of(value.months);
    case Kind::days_and_time:
      return engine::text_of(value.duration);
    case Kind::function:
      return "a function";
    case Kind::list: {
      std::string text = "[";
      for (const Plain& item : value.items) text += (text.size() > 1 ? ", " : "") + text_of(item);
      return text + "]";
    }
    case Kind::context: {
      std::string text = "{";
      for (const auto& [key, entry] : value.entries)
        text += (text.size() > 1 ? ", " : "") + key + ": " + text_of(entry);
      return text + "}";
    }
    case Kind::range: {
      const PlainRange& r = *value.range;
      return (r.start_included ? "[" : "(") + r.operation + " " + text_of(r.start) + ".." + text_of(r.end) +
             (r.end_included ? "]" : ")");
    }
    default:
      return "a value of another kind";
  }
}

}  // namespace testing
