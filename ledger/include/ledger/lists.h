// The work lists. Each is computed as of a day from derived tables alone, without reading entries; nothing
// about lateness is stored. Between them they hold every examination and every recall that waits for someone.
//
// Order: risk first (Risk, as enumerated), then how late in proportion to the interval, then the due date and
// the number of the recall or examination.

#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/calendar.h"
#include "engine/result.h"
#include "ledger/ledger.h"
#include "ledger/patients.h"

namespace ledger {

/// What puts a person first on a list.
enum class Risk : std::uint8_t { site_check, hereditary, high_risk_colitis, dysplasia, usual };
std::string_view text_of(Risk risk);
std::optional<Risk> risk_of(std::string_view text);

/// A part of a long list. `limit` 0: to the end.
struct Page {
  std::uint64_t offset = 0;
  std::uint64_t limit = 0;
};

/// Days from the due date to the late date. English rule for planned tests; common practice.
inline constexpr std::int64_t late_after_days = 42;

/// The examination that a line goes back to.
struct ExaminationLine {
  std::string exam;
  std::string date;  ///< ISO 8601.
  std::string place, endoscopist;
  std::string findings;  ///< engine::findings_line
};

struct RecallLine {
  std::string recall;  ///< `R12`
  PersonLine person;
  ExaminationLine examination;  ///< The one that the recall follows.
  std::string action;           ///< `surveillance colonoscopy`, `site check`, `repeat examination`.
  std::string ruleset, rule;    ///< `uk-2020`, `20-01`; the rule is empty when a clinician decided otherwise.
  std::string clinician;        ///< Who signed.
  Risk risk = Risk::usual;
  std::string state;                ///< Text of a RecallState.
  engine::Date due, due_to;         ///< The due date is the start of the window.
  engine::Date late_on;             ///< The last day that is not late: due + 42 days + days not ready.
  std::int64_t days_after_due = 0;  ///< Negative before the due date.
  std::int64_t days_late = 0;       ///< After `late_on`; 0 when not late.
  std::int64_t interval_days = 0;   ///< From the examination to the due date.
  bool under_review =
      false;  ///< The advice was superseded after it was signed; the recall stands until then.
};

/// Left out `from`: all that are due up to `to` and not yet late on `today`, so that no one stands between
/// this list and `overdue`. Given `from`: all whose due date lies in the range, both ends included, late or
/// not. Left out `to`: 42 days after `today`.
struct DueRange {
  std::optional<engine::Date> from, to;
};

/// Open recalls by due date. Recalls handed over, answered or closed are not open.
engine::Result<std::vector<RecallLine>> due(const Ledger& ledger, const DueRange& range,
                                            const engine::Date& today, const Page& page);

/// Open recalls whose `late_on` is before `today`.
engine::Result<std::vector<RecallLine>> overdue(const Ledger& ledger, const engine::Date& today,
                                                const Page& page);

/// Open recalls of people who died or moved away, and surveillance due past the age limit of the protocol that no
/// clinician has vetted: a clinician closes or confirms them.
engine::Result<std::vector<RecallLine>> to_close(const Ledger& ledger, const engine::Date& today,
                                                 const Page& page);

/// Open recalls that no clinician has confirmed yet, due up to `to`; left out: 42 days after `today`.
engine::Result<std::vector<RecallLine>> to_vet(const Ledger& ledger, const std::optional<engine::Date>& to,
                                               const engine::Date& today, const Page& page);

/// Open recalls in state `no reply`: the contacts are used up, and a named person decides what is next.
engine::Result<std::vector<RecallLine>> no_reply(const Ledger& ledger, const engine::Date& today,
                                                 const Page& page);

/// Since the pot was sent (or, when that is not known, since the examination): grey under 7 days, yellow from
/// 7 to 10, amber over 10, red over 14. Red too when a site check could fall due by the 14th day.
enum class Band : std::uint8_t { grey, yellow, amber, red };
std::string_view text_of(Band band);

struct AwaitingLine {
  PersonLine person;
  ExaminationLine examination;
  std::string pots;          ///< `A 26H01234 (2 lesions); B (1 lesion)`
  std::int64_t lesions = 0;  ///< Lesion entries whose histology is awaited.
  engine::Date since;        ///< The earliest day on which an awaited pot was sent, or the examination's.
  std::int64_t days = 0;
  Band band = Band::grey;
  std::string advice_state;              ///< `awaiting pathology`, or another when it does not wait for it.
  std::optional<engine::Date> earliest;  ///< The earliest date that the answer could demand.
};

/// Examinations with awaited histology, red first, then by days.
engine::Result<std::vector<AwaitingLine>> awaiting(const Ledger& ledger, const engine::Date& today,
                                                   const Page& page);

struct UnplannedLine {
  PersonLine person;
  ExaminationLine examination;
  std::string advice_state;  ///< Empty when no advice was given.
  std::uint64_t advice = 0;  ///< Number of the `advice given` entry.
  std::string reason;  ///< `to be signed: surveillance colonoscopy`, `depends: ...`, `outside: ask ...`.
  Risk risk = Risk::usual;
  std::int64_t days = 0;  ///< Since the examination.
};

/// Every examination without an outcome that does not wait for pathology, with the reason.
engine::Result<std::vector<UnplannedLine>> unplanned(const Ledger& ledger, const engine::Date& today,
                                                     const Page& page);

/// Those of `unplanned` whose answer is settled: a clinician's signature is all that is missing.
engine::Result<std::vector<UnplannedLine>> to_sign(const Ledger& ledger, const engine::Date& today,
                                                   const Page& page);

/// An input that waits for a person: refused, or not matched to one.
struct InputLine {
  std::uint64_t entry = 0;
  std::string at, source;
  std::uint32_t line = 0;
  std::string kind;    ///< `input refused` or `input unmatched`.
  std::string reason;  ///< The first error's message.
  std::string document;
};
engine::Result<std::vector<InputLine>> waiting_inputs(const Ledger& ledger, const Page& page);

/// A letter that went out and is not right any more: another has to follow.
struct LetterLine {
  PersonLine person;
  ExaminationLine examination;
  std::string letter, recipient;  ///< What it was and to whom: `result`, `family doctor`.
  std::string issued_on;          ///< ISO 8601.
  std::string said;               ///< `surveillance colonoscopy, due 2029-03-10`
  std::string because;            ///< Why another has to follow.
};
engine::Result<std::vector<LetterLine>> letters_to_send_again(const Ledger& ledger, const Page& page);

/// How many stand on each list on `today`: what the nightly sweep logs.
struct Census {
  std::uint64_t open = 0, later = 0, due = 0, overdue = 0, to_close = 0, handed_over = 0;
  std::uint64_t to_vet = 0, no_reply = 0, letters_owed = 0, letters_again = 0;
  std::uint64_t awaiting = 0, awaiting_red = 0, unplanned = 0, to_sign = 0, inputs = 0;
};
engine::Result<Census> sweep(const Ledger& ledger, const engine::Date& today);

}  // namespace ledger
