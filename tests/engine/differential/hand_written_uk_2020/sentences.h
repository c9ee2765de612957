// Why a row applies to a patient, in the words of the ruleset.

#pragma once

#include <cstdint>
#include <initializer_list>
#include <string>
#include <string_view>

#include "engine/differential/hand_written_uk_2020/patient.h"

namespace testing::by_hand {

std::string joined(std::initializer_list<std::string_view> parts);
std::string text_of(Millimetres size);  ///< `12`, `12.5`.

/// Rows that refer or call for another look.
std::string sentence_of_scope(Row row);
std::string sentence_of_shortcoming(Row row, const Patient2020& patient);
std::string sentence_of_step(const Step& step, const Patient2020& patient);
std::string sentence_of_site_step(Row row, Millimetres size);
std::string sentence_of_stop(Row row, std::int64_t age_when_due);
std::string sentence_of_low_risk(Row row, const Patient2020& patient);
/// What is missing of the history, and remarks.
std::string sentence_beside(Row row, const Patient2020& patient);

}  // namespace testing::by_hand
