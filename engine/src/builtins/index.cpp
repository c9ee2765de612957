#include "builtins/index.h"

namespace engine {

Value BuiltinCall::wrong(std::size_t i, std::string_view expected) const {
  return bad("argument " + std::to_string(i + 1) + " is a " + std::string(type_name(arguments[i].kind())) +
             ", expected a " + std::string(expected));
}

const std::vector<Builtin>& builtins() {
  static const std::vector<Builtin> all = [] {
    std::vector<Builtin> list;
    add_conversion_builtins(list);
    add_temporal_builtins(list);
    add_string_builtins(list);
    add_pattern_builtins(list);
    add_list_builtins(list);
    add_aggregate_builtins(list);
    add_number_builtins(list);
    add_context_builtins(list);
    add_date_builtins(list);
    add_range_builtins(list);
    return list;
  }();
  return all;
}

const Type* builtin_result_type(std::uint32_t index, TypeStore& types) {
  const Type::Kind kind = builtins()[index].result;
  return kind == Type::Kind::list ? types.list_of(nullptr) : basic_type(kind);
}

const Scope& builtin_scope() {
  static const Scope scope = [] {
    Scope names(nullptr, nullptr);
    const std::vector<Builtin>& all = builtins();
    for (std::uint32_t i = 0; i < all.size(); ++i) {
      names.add(all[i].name, {Binding::Kind::builtin, 0, i}, basic_type(Type::Kind::function));
    }
    return names;
  }();
  return scope;
}

}  // namespace engine
