// Whose examination it is: finds the person by identifiers, or says why a human must decide.

#pragma once

#include <optional>
#include <string>

#include <nlohmann/json.hpp>

#include "database/transaction.h"
#include "engine/record.h"
#include "engine/result.h"

namespace ledger {

/// The person on the ledger, or none when no identifier is known. Fails with `identity_conflict` when the
/// identifiers point to two people, when the birth date is another one, or when the NHS number is.
engine::Result<std::optional<std::string>> identify(Transaction& transaction, const engine::Patient& patient,
                                                    const std::string& source);

/// The number that the patient's identifiers came with: `person` itself when any of them is its own, else one
/// that was merged into it.
std::string number_of(Transaction& transaction, const engine::Patient& patient, const std::string& person);

/// The body of a `person registered` or `person amended` entry. `known` is the description so far, or null.
/// New identifiers are added; what is known stays unless the record says otherwise, and an older examination
/// (`is_latest` false) only fills gaps.
nlohmann::json describe(const std::string& person, const nlohmann::json& known, const nlohmann::json& patient,
                        bool is_latest);

}  // namespace ledger
