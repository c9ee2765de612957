// Letters: which are owed, what each may say, and which went out. A letter tells what a clinician signed and
// nothing else; what it said is kept, so that one that is not right any more is found.
// Source: docs/letters.md.

#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/advice.h"
#include "engine/calendar.h"
#include "engine/record.h"
#include "engine/result.h"
#include "ledger/clock.h"
#include "ledger/ledger.h"
#include "ledger/lists.h"
#include "ledger/particulars.h"
#include "ledger/patients.h"

namespace ledger {

/// `result`: what was found and what comes next. `discharge`: the same when the signed step is a stop.
/// `invitation`: the first attempt to reach the person about a recall. `reminder`: a later attempt.
inline constexpr std::string_view letter_names[] = {"result", "discharge", "invitation", "reminder"};
inline constexpr std::string_view recipients[] = {"patient", "family doctor"};

/// One letter: about which examination, or the recall that follows it; which; to whom.
struct LetterKey {
  std::string exam;
  std::string letter;     ///< `result`, `invitation` ...
  std::string recipient;  ///< `patient`, `family doctor`
};

/// No surveillance, or return to screening: a letter of discharge tells it.
bool is_stop(engine::Action action);

/// A letter that is owed now.
struct OwedLetter {
  LetterKey key;
  PersonLine person;
  ExaminationLine examination;
  std::string recall;    ///< `R12` of an invitation or reminder, else empty.
  std::string since;     ///< ISO 8601: the day of the signature or of the attempt.
  std::string says;      ///< `surveillance colonoscopy, due 2029-03-10`
  std::string because;   ///< `signed by Dr Rao, no letter yet`
  std::string obstacle;  ///< Why a person has to see to it first; empty when it can be made.
  Risk risk = Risk::usual;
};

/// To patient and family doctor: a result or a discharge for each signature that stands, unless a later
/// examination has overtaken it; an invitation or a reminder for each recall whose last attempt is by letter,
/// through the family doctor or the final one. Not those that went out, or that were withheld, and are right.
/// By risk, then since when, then by examination.
engine::Result<std::vector<OwedLetter>> letters_owed(const Ledger& ledger, const Page& page);

/// How many polyps were found: bounds, since an entry of a record may stand for several.
struct PolypCount {
  std::int64_t least = 0, most = 0;
};

/// A clinician's change of the date after the signature.
struct MovedDate {
  std::string clinician, on, reason;
};

/// All that a letter may say, from the signed entry and the record that was advised on.
struct LetterFacts {
  LetterKey key;
  std::uint64_t tells = 0;   ///< The entry that it is made from: a signature, a redate or an attempt.
  std::uint64_t advice = 0;  ///< The `advice given` that was signed or overridden.
  PersonLine person;         ///< The survivor of a merge.
  engine::PersonName name;
  std::vector<std::string> address;  ///< The recipient's, line by line; empty when it is not on record.
  std::string doctor;                ///< The family doctor's name; empty when it is not on record.
  std::vector<NeedLine> needs;
  ExaminationLine examination;
  std::string procedure;             ///< `colonoscopy`; empty when it is not stated.
  std::optional<PolypCount> polyps;  ///< None when the record does not say what was found.
  bool polyps_removed = false;       ///< Something was cut, or may have been.
  bool has_cancer = false;           ///< The histology of a lesion is adenocarcinoma, or may be.
  engine::Action action{};
  std::optional<engine::Window> due;
  std::optional<engine::Interval> interval;  ///< None when a clinician set the date.
  std::string counted_from;                  ///< `examination`, `resection`; empty without an interval.
  std::optional<engine::Date> counted_from_date;
  std::string clinician, signed_on;
  bool is_handed_over = false;  ///< To another service, which writes from now on.
  bool is_overridden = false;
  std::string reason;  ///< Of a decision that overrides the advice.
  std::optional<MovedDate> moved;
  std::string ruleset, edition, ruleset_digest;
  std::vector<engine::Reason> reasons;  ///< These five: of signed advice only.
  std::vector<engine::Flag> flags;
  std::vector<engine::LaterStep> then;
  std::vector<std::string> cautions;
  std::string recall;        ///< `R12`, of an invitation or reminder.
  std::int64_t attempt = 0;  ///< 1, 2 ...
  bool is_last_attempt = false;
};

/// Why a letter is made although one went out, or to a patient who must hear of a cancer from a person first.
struct Permission {
  std::string again;    ///< The reason for making it again.
  std::string told_by;  ///< Who has spoken with the patient.
};

/// Fails with `unknown_exam`, `unknown_letter` (or recipient), `not_signed`, `advice_superseded`,
/// `another_letter` (the signed step asks for a discharge, or for a result), `later_examination`,
/// `recall_ended`, `not_invited`, `letter_issued` (it went out and is right; a reason permits it again),
/// `letter_withheld`, `person_died`, `person_moved_away`, `identity_in_dispute` (an input that names an
/// identifier of the person waits with a conflict), `no_name`, `person_first` (a cancer was found),
/// and as ledger.h says.
engine::Result<LetterFacts> letter_facts(const Ledger& ledger, const LetterKey& key,
                                         const Permission& permission);

/// The title of the guideline whose bytes the ledger keeps under `digest`. Fails with `unknown_document`, and
/// as engine::load_ruleset.
engine::Result<std::string> ruleset_title(const Ledger& ledger, const std::string& digest);

/// A letter that was made from `tells` (LetterFacts): kept as it goes out.
struct NewLetter {
  LetterKey key;
  std::uint64_t tells = 0;
  std::string_view text;
  Permission permission;
};

/// Notes that the letter went out, and keeps its text. Fails as letter_facts, and with `letter_out_of_date`
/// when what it was made from does not stand any more. Gives the number of the `letter issued` entry.
engine::Result<std::uint64_t> issue_letter(Ledger& ledger, const Author& author, const NewLetter& letter);

/// The letter will not be sent, for a reason. It is owed again when another next step is signed. Fails with
/// `unknown_exam`, `unknown_letter`, `not_signed`, `reason_missing`, and as ledger.h says.
engine::Result<std::uint64_t> withhold_letter(Ledger& ledger, const Author& author, const LetterKey& key,
                                              const std::string& reason);

/// The text of the letter that entry `entry` tells of, as it went out. Fails with `unknown_letter`.
engine::Result<std::string> letter_text(const Ledger& ledger, std::uint64_t entry);

/// The last letter with this text.
struct IssuedLetter {
  std::uint64_t entry = 0;
  std::string person;
};
/// None when none went out, or another took its place since. `document` is the digest of the text.
engine::Result<std::optional<IssuedLetter>> letter_with(const Ledger& ledger, const std::string& document);

/// A letter that was made elsewhere.
struct Letter {
  std::string exam;
  std::string letter;     ///< `result`, `invitation`, `reminder`, `discharge`, or what the unit calls it.
  std::string recipient;  ///< `patient`, `family doctor`
  std::string_view text;  ///< The letter itself, as it went out: kept under its digest.
};

/// Notes a letter about the next step that is signed for the examination. It takes the place of an earlier
/// one of the same name to the same recipient. When other advice is given, or another next step is signed, it
/// stands on the list of letters to be sent again (lists.h) until the next one is noted, or until what it
/// said is signed anew.
///
/// Fails with `unknown_exam`, `not_signed` (a letter tells nothing that no clinician has signed),
/// `detail_missing`, and as ledger.h says. Gives the number of the `letter issued` entry.
engine::Result<std::uint64_t> note_letter(Ledger& ledger, const Author& author, const Letter& letter);

}  // namespace ledger
