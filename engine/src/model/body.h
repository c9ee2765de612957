// What a loaded model consists of.

#pragma once

#include <deque>
#include <map>

#include "engine/model.h"
#include "evaluate/function.h"

namespace engine {

/// An input, decision, function or decision service, ready to run.
struct Element {
  ElementView::Kind kind{};
  std::string name;
  const Type* type = any_type();  ///< Declared, or as far as the logic tells.
  const Type* declared = nullptr; ///< The variable's typeRef; values are converted to it.
  const Code* code = nullptr;     ///< Decisions.
  bool conforms = false;          ///< The logic's own type promises `declared`.
  std::uint32_t slots = 0;
  FunctionShape shape;            ///< Functions and services.
  Function function{};
  std::vector<std::uint32_t> outputs;      ///< Services: output decisions.
  std::vector<std::uint32_t> parameters;   ///< Services: inputs and input decisions, in the order of the call.
  std::vector<std::uint32_t> inside;       ///< Services: outputs and encapsulated decisions.
};

struct Model::Body {
  std::string name;
  std::string namespace_name;
  Profile profile = Profile::standard;
  Errors warnings;
  std::vector<ElementView> views;
  std::vector<TableView> tables;
  std::deque<Element> elements;
  std::map<std::pair<ElementView::Kind, std::string>, std::uint32_t> index;
  TypeStore types;
  CodeStore codes;
};

}  // namespace engine
