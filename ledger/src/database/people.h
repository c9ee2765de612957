// Looks people up.

#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "database/transaction.h"
#include "engine/result.h"
#include "ledger/patients.h"

namespace ledger {

/// Identifiers are kept and compared without white space.
std::string without_spaces(std::string_view text);

std::optional<std::string> person_with(Transaction& transaction, const std::string& system,
                                       const std::string& value);

/// The body of the entry that last described `person`.
nlohmann::json description_of(Transaction& transaction, const std::string& person);

/// As find_person (patients.h).
engine::Result<PersonLine> find_person_in(Transaction& transaction, const std::string& text);

}  // namespace ledger
