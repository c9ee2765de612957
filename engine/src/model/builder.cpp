// From a DMN file to a model that runs: reads the graph, orders it, compiles each node after what it requires.

#include <algorithm>
#include <set>

#include "builtins/index.h"
#include "engine/canonical.h"
#include "evaluate/model_values.h"
#include "model/body.h"
#include "model/boxed.h"
#include "model/dmn_xml.h"
#include "model/item_definitions.h"

namespace engine {

namespace {

// A decision service as the body of a function: see evaluation.cpp.
struct ServiceCode : Code {
  explicit ServiceCode(std::uint32_t s, std::vector<std::uint32_t> slots) : service(s), parameter_slots(std::move(slots)) {}
  Value run(Frame& frame) const override;
  std::uint32_t service;
  std::vector<std::uint32_t> parameter_slots;
};

class Builder {
 public:
  Builder(Model::Body& body, Errors& errors, const Model::Importer& importer)
      : body_(body), errors_(errors), importer_(importer) {}

  void build(std::unique_ptr<DmnXml> main) {
    body_.name = attribute(main->definitions(), "name");
    body_.namespace_name = attribute(main->definitions(), "namespace");
    add_file(std::move(main), "");
    for (std::uint32_t i = 0; i < sources_.size(); ++i) compile(i);
    describe();
  }

 private:
  struct File {
    std::unique_ptr<DmnXml> xml;
    std::string prefix;  ///< Of its names as the main file sees them: empty, or `name.`.
    std::string namespace_name;
    std::vector<std::pair<std::string, std::string>> imports;  ///< Namespace, prefix in this file.
  };
  struct Source {
    pugi::xml_node node;
    std::size_t file;
    enum class Progress : std::uint8_t { none, running, done } progress = Progress::none;
  };

  void fault(std::size_t file, pugi::xml_node node, std::string code, std::string message, std::string help = {}) {
    errors_.push_back({std::move(code), std::move(message), files_[file].xml->place(node), std::move(help)});
  }

  // --- reading --------------------------------------------------------------------------------------------------------

  std::size_t add_file(std::unique_ptr<DmnXml> xml, const std::string& prefix) {
    const std::size_t number = files_.size();
    const std::string space = attribute(xml->definitions(), "namespace");
    files_.push_back({std::move(xml), prefix, space, {}});
    by_namespace_[space] = number;
    for (pugi::xml_node import : children(files_[number].xml->definitions(), "import")) add_import(number, import);
    read_item_definitions(*files_[number].xml, prefix, body_, errors_);
    const pugi::xml_node definitions = files_[number].xml->definitions();
    add_elements(number, definitions, "inputData", ElementView::Kind::input);
    add_elements(number, definitions, "businessKnowledgeModel", ElementView::Kind::function);
    add_elements(number, definitions, "decision", ElementView::Kind::decision);
    add_elements(number, definitions, "decisionService", ElementView::Kind::service);
    return number;
  }

  static std::string digest_of(pugi::xml_node import) {
    for (const pugi::xml_attribute given : import.attributes()) {
      const std::string_view name = given.name();
      if (name == "digest" || (name.size() > 7 && name.substr(name.size() - 7) == ":digest")) return given.value();
    }
    return {};
  }

  /// An import that states a digest takes in these bytes and no others.
  bool unchanged(std::size_t file, pugi::xml_node import, const std::string& text) {
    const std::string stated = digest_of(import);
    const std::string found = stated.empty() ? stated : digest_text(text);
    if (stated == found) return true;
    fault(file, import, "import_changed",
          "the import of `" + attribute(import, "namespace") + "` states the digest `" + stated +
              "`, but the file has `" + found + "`",
          "put the right file back; when the change is meant, state the new digest and raise the edition");
    return false;
  }

