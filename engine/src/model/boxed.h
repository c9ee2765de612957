// Boxed expressions of a DMN file as trees, so that they compile like text. Source: DMN 1.5, 10.2 and chapter 8.

#pragma once

#include <string>

#include "model/body.h"
#include "model/dmn_xml.h"
#include "syntax/scope.h"

namespace engine {

/// Reads the expressions of one decision or function.
class BoxedReader {
 public:
  BoxedReader(const DmnXml& file, const std::string& prefix, std::string element, Model::Body& body, Errors& errors)
      : file_(file), prefix_(prefix), element_(std::move(element)), body_(body), errors_(errors) {}

  /// The expression among the children of `holder`; a tree without logic when there is none.
  Tree expression_in(pugi::xml_node holder, const Scope& scope);
  /// A function: `formalParameter` children and an expression.
  Tree function(pugi::xml_node node, const Scope& scope);
  const Type* type_reference(pugi::xml_node node, const char* attribute_name = "typeRef");
  /// FEEL text of `holder`'s child `text`.
  Tree text(pugi::xml_node holder, const Scope& scope, int rule = -1, int cell = -1);

 private:
  Tree expression(pugi::xml_node node, const Scope& scope);
  Tree unconverted(pugi::xml_node node, const Scope& scope);
  Tree tests(pugi::xml_node holder, const Scope& scope, int rule = -1, int cell = -1);
  Tree finish(Result<struct Parsed> parsed, pugi::xml_node holder, const std::string& written, int rule, int cell);
  Tree table(pugi::xml_node node, const Scope& scope);
  Tree context(pugi::xml_node node, const Scope& scope);
  Tree invocation(pugi::xml_node node, const Scope& scope);
  Tree list(pugi::xml_node node, const Scope& scope);
  Tree relation(pugi::xml_node node, const Scope& scope);
  Tree conditional(pugi::xml_node node, const Scope& scope);
  Tree filter(pugi::xml_node node, const Scope& scope);
  Tree iteration(pugi::xml_node node, const Scope& scope, Node::Kind kind, std::string_view body);
  void read_columns(pugi::xml_node node, const Scope& scope, TableTree& table, TableView& view);
  void read_rules(pugi::xml_node node, const Scope& scope, TableTree& table, TableView& view);
  void complain(pugi::xml_node node, std::string code, std::string message);
  // What cannot be right but has a meaning: refused in the clinical profile, else a warning.
  void lint(pugi::xml_node node, std::string code, std::string message);

  const DmnXml& file_;
  const std::string& prefix_;
  std::string element_;
  Model::Body& body_;
  Errors& errors_;
};

}  // namespace engine
