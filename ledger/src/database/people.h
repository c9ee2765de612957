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

/// The person who has the identifier; of a number that was merged, the survivor.
std::optional<std::string> person_with(Transaction& transaction, const std::string& system,
                                       const std::string& value);

/// The number that the identifier came with, whatever it was merged into.
std::optional<std::string> number_with(Transaction& transaction, const std::string& system,
                                       const std::string& value);

/// The number that `text` names, as in find_person (patients.h), before anything that it was merged into. The
/// person's own when `text` is an identifier of several of the person's numbers.
std::string number_named(Transaction& transaction, const std::string& text, const std::string& person);

/// How a number stands to others.
struct KnownNumber {
  std::string person, survivor, merged_into;
  std::uint64_t merge = 0;  ///< The `person merged` entry; 0 when it was not merged.
};
std::optional<KnownNumber> find_number(Transaction& transaction, const std::string& person);

/// The person's numbers whose own status begins with `status`: `died`, `moved away`.
std::vector<std::string> numbers_with_status(Transaction& transaction, const std::string& person,
                                             std::string_view status);
/// The last entry that reported such a status of the person; 0 when there is none.
std::uint64_t reported_at(Transaction& transaction, const std::string& person, std::string_view status);
/// Recalls of the person, as `R12`, that are closed and were closed after entry `entry`.
std::vector<std::string> recalls_closed_after(Transaction& transaction, const std::string& person,
                                              std::uint64_t entry);

/// The body of the entry that last described `person`.
nlohmann::json description_of(Transaction& transaction, const std::string& person);

/// As find_person (patients.h).
engine::Result<PersonLine> find_person_in(Transaction& transaction, const std::string& text);

}  // namespace ledger
