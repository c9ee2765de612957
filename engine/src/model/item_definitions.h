// Item definitions of a DMN file as types. Source: DMN 1.5, 7.3.3.

#pragma once

#include <string>

#include "model/body.h"
#include "model/dmn_xml.h"

namespace engine {

/// Adds every item definition of `file` to `body.types`, under `prefix` + name. Faults go to `errors`.
void read_item_definitions(const DmnXml& file, const std::string& prefix, Model::Body& body, Errors& errors);

/// The type that a typeRef names, in a file whose own names carry `prefix`. Null when unknown.
const Type* type_of_reference(const std::string& reference, const std::string& prefix, const Model::Body& body);

}  // namespace engine
