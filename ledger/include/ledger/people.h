// What happens to people: death and its reversal, moves, and two numbers that turn out to be one person.
// Nothing here closes a recall: a clinician does.

#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "engine/calendar.h"
#include "engine/result.h"
#include "ledger/clock.h"
#include "ledger/ledger.h"
#include "ledger/patients.h"
#include "ledger/rulesets.h"

namespace ledger {

/// A death or a move away: the person's open recalls go on the list of recalls to close. `person` as in
/// `find_person` (patients.h). Fails with `unknown_person` and as ledger.h says.
engine::Result<engine::Done> report_death(Ledger& ledger, const Author& author, const std::string& person,
                                          const engine::Date& on);
engine::Result<engine::Done> report_move_away(Ledger& ledger, const Author& author, const std::string& person,
                                              const engine::Date& on);

/// The death was reported in error, or the person is back. Fails with `unknown_person`, `reason_missing`,
/// `not_reported` (nothing of the kind stands), and as ledger.h says. Gives the recalls that were closed
/// since the report: they stay closed until someone reopens them.
engine::Result<std::vector<std::string>> report_alive(Ledger& ledger, const Author& author,
                                                      const std::string& person, const std::string& reason);
engine::Result<std::vector<std::string>> report_move_back(Ledger& ledger, const Author& author,
                                                          const std::string& person,
                                                          const std::string& reason);

/// Two people of one birth date whose names are alike.
struct Duplicate {
  PersonLine first, second;  ///< The one registered first comes first.
  std::string why;           ///< `same birth date, same name`
};

/// Proposed, never joined: all pairs but those told apart. Names are alike when family name and given name
/// are the same but for case, spaces and marks, when they are exchanged, or when one letter differs in
/// either; a name that is missing is like any. Different sexes are told, and do not hide a pair.
engine::Result<std::vector<Duplicate>> duplicates(const Ledger& ledger);

/// Who decides, and why. Both are kept with the entry.
struct PersonDecision {
  std::string clinician, reason;
};

/// What a merge, or its reversal, did.
struct Merged {
  std::string survivor, merged;    ///< `P2`, `P17`
  std::uint64_t entry = 0;         ///< Number of the entry.
  std::vector<std::string> notes;  ///< Recalls answered or reopened by it, advice given again.
};

/// `merged` is the same person as `survivor`. Both histories are kept, all lists and later inputs follow the
/// survivor, recalls that an examination of the other number answers are answered, and advice that depends on
/// the other number's examinations is given again. Fails with `unknown_person`, `same_person`,
/// `clinician_missing`, `reason_missing`, `no_ruleset`, and as ledger.h says.
engine::Result<Merged> merge_people(Ledger& ledger, const Author& author, const Protocol& protocol,
                                    const std::string& survivor, const std::string& merged,
                                    const PersonDecision& decision);

/// They are two people after all: each number has its own examinations, recalls and history again, and a
/// recall that the other's examination had answered is open again. `merged` is our number (`P17`) of the one
/// that was merged. Fails with `unknown_person`, `not_merged`, `merged_further` (the survivor was itself
/// merged since) and as merge_people.
engine::Result<Merged> reverse_merge(Ledger& ledger, const Author& author, const Protocol& protocol,
                                     const std::string& merged, const PersonDecision& decision);

/// Two who look alike are two people: they are not proposed again. Fails as merge_people.
engine::Result<engine::Done> tell_apart(Ledger& ledger, const Author& author, const std::string& person,
                                        const std::string& other, const PersonDecision& decision);

}  // namespace ledger