  void add_import(std::size_t file, pugi::xml_node import) {
    const std::string space = attribute(import, "namespace");
    const std::string name = attribute(import, "name");
    if (attribute(import, "importType").find("/DMN/") == std::string::npos) return;  // PMML and others: no run time meaning
    files_[file].imports.emplace_back(space, name.empty() ? "" : name + ".");
    if (by_namespace_.count(space)) {
      if (open_imports_.count(space)) {
        fault(file, import, "import_cycle", "the import of `" + space + "` comes back to the file that it starts from");
      }
      return;
    }
    const std::optional<std::string> text =
        importer_ ? importer_({space, attribute(import, "locationURI"), digest_of(import)}) : std::nullopt;
    if (!text) {
      fault(file, import, "missing_import", "the imported model `" + space + "` cannot be found");
      return;
    }
    if (!unchanged(file, import, *text)) return;
    Result<std::unique_ptr<DmnXml>> opened = DmnXml::open(*text, space);
    if (!opened) {
      errors_.insert(errors_.end(), opened.errors().begin(), opened.errors().end());
      return;
    }
    open_imports_.insert(attribute(files_[file].xml->definitions(), "namespace"));
    add_file(std::move(*opened), files_[file].prefix + (name.empty() ? "" : name + "."));
    open_imports_.erase(attribute(files_[file].xml->definitions(), "namespace"));
  }

  void add_elements(std::size_t file, pugi::xml_node definitions, std::string_view tag, ElementView::Kind kind) {
    for (pugi::xml_node node : children(definitions, tag)) {
      const auto index = static_cast<std::uint32_t>(body_.elements.size());
      Element& element = body_.elements.emplace_back();
      element.kind = kind;
      element.name = files_[file].prefix + attribute(node, "name");
      sources_.push_back({node, file});
      by_id_[{file, attribute(node, "id")}] = index;
      if (!body_.index.emplace(std::make_pair(kind, element.name), index).second) {
        fault(file, node, "duplicate_name", "two elements are called `" + element.name + "`");
      }
      ElementView& view = body_.views.emplace_back();
      view.kind = kind;
      view.name = element.name;
      view.own_name = attribute(node, "name");
      view.namespace_name = files_[file].namespace_name;
      view.id = attribute(node, "id");
      view.description = child(node, "description").text().get();
      const pugi::xml_node literal = child(node, "literalExpression");
      if (literal) view.text = text_in(literal);
    }
  }

  // --- the graph ------------------------------------------------------------------------------------------------------

  std::optional<std::uint32_t> target(std::size_t file, pugi::xml_node reference) {
    const std::string href = attribute(reference, "href");
    const std::size_t hash = href.find('#');
    std::size_t where = file;
    const std::string space = hash == std::string::npos ? "" : href.substr(0, hash);
    if (!space.empty() && space != files_[file].namespace_name) {
      const auto found = by_namespace_.find(space);
      if (found == by_namespace_.end()) {
        fault(file, reference, "missing_requirement", "`" + href + "` names a model that is not imported");
        return std::nullopt;
      }
      where = found->second;
    }
    const auto found = by_id_.find({where, hash == std::string::npos ? href : href.substr(hash + 1)});
    if (found == by_id_.end()) {
      fault(file, reference, "missing_requirement", "`" + href + "` is required, but nothing has that id");
      return std::nullopt;
    }
    return found->second;
  }

  std::vector<std::uint32_t> requirements(std::uint32_t index) {
    const Source& source = sources_[index];
    std::vector<std::uint32_t> all;
    const auto add = [&](std::string_view holder, std::string_view reference) {
      for (pugi::xml_node requirement : children(source.node, holder)) {
        const pugi::xml_node node = child(requirement, reference);
        if (!node) continue;
        if (const auto found = target(source.file, node)) all.push_back(*found);
      }
    };
    add("informationRequirement", "requiredInput");
    add("informationRequirement", "requiredDecision");
    add("knowledgeRequirement", "requiredKnowledge");
    return all;
  }

  // The name under which `file` sees the element.
  std::string name_in(std::size_t file, std::uint32_t element) const {
    const std::string& full = body_.elements[element].name;
    const std::size_t home = sources_[element].file;
    const std::string bare = full.substr(files_[home].prefix.size());
    if (home == file) return bare;
    for (const auto& [space, prefix] : files_[file].imports) {
      if (space == files_[home].namespace_name) return prefix + bare;
    }
    return full;
  }

