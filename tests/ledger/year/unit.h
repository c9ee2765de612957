// A unit that works on a ledger through its public interface and keeps a book beside it. Every act is written
// into the book first, by the documented rules; then it is done, and the entries that came of it must be
// those that the book expects.

#pragma once

#include <memory>

#include "engine/advice.h"
#include "ledger/letters.h"
#include "ledger/people.h"
#include "ledger/recalls.h"
#include "ledger/revet.h"
#include "ledger/year/book.h"
#include "support/temporary_ledger.h"

namespace year {

/// How often each thing was done: a year in which nothing happens proves nothing.
using Played = std::map<std::string, int>;

class Unit {
 public:
  Unit();

  Book book;
  Played played;
  support::TemporaryLedger at;
  std::set<std::string> documents;  ///< Digests of all that was sent and kept.

  void go_to(const Date& day);

  /// Registers nobody yet: a patient is known to the ledger with the first record.
  int admit(json patient);

  // Reception.
  void record(int who, const json& given, const json& truth);
  void record_batch(const std::vector<std::pair<int, json>>& given);  ///< Each examination is its own truth.
  void refuse_record(int who, const json& faulty);
  void misidentify(int who, const json& given);  ///< Under the right identifier with another birth date.
  void result(const std::string& exam, const json& report);
  void result_too_early(const json& report);  ///< For an examination that is not there yet.
  void refuse_result(const json& faulty);
  void withdraw(const std::string& exam);
  void settle(std::size_t waiting);

  // The clinic.
  void sign(const std::string& exam);
  void decide(const std::string& exam, engine::Action action, std::optional<Date> due);
  void advise_again(const std::string& exam);
  void letter(const std::string& exam, const std::string& recipient);

  // The office.
  void move(const std::string& recall, ledger::Move move, ledger::MoveDetails details);
  void try_in_vain(const std::string& recall, ledger::Move move, const std::string& code);

  // People.
  void die(int who, const Date& on);
  void move_away(int who, const Date& on);
  void be_alive(int who);
  void move_back(int who);
  void merge(int survivor, int merged);
  void unmerge(int merged);

  // The unit's rules.
  void adopt(const std::vector<std::string>& rulesets, const Date& from, const Terms& terms);
  ledger::Revetted revet(const std::vector<std::string>& rulesets);

  /// What the rulesets answer, asked of the shipped files and not of the ledger.
  std::vector<engine::Advice> ask(const std::vector<std::string>& rulesets, const Examination& exam,
                                  const json& basis);
  const std::vector<std::string>& rulesets_in_force() const { return in_force_.rulesets; }

  ledger::Author consultant() const { return {"r.hazelmere", at.clock}; }
  ledger::Author office() const { return {"j.pym", at.clock}; }
  static constexpr const char* clinician = "Dr R. Hazelmere";

 private:
  struct Adopted {
    Date from;
    std::vector<std::string> rulesets;
    Terms terms;
  };

  std::string identifier_of(int who) const;
  void take_in(int who, const json& given, const json& truth, Expected& expected);
  void amend(Examination& exam, const json& given, const json& truth, Expected& expected);
  void expect_specimens(const json& given, const json& before, Expected& expected);
  void expect_described(int who, Expected& expected);
  void settle_same(const std::string& bytes, Expected& expected);
  ledger::Receipt hand_in_record(const std::string& bytes);
  ledger::Receipt hand_in_result(const std::string& bytes);
  void set_aside(const std::string& kind, const std::string& bytes, Expected& expected);
  void expect_kept(const std::string& bytes, const ledger::Receipt& receipt);

  /// Reads the entries that are new, compares them with what was expected, and learns numbers and advice.
  void absorb(const std::string& act, Expected expected);
  std::string about(const std::string& kind, const json& body);
  void learn(const ledger::Entry& entry, const json& body, Expected& expected);
  void name_recall(const std::string& id, const json& body, Expected& expected);
  void attribute(const ledger::Entry& entry, const json& body);
  void learn_advice(const ledger::Entry& entry, const json& body);
  void learn_signature(const json& body);
  void check_opened(const json& body);
  void check_answered(const json& body);
  int who_has(const std::string& number) const;

  engine::Adviser& adviser(const std::string& ruleset);

  std::uint64_t read_to_ = 0;
  std::vector<Adopted> adopted_;
  Adopted in_force_;
  ledger::Protocol protocol_;
  std::map<std::string, std::shared_ptr<const engine::Ruleset>> rulesets_;
  std::map<std::string, std::unique_ptr<engine::Adviser>> advisers_;
};

}  // namespace year
