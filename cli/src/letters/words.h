// What letters say, in plain words: the step, when, why, and what guards the patient. Whatever is said of
// symptoms, bleeding, medicines and sedation is common practice, from memory; local policy decides.

#pragma once

#include <string>

#include "ledger/letters.h"
#include "letters/unit.h"

namespace cli {

/// Who reads the words.
enum class Reader : std::uint8_t { patient, doctor };
Reader reader_of(const ledger::LetterFacts& facts);

/// `a site check (...)`; for a doctor the trade's own term.
std::string step_words(engine::Action action, Reader reader);
/// `due on 10 March 2029`, `due between 10 May 2026 and 10 September 2026`, or why there is no date.
std::string window_words(const ledger::LetterFacts& facts, Reader reader);
/// `3 years after the examination of 10 March 2026`; empty when a clinician has set the date.
std::string interval_words(const ledger::LetterFacts& facts);
/// Why this step, without terms of medicine.
std::string why_words(const ledger::LetterFacts& facts);
/// Who does what from now on: whether the unit writes again, or the person leaves its list.
std::string after_words(const ledger::LetterFacts& facts);
/// `2 polyps were found. ...`; empty when the record does not say, or when a person tells it.
std::string found_words(const ledger::LetterFacts& facts);

std::string sooner_words(Reader reader);
/// Empty when nothing was removed.
std::string bleeding_words(const ledger::LetterFacts& facts, const UnitDetails& unit);
std::string preparation_words();
/// Asks about a medicine that thins the blood when one is on record, by a word of ours or one of the unit's.
std::string medicines_words(const ledger::LetterFacts& facts, const UnitDetails& unit);
std::string escort_words();
/// `Ring Endoscopy Unit, Example Hospital, on 01632 960000 (Monday to Friday, 9 am to 5 pm).`
std::string ring_words(const UnitDetails& unit);

/// What the administrator has to know about how this person reads: `needs an interpreter: the letter is in
/// English`.
std::vector<std::string> reading_notes(const ledger::LetterFacts& facts, const std::string& format);
bool needs_large_print(const ledger::LetterFacts& facts);

}  // namespace cli