  void compile(std::uint32_t index) {
    Source& source = sources_[index];
    if (source.progress == Source::Progress::done) return;
    Element& element = body_.elements[index];
    if (source.progress == Source::Progress::running) {
      if (element.kind != ElementView::Kind::function) {
        fault(source.file, source.node, "cycle", "`" + element.name + "` requires itself, directly or through others");
      }
      return;
    }
    source.progress = Source::Progress::running;
    const std::vector<std::uint32_t> required = requirements(index);
    for (const std::uint32_t r : required) compile(r);
    switch (element.kind) {
      case ElementView::Kind::input: compile_input(index); break;
      case ElementView::Kind::decision: compile_decision(index, required); break;
      case ElementView::Kind::function: compile_function(index, required); break;
      case ElementView::Kind::service: compile_service(index); break;
    }
    body_.views[index].type = text_of(*element.type);
    source.progress = Source::Progress::done;
  }

  BoxedReader reader(std::uint32_t index) {
    const File& file = files_[sources_[index].file];
    return {*file.xml, file.prefix, body_.elements[index].name, body_, errors_};
  }

  void add_required(Scope& scope, std::uint32_t index, const std::vector<std::uint32_t>& required) {
    for (const std::uint32_t r : required) {
      scope.add(name_in(sources_[index].file, r), {Binding::Kind::element, 0, r}, body_.elements[r].type);
    }
  }

  void compile_input(std::uint32_t index) {
    Element& element = body_.elements[index];
    element.declared = reader(index).type_reference(child(sources_[index].node, "variable"));
    if (element.declared) element.type = element.declared;
  }

  void compile_decision(std::uint32_t index, const std::vector<std::uint32_t>& required) {
    Element& element = body_.elements[index];
    Layout layout;
    Scope scope(&builtin_scope(), &layout);
    add_required(scope, index, required);
    BoxedReader boxed = reader(index);
    const Tree tree = boxed.expression_in(sources_[index].node, scope);
    element.declared = boxed.type_reference(child(sources_[index].node, "variable"));
    element.type = element.declared ? element.declared : tree->type;
    element.conforms = element.declared && surely_conforms(*tree->type, *element.declared);
    Compiler compiler(body_.codes);
    element.code = compiler.compile(*tree);
    element.slots = layout.slots;
  }

  void compile_function(std::uint32_t index, const std::vector<std::uint32_t>& required) {
    Element& element = body_.elements[index];
    Layout layout;
    Scope scope(&builtin_scope(), &layout);
    add_required(scope, index, required);
    scope.add(name_in(sources_[index].file, index), {Binding::Kind::element, 0, index});
    BoxedReader boxed = reader(index);
    const Tree tree = boxed.function(child(sources_[index].node, "encapsulatedLogic"), scope);
    element.type = tree->type;
    element.declared = boxed.type_reference(child(sources_[index].node, "variable"));
    Compiler compiler(body_.codes);
    FunctionShape& shape = element.shape;
    shape.name = element.name;
    shape.names = tree->names;
    shape.types = tree->types;
    shape.parameter_slots = tree->slots;
    shape.slots = tree->frame_slots;
    shape.external = tree->flag;
    shape.body = compiler.compile(*tree->children[0]);
    // A variable's type may be that of the function, or (in older files) of its result.
    if (element.declared && element.declared->kind == Type::Kind::function) {
      shape.result = element.declared->result;
    } else {
      shape.result = element.declared;
    }
    shape.result_conforms = shape.result && surely_conforms(*tree->children[0]->type, *shape.result);
    if (shape.result) {
      Type* type = body_.types.make(Type::Kind::function);
      *type = *element.type;
      type->result = shape.result;
      element.type = type;
    }
    element.function = {&shape, nullptr};
  }

