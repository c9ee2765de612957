// A calendar year of the unit, thrown with seeded dice: what comes in on which day, and what the consultant,
// the office and the laboratory do about it. They work from the book's lists, as the staff do from the
// printed ones.

#pragma once

#include <functional>

#include "ledger/year/dice.h"
#include "ledger/year/patients.h"
#include "ledger/year/unit.h"

namespace year {

class Play {
 public:
  Play(Unit& unit, std::uint64_t seed, std::size_t examinations)
      : unit_(unit), dice_(seed), patients_(dice_), wanted_(examinations) {}

  /// Plays 2026 and calls `at_month_end` on each month's last day, when its work is done.
  void play(const std::function<void()>& at_month_end);

 private:
  using Act = std::function<void()>;

  void on(const Date& day, Act act);
  void in_days(int least, int most, Act act);
  void play_day();

  // What comes in.
  void examinations_of_the_day();
  void old_list();
  void examine(int who, const Date& day, const std::string& indication);
  void examine_new_patient();
  void examine_for_a_recall();
  void send(int who, const json& exam, bool histology_comes_later);
  void laboratory(const std::string& exam);
  void report(const std::string& exam, const std::vector<std::string>& pots);
  void trouble(int who, const json& exam);
  void corrections();

  // What the staff do.
  void clinic();
  void decide_on(const std::string& exam);
  void letters();
  void office();
  void work_on(const std::string& recall);
  void invite(const std::string& recall);
  void move_back(const std::string& recall);
  void after_appointment(const std::string& recall);
  void close_those_to_be_closed();
  void settle_inputs();

  // What happens to people.
  void people();
  void merges();
  void change_of_rules();
  void revet();

  int anybody();
  std::string any_exam(const std::function<bool(const Examination&)>& suits);
  std::string any_recall(const std::function<bool(const Recall&)>& suits);
  std::string next_id() { return "E" + std::to_string(1000 + ++examined_); }

  Unit& unit_;
  Dice dice_;
  Patients patients_;
  std::size_t wanted_, examined_ = 0;
  std::multimap<Date, Act> calendar_;
  std::vector<int> merged_;  ///< Numbers that were merged into another, in their order.
};

}  // namespace year
