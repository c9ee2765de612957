#include "types/type.h"

#include <algorithm>
#include <array>

namespace engine {

namespace {

using K = Type::Kind;

struct Builtin {
  std::string_view name;
  K kind;
};
constexpr std::array<Builtin, 20> builtins = {{{"Any", K::any},
                                               {"Null", K::null},
                                               {"number", K::number},
                                               {"string", K::string},
                                               {"boolean", K::boolean},
                                               {"date", K::date},
                                               {"time", K::time},
                                               {"date and time", K::date_time},
                                               {"years and months duration", K::years_and_months},
                                               {"days and time duration", K::days_and_time},
                                               {"list", K::list},
                                               {"context", K::context},
                                               {"range", K::range},
                                               {"function", K::function},
                                               // DMN 1.1 spellings
                                               {"dateTime", K::date_time},
                                               {"dayTimeDuration", K::days_and_time},
                                               {"yearMonthDuration", K::years_and_months},
                                               {"any", K::any},
                                               {"null", K::null},
                                               {"duration", K::any}}};

}  // namespace

const Type* basic_type(K kind) {
  static const std::array<Type, 14> all = [] {
    std::array<Type, 14> types;
    for (std::size_t i = 0; i < types.size(); ++i) types[i].kind = static_cast<K>(i);
    return types;
  }();
  return &all[static_cast<std::size_t>(kind)];
}

const Type* any_type() { return basic_type(K::any); }

std::string text_of(const Type& type) {
  if (!type.name.empty()) return type.name;
  switch (type.kind) {
    case K::list:
      return type.element ? "list<" + text_of(*type.element) + ">" : "list";
    case K::range:
      return type.element ? "range<" + text_of(*type.element) + ">" : "range";
    case K::context: {
      if (type.fields.empty()) return "context";
      std::string text = "context<";
      for (const Type::Field& f : type.fields) {
        text += (text.back() == '<' ? "" : ", ") + f.name + ": " + text_of(*f.type);
      }
      return text + ">";
    }
    case K::function: {
      std::string text = "function<";
      for (const Type* p : type.parameters) text += (text.back() == '<' ? "" : ", ") + text_of(*p);
      return text + "> -> " + (type.result ? text_of(*type.result) : "Any");
    }
    default:
      for (const Builtin& b : builtins) {
        if (b.kind == type.kind) return std::string(b.name);
      }
      return "Any";
  }
}

const Type* TypeStore::list_of(const Type* element) {
  Type* type = make(K::list);
  type->element = element;
  type->plain = !element || element->plain;
  return type;
}

const Type* TypeStore::range_of(const Type* element) {
  Type* type = make(K::range);
  type->element = element;
  return type;
}

const Type* TypeStore::find(std::string_view name) const {
  const auto named = named_.find(name);
  if (named != named_.end()) return named->second;
  for (const Builtin& b : builtins) {
    if (b.name == name) return basic_type(b.kind);
  }
  return nullptr;
}

std::vector<std::string_view> TypeStore::names() const {
  std::vector<std::string_view> names;
  for (const auto& [name, type] : named_) names.push_back(name);
  for (const Builtin& b : builtins) names.push_back(b.name);
  return names;
}

K type_kind_of(Kind kind) {
  switch (kind) {
    case Kind::null: return K::null;
    case Kind::boolean: return K::boolean;
    case Kind::number: return K::number;
    case Kind::string: return K::string;
    case Kind::date: return K::date;
    case Kind::time: return K::time;
    case Kind::date_time: return K::date_time;
    case Kind::years_and_months: return K::years_and_months;
    case Kind::days_and_time: return K::days_and_time;
    case Kind::list: return K::list;
    case Kind::context: return K::context;
    case Kind::range: return K::range;
    case Kind::function: return K::function;
    case Kind::open_fact: return K::any;
  }
  return K::any;
}

bool fits(const Type& a, const Type& b) {
  if (&a == &b || b.kind == K::any || a.kind == K::null) return true;
  if (a.kind == K::any || a.kind != b.kind) return false;
  switch (a.kind) {
    case K::list:
    case K::range:
      return !b.element || (a.element && fits(*a.element, *b.element));
    case K::context:
      for (const Type::Field& want : b.fields) {
        const Type::Field* have = a.field(want.name);
        if (!have || !fits(*have->type, *want.type)) return false;
      }
      return true;
    case K::function:
      if (b.parameters.empty() && !b.result) return true;
      if (a.parameters.size() != b.parameters.size()) return false;
      for (std::size_t i = 0; i < a.parameters.size(); ++i) {
        if (!fits(*b.parameters[i], *a.parameters[i])) return false;
      }
      return !b.result || (a.result && fits(*a.result, *b.result));
    default:
      return true;
  }
}

bool surely_conforms(const Type& a, const Type& b) {
  if (&a == &b) return true;
  for (const Constraint* constraint : b.constraints) {
    if (std::find(a.constraints.begin(), a.constraints.end(), constraint) == a.constraints.end()) return false;
  }
  if (b.kind == K::any) return true;
  if (a.kind != b.kind) return false;
  switch (a.kind) {
    case K::list: case K::range:
      return !b.element || (a.element && surely_conforms(*a.element, *b.element));
    case K::context:
      return std::all_of(b.fields.begin(), b.fields.end(), [&](const Type::Field& want) {
        const Type::Field* have = a.field(want.name);
        return have && surely_conforms(*have->type, *want.type);
      });
    case K::function: return b.parameters.empty() && !b.result;
    default: return true;
  }
}

bool clash(const Type& a, const Type& b) {
  return a.kind != b.kind && a.kind != K::any && b.kind != K::any && a.kind != K::null && b.kind != K::null;
}

}  // namespace engine