  void compile_service(std::uint32_t index) {
    Element& element = body_.elements[index];
    const Source& source = sources_[index];
    const auto collect = [&](std::string_view tag, std::vector<std::uint32_t>& into) {
      for (pugi::xml_node node : children(source.node, tag)) {
        if (const auto found = target(source.file, node)) {
          compile(*found);
          into.push_back(*found);
        }
      }
    };
    collect("outputDecision", element.outputs);
    element.inside = element.outputs;
    collect("encapsulatedDecision", element.inside);
    collect("inputData", element.parameters);
    collect("inputDecision", element.parameters);
    if (element.outputs.empty()) fault(source.file, source.node, "no_output", "the service `" + element.name + "` has no output decision");
    FunctionShape& shape = element.shape;
    shape.name = element.name;
    Type* type = body_.types.make(Type::Kind::function);
    for (const std::uint32_t parameter : element.parameters) {
      shape.names.push_back(name_in(source.file, parameter));
      shape.types.push_back(body_.elements[parameter].declared);
      shape.parameter_slots.push_back(shape.slots++);
      type->parameters.push_back(body_.elements[parameter].type);
    }
    element.declared = reader(index).type_reference(child(source.node, "variable"));
    if (element.outputs.size() == 1) type->result = body_.elements[element.outputs[0]].type;
    body_.codes.codes.push_back(std::make_unique<ServiceCode>(index, shape.parameter_slots));
    shape.body = body_.codes.codes.back().get();
    shape.result = element.declared && element.declared->kind == Type::Kind::function ? element.declared->result
                                                                                       : element.declared;
    element.function = {&shape, nullptr};
    element.type = type;
  }

  void describe() {
    for (std::size_t i = 0; i < body_.elements.size(); ++i) body_.views[i].type = text_of(*body_.elements[i].type);
  }

  Model::Body& body_;
  Errors& errors_;
  const Model::Importer& importer_;
  std::deque<File> files_;
  std::deque<Source> sources_;
  std::map<std::string, std::size_t> by_namespace_;
  std::map<std::pair<std::size_t, std::string>, std::uint32_t> by_id_;
  std::set<std::string> open_imports_;
};

Value ServiceCode::run(Frame& frame) const {
  State& state = *frame.state;
  const Model::Body& body = state.model->body();
  const Element& element = body.elements[service];
  // Inside a service nothing is known but its arguments.
  std::vector<Value> values(body.elements.size());
  std::vector<State::Progress> progress(body.elements.size(), State::Progress::none);
  for (std::size_t i = 0; i < element.parameters.size(); ++i) {
    values[element.parameters[i]] = frame.slots[parameter_slots[i]];
    progress[element.parameters[i]] = State::Progress::given;
  }
  for (std::uint32_t i = 0; i < body.elements.size(); ++i) {
    const bool hidden = body.elements[i].kind == ElementView::Kind::decision &&
                        std::find(element.inside.begin(), element.inside.end(), i) == element.inside.end();
    if (hidden && progress[i] == State::Progress::none) progress[i] = State::Progress::done;  // null
  }
  std::swap(values, state.values);
  std::swap(progress, state.progress);
  Value* results = state.arena.allocate<Value>(element.outputs.size());
  std::string_view* names = state.arena.allocate<std::string_view>(element.outputs.size());
  for (std::size_t i = 0; i < element.outputs.size(); ++i) {
    results[i] = element_value(state, *this, element.outputs[i]);
    names[i] = body.elements[element.outputs[i]].name;
  }
  std::swap(values, state.values);
  std::swap(progress, state.progress);
  if (element.outputs.size() == 1) return results[0];
  return make_context({names, element.outputs.size()}, {results, element.outputs.size()}, state.arena);
}

}  // namespace

Result<std::shared_ptr<const Model>> Model::load(std::string_view xml, std::string_view source, Profile profile,
                                                 const Importer& importer) {
  Result<std::unique_ptr<DmnXml>> opened = DmnXml::open(xml, source);
  if (!opened) return opened.errors();
  auto body = std::make_unique<Body>();
  body->profile = profile;
  Errors errors;
  Builder(*body, errors, importer).build(std::move(*opened));
  if (!errors.empty()) return errors;
  return std::shared_ptr<const Model>(std::make_shared<Model>(std::move(body)));
}

}  // namespace engine
