// What a ruleset advises for one examination record. Pure, so that any past answer can be computed again.
// Source: docs/advice-format.md.

#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "engine/calendar.h"
#include "engine/record.h"
#include "engine/ruleset.h"

namespace engine {

/// `settled`: the answer holds, whatever the missing facts are.
/// `awaiting_pathology`: histology that is still awaited decides.
/// `depends`: a doubtful or missing fact decides; `possible` and `questions` say how.
/// `outside`: the ruleset does not cover this patient.
/// `refused`: the facts contradict each other, or the ruleset met an error. Never a silent guess.
enum class AdviceState : std::uint8_t { settled, awaiting_pathology, depends, outside, refused };
std::string_view text_of(AdviceState state);

enum class Action : std::uint8_t {
  surveillance_colonoscopy,
  site_check,
  repeat_examination,
  no_surveillance,
  return_to_screening,
  refer,
  individualise,
  await_pathology
};
std::string_view text_of(Action action);
std::optional<Action> action_of(std::string_view text);

/// Calendar months from and to; equal for one figure.
struct Interval {
  Months from, to;
  friend bool operator==(const Interval&, const Interval&) = default;
};

struct Window {
  Date from, to;
  friend bool operator==(const Window&, const Window&) = default;
};

struct Reason {
  std::string rule;  ///< Row id, `20-01`.
  std::string because;
  std::string source;
  std::string evidence;
};

/// A later step of a linked plan: opens when the step before it is done.
struct LaterStep {
  Action action{};
  std::optional<Interval> interval;
  std::string counted_from;
  std::string rule;
  std::string because;
};

struct Flag {
  std::string flag;  ///< `genetic assessment`, ...
  std::string rule;
  std::string because;
};

/// One outcome and the facts that lead to it.
struct Possibility {
  Action action{};
  std::optional<Interval> interval;
  std::optional<Window> due;
  std::string rule;
  std::vector<std::string> when;  ///< `exam.lesions[1].histology.type = tubular adenoma`
};

struct Question {
  std::string fact;  ///< JSON path.
  std::string why;
};

struct Advice {
  std::string id;  ///< Echo of the caller's id; empty when none.
  AdviceState state{};
  std::optional<Action> action;  ///< None when it depends or was refused.
  std::optional<Interval> interval;
  std::string counted_from;  ///< `examination`, `resection`, ...; empty when there is no interval.
  std::optional<Date> counted_from_date;
  std::optional<Window> due;
  std::string ruleset, edition, ruleset_digest, ruleset_title, ruleset_state;
  std::vector<Reason> reasons;
  std::vector<std::pair<std::string, std::string>>
      facts;  ///< Name and FEEL literal of what the ruleset derived.
  std::vector<LaterStep> then;
  std::vector<Flag> flags;
  std::vector<std::string> assumed;
  std::vector<std::string> cautions;
  std::vector<Possibility> possible;
  std::vector<Question> questions;
  /// Of a settled answer: the nearest facts that would give another one. Only after Adviser::add_changes().
  std::vector<Possibility> changes;
  std::vector<std::string>
      fired;                ///< Row ids of all table rows that fired, in order: for coverage and the trace.
  std::string ask_instead;  ///< When outside: the ruleset to ask.
  std::string record_digest;
  /// What the record calls its lesions, by place, for people to read; empty unless each has a name of its
  /// own. Not in JSON.
  std::vector<std::string> lesions;
  Errors errors;  ///< When refused.
};

/// Applies `ruleset` to `record` as of `today`, the calendar day where the patient is.
///
/// Never fails: what goes wrong is an Advice whose state is `refused`. Keeps no reference to its arguments;
/// safe to call from several threads at once.
[[nodiscard]] Advice advise(std::shared_ptr<const Ruleset> ruleset, const Record& record, const Date& today,
                            std::string_view id = {});

/// The same with memory that is reused from call to call: for many records in a row, one thread.
class Adviser {
 public:
  explicit Adviser(std::shared_ptr<const Ruleset> ruleset);
  ~Adviser();
  [[nodiscard]] Advice advise(const Record& record, const Date& today, std::string_view id = {});
  /// Adds what would change the settled `advice` for `record`: one fact of a lesion at a time,
  /// sizes within 5 mm, up to 4 polyps more. Takes many times as long as the advice itself.
  void add_changes(Advice& advice, const Record& record, const Date& today);

 private:
  struct Workspace;
  std::unique_ptr<Workspace> workspace_;
};

/// The advice for a record that could not be read: state `refused`, the errors, no ruleset.
Advice refused(std::string_view id, Errors errors);

/// One line of JSON, RFC 8785 form, without a line feed. What the ledger stores and hashes.
std::string json_of(const Advice& advice);

/// For a person: the answer first, then window, why, rule and source, what would change it, cautions.
std::string text_of(const Advice& advice);

}  // namespace engine
