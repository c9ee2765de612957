// What the test itself knows of the unit that it plays: kept from what it did and from the documented rules,
// never asked of the ledger. docs/ledger-format.md is the source of every rule here, written the plain way.

#pragma once

#include <cstdint>
#include <functional>
#include <map>
#include <nlohmann/json.hpp>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "engine/calendar.h"

namespace year {

using engine::Date;
using nlohmann::json;

Date plus(const Date& day, std::int64_t days);
std::int64_t days_from(const Date& from, const Date& to);

/// One number of a person. Merged numbers stay apart, each with what came under it.
struct Patient {
  json described;      ///< `patient` as it is sent.
  std::string number;  ///< `P17`; empty until the first record came.
  std::string gone;    ///< `died 2026-02-01`, as reported under this number.
  std::optional<int> merged_into;
  std::set<std::string> told;               ///< Identifiers that the ledger has been told of.
  std::uint64_t died_at = 0, moved_at = 0;  ///< Entries of the last such report.
  std::vector<std::string> exams;
  std::set<std::uint64_t> entries;  ///< Those about this number.
};

struct Step {
  std::string action;
  std::optional<Date> due, due_to;
};

struct Examination {
  std::string id;
  int who = 0;
  Date date;
  json patient;                          ///< As the patient was last described with it.
  json background = json::object();      ///< What its records told of it, as told last.
  json given;                            ///< `exam` as it was last sent.
  json exam;                             ///< The same with what the laboratory said since.
  json truth;                            ///< `exam` as it will be when everything has been reported.
  std::map<std::string, json> reported;  ///< By lesion, what came as a result; null when it was withdrawn.
  std::set<std::string> contents;        ///< In which it was sent.
  std::uint64_t advice = 0;
  json answers, chosen;         ///< Of that advice.
  json basis;                   ///< The record that was advised on.
  std::string outcome;          ///< Empty, `signed` or `overridden`.
  std::uint64_t signature = 0;  ///< The entry that gave it the outcome.
  Step step;                    ///< Of the outcome.

  std::string state() const { return chosen.at("state"); }
  std::string action() const;
  std::int64_t awaited() const;
  Date since() const;  ///< When the first awaited pot was sent.
};

struct Recall {
  std::string id, exam;
  std::uint64_t advice = 0;
  std::string action, state = "opened";
  Date due, due_to;
  bool is_moved = false;         ///< To `due`, by a clinician, since it was signed.
  std::int64_t late_after = 42;  ///< Days, as the protocol said when its date was last counted.
  std::vector<std::pair<Date, Date>> not_ready;
  int attempts = 0;
  std::string vetted_on;  ///< Since it was last opened.
  bool under_review = false;
  json later_steps = json::array(), counted_from;
  std::string follows, answered_by;
  std::optional<Date> booked_for;
  std::uint64_t signature = 0;  ///< The entry that it is by.
  std::uint64_t closed_at = 0;  ///< Entry.

  bool is_open() const { return state != "answered" && state != "closed" && state != "handed over"; }
  bool has_ended() const { return state == "answered" || state == "closed"; }
  bool is_late(const Date& today) const;
  Date last_day_in_time() const;
};

struct Letter {
  std::string exam, recipient;
  Step said;
  std::string closed_recall = {};  ///< That a clinician closed after the letter had told of it.
  bool closed_when_gone = false;   ///< The person had died or moved away by then.
};

struct Input {
  std::uint64_t entry = 0;
  std::string bytes;
  Date day;
};

/// Ways in and out of the register of open recalls, of one month.
struct Flow {
  std::uint64_t before = 0, opened = 0, reopened = 0, taken_back = 0, answered = 0, closed = 0,
                handed_over = 0;
};

struct Terms {
  std::int64_t late_after = 42, age_limit = 75;
  json settings = json::object();
};

/// What an act must lead to: one line for each entry, and the recalls that are to be opened.
struct Expected {
  std::vector<std::string> entries;  ///< `recall answered R12`
  std::vector<std::string> inputs;   ///< Bytes that have to wait for a person, in their order.
  void add(const std::string& kind, const std::string& about) { entries.push_back(kind + " " + about); }
};

class Book {
 public:
  std::vector<Patient> patients;
  std::set<int> ever_merged;  ///< Numbers that were merged into another at some time.
  std::map<std::string, Examination> exams;
  std::map<std::string, Recall> recalls;  ///< By id; `new E12` until the ledger has named it.
  std::vector<Letter> letters;
  std::vector<Input> waiting;
  Flow flow;
  Date today;
  Terms terms;  ///< Of the protocol that is in force today.

  /// The number that stands for this one.
  int survivor(int who) const;
  std::vector<int> numbers_of(int who) const;  ///< All of the person, the survivor first.
  bool are_one(int a, int b) const { return survivor(a) == survivor(b); }
  std::string gone(int who) const;
  std::vector<Examination*> exams_of(int who);       ///< Of the person; oldest first, then by id.
  std::vector<Recall*> unended_recalls_of(int who);  ///< Of the person; in the order of their opening.
  Recall* open_recall_following(const std::string& exam);
  bool can_be_reopened(const Recall& recall);
  const Examination* later_than(const Examination& exam);
  Date date_of(const std::string& exam) const { return exams.at(exam).date; }
  int who_of(const Recall& recall) const { return exams.at(recall.exam).who; }
  /// What a letter about the examination has to tell: what is signed, on the day that it was moved to since.
  Step told_of(const Examination& exam) const;
  bool is_wrong(const Letter& letter) const;
  int age_at_due(const Recall& recall) const;

  /// The record that has to be advised on as things stand.
  json record_of(const Examination& exam);

  // Each of these does in the book what the ledger has to do, and says which entries that makes.
  void give_advice(Examination& exam, Expected& expected);
  void give_changed_advice(const std::vector<Examination*>& of, Expected& expected);
  void give_later_advice(const Examination& changed, const Date& from, Expected& expected);
  using Knew = std::function<bool(const Recall&, const Examination&)>;
  void answer(Examination& exam, const Knew& knew_before, Expected& expected);
  void answer_all(int who, const Knew& knew_before, Expected& expected);
  void reopen(Recall& recall, Expected& expected);
  void close(Recall& recall, Expected& expected);
  void carry_out(Examination& exam, const Step& step, const json& later_steps, const json& counted_from,
                 Expected& expected);
  /// Signed steps that nobody would be reminded of any more are advised on again.
  void look_again_at_unfollowed(int who, Expected& expected);

  /// Which ids stand on each list.
  std::map<std::string, std::set<std::string>> lists();

 private:
  void open(Recall recall, Expected& expected);
  std::optional<Recall> next_step_of(const Recall& done, const Examination& exam) const;
  void open_next_step(const std::vector<Recall*>& done, Examination& exam, Expected& expected);
  bool is_to_close(const Recall& recall) const;
};

bool opens_recall(const std::string& action);

}  // namespace year
