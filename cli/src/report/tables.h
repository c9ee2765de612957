// Decision tables as a person reads them: one row after the other, each with what it says and where that
// stands.

#pragma once

#include <string>

#include "engine/ruleset.h"

namespace cli {

/// Title, edition, publisher, DOI, state, digest, cautions.
std::string text_of(const engine::Ruleset& ruleset);

/// One table: each row with its conditions (those that test something), its outcome and its annotations.
std::string text_of(const engine::TableView& table);

}  // namespace cli
