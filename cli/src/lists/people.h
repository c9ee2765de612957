// What every list says about a person and an examination: as cells, as text, and as lines of the page.

#pragma once

#include <cstdint>
#include <nlohmann/json.hpp>
#include <string>
#include <string_view>
#include <vector>

#include "engine/record.h"
#include "ledger/lists.h"
#include "ledger/patients.h"

namespace cli {

using Lines = std::vector<std::string>;

extern const std::vector<std::string> person_keys;
extern const std::vector<std::string> examination_keys;

/// `first`, the keys of person and examination, and `then`.
std::vector<std::string> keys_around(std::vector<std::string> first,
                                     const std::vector<std::string>& then = {});

void add_cells(std::vector<nlohmann::json>& cells, const ledger::PersonLine& person);
void add_cells(std::vector<nlohmann::json>& cells, const ledger::ExaminationLine& exam);

/// `Okafor, Mrs Ada, born 1961-05-04`
std::string who(const ledger::PersonLine& person);
/// `P17, female; nhs-number 9990000018; needs: interpreter`
std::string how_to_find(const ledger::PersonLine& person);
/// `E-17 on 2026-03-10 at Room 1 by Dr Example: 2 polyps ...`
std::string what_was_found(const ledger::ExaminationLine& exam);

/// `telephone 01632 960018`, `1 Mill Lane, Ambleworth`: one line for each way; says so when there is none.
Lines ways_to_reach(const engine::Contact& contact);
/// `family doctor Dr F. Aldous, Mill Lane Surgery, 3 Mill Lane`; says so when there is none.
std::string who_cares(const engine::FamilyDoctor& doctor);

Lines print_lines(const ledger::PersonLine& person);
Lines print_lines(const ledger::ExaminationLine& exam);

/// `1 day`, `3 days`
std::string days(std::int64_t count);
/// `text` and spaces up to `width`.
std::string padded(std::string text, std::size_t width);
/// The parts that are not empty, with `joint` between.
std::string joined(const std::vector<std::string>& parts, std::string_view joint = "; ");

}  // namespace cli
