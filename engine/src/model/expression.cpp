// One FEEL expression by itself, over named values.

#include "builtins/index.h"
#include "engine/model.h"
#include "syntax/parser.h"

namespace engine {

namespace {

struct Sheet {
  explicit Sheet(std::span<const Named> names) : scope(&builtin_scope(), &layout) {
    for (const Named& named : names) variables.push_back(scope.add_variable(named.name, type_of(named.value)));
  }

  // The type of a value as text can use it: keys of contexts, so that names with spaces are known.
  const Type* type_of(const Value& value) {
    switch (value.kind()) {
      case Kind::context: {
        Type* type = types.make(Type::Kind::context);
        const Context& context = value.context();
        for (std::uint32_t i = 0; i < context.size; ++i) {
          type->fields.push_back({std::string(context.keys[i]), type_of(context.values[i])});
        }
        return type;
      }
      case Kind::list: {
        const Type* element = nullptr;
        for (const Value& item : value.list()) {
          const Type* type = type_of(item);
          if (element && !(fits(*element, *type) && fits(*type, *element))) return types.list_of(any_type());
          element = type;
        }
        return types.list_of(element);
      }
      case Kind::null: case Kind::open_fact: case Kind::function: return any_type();
      default: return basic_type(type_kind_of(value.kind()));
    }
  }

  Layout layout;
  Scope scope;
  TypeStore types;
  CodeStore codes;
  std::vector<std::uint32_t> variables;
  Evaluation::State state{{}};
};

template <class Run>
Result<Answer> run(std::string_view text, std::shared_ptr<Sheet> kept, std::span<const Named> scope, Arena& arena,
                   const std::optional<DateTime>& now, Result<Parsed> parsed, Run body) {
  if (!parsed) return parsed.errors();
  Sheet& sheet = *kept;
  sheet.codes.origins.push_back({std::string(text), "", -1, -1});
  parsed->tree->origin = &sheet.codes.origins.back();
  Evaluation::State& state = sheet.state;
  state.now = now;
  Value* slots = state.arena.allocate<Value>(sheet.layout.slots);
  std::fill(slots, slots + sheet.layout.slots, Value());
  for (std::size_t i = 0; i < scope.size(); ++i) slots[sheet.variables[i]] = scope[i].value;
  Frame frame{&state, nullptr, slots};
  Compiler compiler(sheet.codes);
  const Value value = body(frame, compiler, *parsed->tree);
  return Answer{copy(state.exhausted ? Value() : value, arena), std::move(state.diagnostics), std::move(kept)};
}

}  // namespace

Result<Answer> evaluate(std::string_view text, std::span<const Named> scope, Arena& arena,
                        const std::optional<DateTime>& now) {
  const auto sheet = std::make_shared<Sheet>(scope);
  Result<Parsed> parsed = parse_expression(text, {&sheet->scope, &sheet->types, "expression"});
  return run(text, sheet, scope, arena, now, std::move(parsed), [](Frame& frame, Compiler& compiler, const Node& tree) {
    return compiler.compile(tree)->run(frame);
  });
}

Result<Answer> evaluate_unary_tests(std::string_view text, const Value& tested, std::span<const Named> scope,
                                    Arena& arena) {
  const auto sheet = std::make_shared<Sheet>(scope);
  const std::uint32_t slot = sheet->scope.add_variable("?", sheet->type_of(tested));
  Result<Parsed> parsed = parse_unary_tests(text, {&sheet->scope, &sheet->types, "unary tests"});
  return run(text, sheet, scope, arena, std::nullopt, std::move(parsed),
             [&](Frame& frame, Compiler& compiler, const Node& tree) {
               frame.slots[slot] = tested;
               return value_of(compile_tests(tree, compiler)->check(frame, tested));
             });
}

}  // namespace engine
