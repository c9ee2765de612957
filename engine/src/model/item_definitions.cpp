#include "model/item_definitions.h"

#include <map>
#include <set>

#include "builtins/index.h"
#include "syntax/parser.h"

namespace engine {

namespace {

class Reader {
 public:
  Reader(const DmnXml& file, const std::string& prefix, Model::Body& body, Errors& errors)
      : file_(file), prefix_(prefix), body_(body), errors_(errors) {}

  void read() {
    const auto definitions = children(file_.definitions(), "itemDefinition");
    for (pugi::xml_node node : definitions) {
      const std::string name = attribute(node, "name");
      if (!by_name_.emplace(name, node).second) {
        errors_.push_back({"duplicate_type", "the item definition `" + name + "` stands twice", file_.place(node), {}});
      }
    }
    for (pugi::xml_node node : definitions) named(attribute(node, "name"));
  }

 private:
  const Type* named(const std::string& name) {
    const std::string full = prefix_ + name;
    if (done_.count(name)) return body_.types.find(full);
    const auto found = by_name_.find(name);
    if (found == by_name_.end()) return type_of_reference(name, prefix_, body_);
    if (!open_.insert(name).second) {
      errors_.push_back({"type_cycle", "the item definition `" + name + "` contains itself", file_.place(found->second), {}});
      return any_type();
    }
    Type* type = definition(found->second);
    type->name = full;
    open_.erase(name);
    done_.insert(name);
    body_.types.name(full, type);
    return type;
  }

  // The type of an itemDefinition, itemComponent: always an object of its own, so that it can be named.
  Type* definition(pugi::xml_node node) {
    Type* type = nullptr;
    const auto components = children(node, "itemComponent");
    if (!components.empty()) {
      type = body_.types.make(Type::Kind::context);
      for (pugi::xml_node component : components) {
        const Type* field = definition(component);
        type->plain = type->plain && field->plain;
        type->fields.push_back({attribute(component, "name"), field});
      }
    } else if (const pugi::xml_node function = child(node, "functionItem")) {
      type = function_type(function);
    } else {
      type = copy_of(reference(node));
    }
    const bool collection = attribute(node, "isCollection") == "true";
    constrain(type, child(node, "allowedValues"));
    if (collection) {
      Type* list = body_.types.make(Type::Kind::list);
      list->element = type;
      list->plain = type->plain;
      type = list;
    }
    constrain(type, child(node, "typeConstraint"));
    return type;
  }

  Type* copy_of(const Type* original) {
    Type* type = body_.types.make(original->kind);
    *type = *original;
    type->name.clear();
    return type;
  }

  const Type* reference(pugi::xml_node node) {
    // 1.1 and later write typeRef as an element here.
    std::string name = child(node, "typeRef").text().get();
    if (name.empty()) name = attribute(node, "typeRef");
    if (name.empty()) return any_type();
    const std::size_t colon = name.find(':');
    const std::string bare = colon == std::string::npos ? name : name.substr(colon + 1);
    const Type* type = by_name_.count(bare) ? named(bare) : type_of_reference(name, prefix_, body_);
    if (type) return type;
    errors_.push_back({"unknown_type", "no type is called `" + name + "`", file_.place(node), {}});
    return any_type();
  }

  Type* function_type(pugi::xml_node node) {
    Type* type = body_.types.make(Type::Kind::function);
    for (pugi::xml_node parameter : children(node, "parameters")) type->parameters.push_back(reference(parameter));
    const std::string result = attribute(node, "outputTypeRef");
    if (!result.empty()) {
      type->result = by_name_.count(result) ? named(result) : type_of_reference(result, prefix_, body_);
    }
    return type;
  }

  void constrain(Type* type, pugi::xml_node tests) {
    if (!tests) return;
    const std::string text = text_in(tests);
    Layout layout;
    Scope scope(&builtin_scope(), &layout);
    const std::uint32_t tested = scope.add_variable("?", type);
    Result<Parsed> parsed = parse_unary_tests(text, {&scope, &body_.types, file_.source()});
    if (!parsed) {
      for (Error error : parsed.errors()) {
        error.place = file_.place(child(tests, "text"), error.place);
        errors_.push_back(std::move(error));
      }
      return;
    }
    Origin& origin = body_.codes.origins.emplace_back();
    origin.text = text;
    parsed->tree->origin = &origin;
    Compiler compiler(body_.codes);
    Constraint& constraint = body_.codes.constraints.emplace_back();
    constraint.test = compile_tests(*parsed->tree, compiler);
    constraint.slots = layout.slots;
    constraint.tested_slot = tested;
    constraint.text = text;
    type->constraints.push_back(&constraint);
    type->plain = false;
  }

  const DmnXml& file_;
  const std::string& prefix_;
  Model::Body& body_;
  Errors& errors_;
  std::map<std::string, pugi::xml_node> by_name_;
  std::set<std::string> done_;
  std::set<std::string> open_;
};

}  // namespace

void read_item_definitions(const DmnXml& file, const std::string& prefix, Model::Body& body, Errors& errors) {
  Reader(file, prefix, body, errors).read();
}

const Type* type_of_reference(const std::string& reference, const std::string& prefix, const Model::Body& body) {
  if (const Type* own = body.types.find(prefix + reference)) return own;
  if (const Type* type = body.types.find(reference)) return type;
  const std::size_t colon = reference.find(':');  // DMN 1.1: `feel:string`
  if (colon == std::string::npos) return nullptr;
  return type_of_reference(reference.substr(colon + 1), prefix, body);
}

}  // namespace engine
