// Answers of a ruleset whose bytes nobody vouched for: they are given, and each says so.

#pragma once

#include <memory>
#include <string>

#include "engine/ruleset.h"

namespace engine {

/// The caution that stands on every answer of `ruleset_id` when its file is not the one that the manifest
/// names.
std::string unverified_caution(const std::string& ruleset_id);

/// The same ruleset with that caution among its own. Bytes, digest and rules stay as they are.
std::shared_ptr<const Ruleset> as_unverified(const Ruleset& ruleset);

}  // namespace engine
