#include "model/boxed.h"

#include <array>

#include "model/item_definitions.h"
#include "syntax/parser.h"
#include "syntax/unreachable.h"

namespace engine {

namespace {

using NK = Node::Kind;

constexpr std::array<std::string_view, 12> expression_names = {
    "literalExpression", "decisionTable", "context", "invocation", "list",  "relation",
    "functionDefinition", "conditional",  "filter",  "for",        "some",  "every"};

pugi::xml_node first_expression(pugi::xml_node holder) {
  for (pugi::xml_node c = holder.first_child(); c; c = c.next_sibling()) {
    for (const std::string_view name : expression_names) {
      if (c.type() == pugi::node_element && local_name(c) == name) return c;
    }
  }
  return {};
}

Tree make(NK kind) { return std::make_unique<Node>(kind); }

Tree converted(Tree tree, const Type* type) {
  if (!type || type->kind == Type::Kind::any) return tree;
  Tree node = make(NK::convert);
  node->types.push_back(type);
  node->type = type;
  node->children.push_back(std::move(tree));
  return node;
}

}  // namespace

void BoxedReader::complain(pugi::xml_node node, std::string code, std::string message) {
  errors_.push_back({std::move(code), std::move(message), file_.place(node), {}});
}

void BoxedReader::lint(pugi::xml_node node, std::string code, std::string message) {
  Errors& where = body_.profile == Profile::clinical ? errors_ : body_.warnings;
  where.push_back({std::move(code), std::move(message), file_.place(node), {}});
}

const Type* BoxedReader::type_reference(pugi::xml_node node, const char* attribute_name) {
  const std::string name = attribute(node, attribute_name);
  if (name.empty()) return nullptr;
  if (const Type* type = type_of_reference(name, prefix_, body_)) return type;
  const std::string near = nearest(name, body_.types.names());
  errors_.push_back({"unknown_type", "no type is called `" + name + "`", file_.place(node),
                     near.empty() ? "" : "did you mean `" + near + "`?"});
  return nullptr;
}

Tree BoxedReader::expression_in(pugi::xml_node holder, const Scope& scope) {
  const pugi::xml_node node = first_expression(holder);
  return node ? expression(node, scope) : make(NK::no_logic);
}

Tree BoxedReader::expression(pugi::xml_node node, const Scope& scope) {
  Tree tree = unconverted(node, scope);
  return converted(std::move(tree), type_reference(node));
}

Tree BoxedReader::unconverted(pugi::xml_node node, const Scope& scope) {
  const std::string_view name = local_name(node);
  if (name == "literalExpression") return text(node, scope);
  if (name == "decisionTable") return table(node, scope);
  if (name == "context") return context(node, scope);
  if (name == "invocation") return invocation(node, scope);
  if (name == "list") return list(node, scope);
  if (name == "relation") return relation(node, scope);
  if (name == "functionDefinition") return function(node, scope);
  if (name == "conditional") return conditional(node, scope);
  if (name == "filter") return filter(node, scope);
  if (name == "for") return iteration(node, scope, NK::loop, "return");
  return iteration(node, scope, name == "some" ? NK::some : NK::every, "satisfies");
}

Tree BoxedReader::finish(Result<Parsed> parsed, pugi::xml_node holder, const std::string& written, int rule,
                         int cell) {
  const pugi::xml_node node = child(holder, "text") ? child(holder, "text") : holder;
  const auto keep = [&](const Errors& faults, Errors& where) {
    for (Error fault : faults) {
      fault.place = file_.place(node, fault.place);
      fault.place.path = element_;
      where.push_back(std::move(fault));
    }
  };
  if (!parsed) {
    keep(parsed.errors(), errors_);
    return make(NK::no_logic);
  }
  // In the clinical profile what cannot be right is refused at load.
  keep(parsed->warnings, body_.profile == Profile::clinical ? errors_ : body_.warnings);
  body_.codes.origins.push_back({written, element_, rule, cell});
  parsed->tree->origin = &body_.codes.origins.back();
  return std::move(parsed->tree);
}

Tree BoxedReader::text(pugi::xml_node holder, const Scope& scope, int rule, int cell) {
  const std::string language = attribute(holder, "expressionLanguage");
  if (!language.empty() && language.find("FEEL") == std::string::npos && language.find("feel") == std::string::npos) {
    complain(holder, "language", "the expression language `" + language + "` is not FEEL");
    return make(NK::no_logic);
  }
  const std::string written = text_in(holder);
  return finish(parse_expression(written, {&scope, &body_.types, file_.source()}), holder, written, rule, cell);
}

Tree BoxedReader::tests(pugi::xml_node holder, const Scope& scope, int rule, int cell) {
  const std::string written = text_in(holder);
  return finish(parse_unary_tests(written, {&scope, &body_.types, file_.source()}), holder, written, rule, cell);
}

Tree BoxedReader::context(pugi::xml_node node, const Scope& scope) {
  Tree tree = make(NK::context);
  Type* type = body_.types.make(Type::Kind::context);
  Scope entries(&scope, scope.layout());
  for (pugi::xml_node entry : children(node, "contextEntry")) {
    const pugi::xml_node variable = child(entry, "variable");
    const Type* declared = variable ? type_reference(variable) : nullptr;
    Tree value = converted(expression_in(entry, entries), declared);
    if (!variable) {
      tree->flag = true;
      tree->type = value->type;
    }
    const std::string name = attribute(variable, "name");
    type->fields.push_back({name, value->type});
    tree->names.push_back(name);
    tree->slots.push_back(variable ? entries.add_variable(name, value->type) : scope.layout()->take());
    tree->children.push_back(std::move(value));
    if (tree->flag) break;  // the result is the last entry
  }
  if (!tree->flag) tree->type = type;
  return tree;
}

Tree BoxedReader::invocation(pugi::xml_node node, const Scope& scope) {
  Tree tree = make(NK::named_call);
  tree->flag = true;
  tree->children.push_back(expression_in(node, scope));
  const Type& callee = *tree->children[0]->type;
  if (callee.kind == Type::Kind::function && callee.result) tree->type = callee.result;
  for (pugi::xml_node binding : children(node, "binding")) {
    const pugi::xml_node parameter = child(binding, "parameter");
    const pugi::xml_node value = first_expression(binding);
    tree->names.push_back(attribute(parameter, "name"));
    tree->children.push_back(value ? converted(expression(value, scope), type_reference(parameter)) : make(NK::null));
  }
  return tree;
}

Tree BoxedReader::list(pugi::xml_node node, const Scope& scope) {
  Tree tree = make(NK::list);
  const Type* element = nullptr;
  for (pugi::xml_node c = node.first_child(); c; c = c.next_sibling()) {
    for (const std::string_view name : expression_names) {
      if (c.type() != pugi::node_element || local_name(c) != name) continue;
      tree->children.push_back(expression(c, scope));
      const Type* type = tree->children.back()->type;
      element = !element || fits(*element, *type) ? type : fits(*type, *element) ? element : any_type();
    }
  }
  tree->type = body_.types.list_of(element);
  return tree;
}

Tree BoxedReader::relation(pugi::xml_node node, const Scope& scope) {
  Tree tree = make(NK::list);
  const auto columns = children(node, "column");
  const Type* row_type = nullptr;
  for (pugi::xml_node row : children(node, "row")) {
    Tree context = make(NK::context);
    Type* type = body_.types.make(Type::Kind::context);
    std::size_t i = 0;
    for (pugi::xml_node c = row.first_child(); c && i < columns.size(); c = c.next_sibling()) {
      if (c.type() != pugi::node_element) continue;
      const Type* declared = type_reference(columns[i]);
      const std::string name = attribute(columns[i], "name");
      context->names.push_back(name);
      context->slots.push_back(scope.layout()->take());
      context->children.push_back(converted(expression(c, scope), declared));
      type->fields.push_back({name, declared ? declared : context->children.back()->type});
      ++i;
    }
    context->type = type;
    row_type = !row_type || fits(*row_type, *type) ? type : row_type;
    tree->children.push_back(std::move(context));
  }
  tree->type = body_.types.list_of(row_type);
  return tree;
}

Tree BoxedReader::conditional(pugi::xml_node node, const Scope& scope) {
  Tree tree = make(NK::conditional);
  for (const std::string_view part : {"if", "then", "else"}) {
    tree->children.push_back(expression_in(child(node, part), scope));
  }
  if (const auto constant = always(*tree->children[0])) {
    const std::string branch = *constant ? "else" : "then";
    lint(node, "unreachable_branch",
         "`" + branch + "` is never reached: the condition is always " + (*constant ? "true" : "false"));
  }
  return tree;
}

Tree BoxedReader::filter(pugi::xml_node node, const Scope& scope) {
  Tree tree = make(NK::filter);
  tree->flag = true;
  tree->children.push_back(expression_in(child(node, "in"), scope));
  const Type& whole = *tree->children[0]->type;
  Scope items(&scope, scope.layout());
  const std::uint32_t slot = scope.layout()->take();
  items.set_item(slot, whole.kind == Type::Kind::list ? whole.element : nullptr);
  tree->slots.push_back(slot);
  tree->children.push_back(expression_in(child(node, "match"), items));
  tree->type = whole.kind == Type::Kind::list ? &whole : any_type();
  return tree;
}

Tree BoxedReader::iteration(pugi::xml_node node, const Scope& scope, NK kind, std::string_view body) {
  Tree tree = make(kind);
  tree->flag = true;
  tree->children.push_back(expression_in(child(node, "in"), scope));
  const Type& domain = *tree->children[0]->type;
  const bool typed = domain.kind == Type::Kind::list || domain.kind == Type::Kind::range;
  Scope inner(&scope, scope.layout());
  tree->names.push_back(attribute(node, "iteratorVariable"));
  tree->slots.push_back(inner.add_variable(tree->names[0], typed && domain.element ? domain.element : any_type()));
  if (kind == NK::loop) tree->slots.push_back(inner.add_variable("partial", body_.types.list_of(nullptr)));
  tree->children.push_back(expression_in(child(node, body), inner));
  tree->type = kind == NK::loop ? body_.types.list_of(tree->children[1]->type) : basic_type(Type::Kind::boolean);
  return tree;
}

Tree BoxedReader::function(pugi::xml_node node, const Scope& scope) {
  Tree tree = make(NK::function);
  const std::string kind = attribute(node, "kind");
  tree->flag = !kind.empty() && kind != "FEEL" && kind != "F";
  Layout layout{0, scope.layout()->level + 1};
  Scope parameters(&scope, &layout);
  Type* type = body_.types.make(Type::Kind::function);
  for (pugi::xml_node parameter : children(node, "formalParameter")) {
    const Type* declared = type_reference(parameter);
    tree->names.push_back(attribute(parameter, "name"));
    tree->types.push_back(declared);
    tree->slots.push_back(parameters.add_variable(tree->names.back(), declared ? declared : any_type()));
    type->parameters.push_back(declared ? declared : any_type());
  }
  tree->children.push_back(tree->flag ? make(NK::no_logic) : expression_in(node, parameters));
  tree->frame_slots = layout.slots;
  tree->binding.index = scope.layout()->slots;
  type->result = tree->children[0]->type;
  tree->type = type;
  return tree;
}

// --- decision tables ---------------------------------------------------------------------------------------------------

namespace {

HitPolicy hit_policy_of(const std::string& name) {
  if (name == "ANY") return HitPolicy::any;
  if (name == "PRIORITY") return HitPolicy::priority;
  if (name == "FIRST") return HitPolicy::first;
  if (name == "RULE ORDER") return HitPolicy::rule_order;
  if (name == "OUTPUT ORDER") return HitPolicy::output_order;
  if (name == "COLLECT") return HitPolicy::collect;
  return HitPolicy::unique;
}

Aggregation aggregation_of(const std::string& name) {
  if (name == "SUM") return Aggregation::sum;
  if (name == "MIN") return Aggregation::minimum;
  if (name == "MAX") return Aggregation::maximum;
  if (name == "COUNT") return Aggregation::count;
  return Aggregation::none;
}

}  // namespace

void BoxedReader::read_columns(pugi::xml_node node, const Scope& scope, TableTree& table, TableView& view) {
  int column = 0;
  for (pugi::xml_node input : children(node, "input")) {
    TableTree::Input& in = table.inputs.emplace_back();
    const pugi::xml_node expression = child(input, "inputExpression");
    in.expression = text(expression, scope, -1, column++);
    in.type = type_reference(expression);
    Scope tested(&scope, scope.layout());
    tested.add("?", {Binding::Kind::slot, 0, table.tested_slot}, in.type ? in.type : in.expression->type);
    if (child(input, "inputValues")) in.allowed = tests(child(input, "inputValues"), tested);
    view.inputs.push_back(text_in(expression));
  }
  for (pugi::xml_node output : children(node, "output")) {
    TableTree::Output& out = table.outputs.emplace_back();
    out.name = attribute(output, "name");
    out.type = type_reference(output);
    Scope tested(&scope, scope.layout());
    tested.add("?", {Binding::Kind::slot, 0, table.tested_slot}, out.type ? out.type : any_type());
    if (child(output, "outputValues")) out.allowed = tests(child(output, "outputValues"), tested);
    if (const pugi::xml_node fallback = child(output, "defaultOutputEntry")) out.otherwise = text(fallback, scope);
    const std::string label = attribute(output, "label");
    view.outputs.push_back(out.name.empty() ? label : out.name);
  }
  for (pugi::xml_node annotation : children(node, "annotation")) {
    view.annotations.push_back(attribute(annotation, "name"));
  }
}

void BoxedReader::read_rules(pugi::xml_node node, const Scope& scope, TableTree& table, TableView& view) {
  int number = 0;
  for (pugi::xml_node rule : children(node, "rule")) {
    TableTree::Rule& r = table.rules.emplace_back();
    TableView::Rule& v = view.rules.emplace_back();
    int cell = 0;
    for (pugi::xml_node entry : children(rule, "inputEntry")) {
      const auto column = static_cast<std::size_t>(cell);
      Scope tested(&scope, scope.layout());
      const Type* type = any_type();
      if (column < table.inputs.size()) {
        type = table.inputs[column].type ? table.inputs[column].type : table.inputs[column].expression->type;
      }
      tested.add("?", {Binding::Kind::slot, 0, table.tested_slot}, type);
      r.inputs.push_back(tests(entry, tested, number, cell++));
      v.inputs.push_back(text_in(entry));
    }
    for (pugi::xml_node entry : children(rule, "outputEntry")) {
      r.outputs.push_back(text(entry, scope, number, cell++));
      v.outputs.push_back(text_in(entry));
    }
    for (pugi::xml_node entry : children(rule, "annotationEntry")) v.annotations.push_back(text_in(entry));
    if (r.inputs.size() != table.inputs.size() || r.outputs.size() != table.outputs.size()) {
      complain(rule, "ragged_table",
               "rule " + std::to_string(number + 1) + " of the table in `" + element_ + "` has " +
                   std::to_string(r.inputs.size()) + " inputs and " + std::to_string(r.outputs.size()) +
                   " outputs, the table has " + std::to_string(table.inputs.size()) + " and " +
                   std::to_string(table.outputs.size()));
    }
    ++number;
  }
}

Tree BoxedReader::table(pugi::xml_node node, const Scope& scope) {
  Tree tree = make(NK::table);
  tree->table = std::make_unique<TableTree>();
  body_.codes.origins.push_back({"", element_, -1, -1});
  tree->origin = &body_.codes.origins.back();
  TableTree& table = *tree->table;
  table.number = static_cast<std::uint32_t>(body_.tables.size());
  body_.tables.emplace_back();
  TableView view;
  view.decision = element_;
  view.id = attribute(node, "id");
  const std::string policy = attribute(node, "hitPolicy");
  const std::string aggregation = attribute(node, "aggregation");
  table.policy = hit_policy_of(policy);
  table.aggregation = aggregation_of(aggregation);
  view.hit_policy = (policy.empty() ? "UNIQUE" : policy) + (aggregation.empty() ? "" : " " + aggregation);
  table.tested_slot = scope.layout()->take();
  read_columns(node, scope, table, view);
  read_rules(node, scope, table, view);
  if (table.outputs.empty()) complain(node, "no_output", "the table in `" + element_ + "` has no output");
  if (table.aggregation != Aggregation::none && table.outputs.size() > 1) {
    complain(node, "aggregation", "the table in `" + element_ + "` aggregates, which only one output can do");
  }
  if (table.outputs.size() == 1) {
    tree->type = table.outputs[0].type ? table.outputs[0].type : any_type();
  } else {
    Type* type = body_.types.make(Type::Kind::context);
    for (const TableTree::Output& output : table.outputs) {
      type->fields.push_back({output.name, output.type ? output.type : any_type()});
    }
    tree->type = type;
  }
  const bool lists = table.policy == HitPolicy::rule_order || table.policy == HitPolicy::output_order ||
                     (table.policy == HitPolicy::collect && table.aggregation == Aggregation::none);
  if (lists) tree->type = body_.types.list_of(tree->type);
  if (table.aggregation == Aggregation::count) tree->type = basic_type(Type::Kind::number);
  body_.tables[table.number] = std::move(view);
  return tree;
}

}  // namespace engine
