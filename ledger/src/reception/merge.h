// Puts together the record that is advised on: what was given, histology that came as results, and earlier
// examinations of the same person. Pure: JSON in, JSON out.

#pragma once

#include <cstdint>
#include <vector>

#include <nlohmann/json.hpp>

#include "database/examinations.h"

namespace ledger {

/// Puts histology that came as results on the lesions of `exam`, a record's examination as given by entry
/// `recorded`. A result that is newer than the record replaces what the record says; an older one fills only
/// what the record leaves open. A result for a lesion that the record no longer has is passed over.
void put_histology(nlohmann::json& exam, std::uint64_t recorded,
                   const std::vector<EnteredHistology>& results);

/// Adds examinations that the record's `previous` lacks, oldest first. The record's own stand as given; one
/// of the same id or the same day counts as the same. Those on or after the day of the record's own
/// examination are passed over.
void add_previous(nlohmann::json& record, const std::vector<nlohmann::json>& earlier);

/// Takes over what earlier records of the same person, oldest first, say of `conditions`, `relatives` and
/// `family_history`, where `record` leaves it out: the latest that says anything counts. Lynch syndrome that
/// was told once does not become "none" because a later form left the field empty. An empty list says "none"
/// and stands. Life expectancy is not taken over: what once stopped surveillance must be said again.
void add_background(nlohmann::json& record, const std::vector<nlohmann::json>& earlier);

/// Takes over `previous` of a record of the same examination that `record` replaced, where `record` leaves it
/// out. A list says what is to be said, also an empty one. What is later than the examination, whose day was
/// corrected, is passed over.
void keep_previous(nlohmann::json& record, const nlohmann::json& replaced);

}  // namespace ledger
