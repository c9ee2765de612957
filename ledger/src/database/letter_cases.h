// What letters about an examination go by, from the derived tables.

#pragma once

#include <cstdint>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "database/transaction.h"
#include "ledger/letters.h"
#include "ledger/recalls.h"

namespace ledger {

/// The recall that follows an examination: the latest, when there were several.
struct CaseRecall {
  std::uint64_t number = 0;
  RecallState state{};
  bool is_under_review = false;
  std::int64_t attempts = 0;
  std::string means, last_attempt;
  std::optional<std::uint64_t> invited, signature;

  std::string id() const { return "R" + std::to_string(number); }
};

struct LetterCase {
  PersonLine person;
  ExaminationLine examination;
  Risk risk{};
  std::optional<std::uint64_t> advice, signature;
  std::string later_exam;  ///< `E18 of 2028-01-02`: it has overtaken this one. Empty when there is none.
  std::optional<CaseRecall> recall;
};

/// An examination, and to whom a letter is owed.
struct OwingCase {
  LetterCase about;
  std::string recipient;
};

std::optional<LetterCase> find_letter_case(Transaction& transaction, const std::string& exam);
/// Signed, not overtaken, and without a letter that is right.
std::vector<OwingCase> cases_owing_a_result(Transaction& transaction);
/// The last attempt is by letter, through the family doctor or the final one, and no letter was made for it.
std::vector<OwingCase> cases_owing_an_invitation(Transaction& transaction);
std::uint64_t count_letters_owed(Connection& connection);

/// The examination was signed at some time, whatever became of it.
bool was_signed(Transaction& transaction, const LetterCase& about);

/// `invitation` for the first attempt, `reminder` for later ones and through the family doctor.
std::string letter_of_attempt(const CaseRecall& recall);
/// Whom the last attempt is made to by letter; empty when it is made by other means.
std::string recipient_of_attempt(const CaseRecall& recall);

/// A letter that went out or was withheld.
struct KnownLetter {
  std::uint64_t entry = 0;
  std::string on;
  std::optional<std::uint64_t> tells;
  std::string withheld;         ///< Why; empty when it went out.
  std::string another_because;  ///< Empty as long as it is right.
  std::string gone;  ///< `died 2026-02-01`, noted when it was withheld; empty of one who was there.
};
std::optional<KnownLetter> find_letter(Transaction& transaction, const LetterKey& key);

/// The person and the entry of the letter with this text.
std::optional<IssuedLetter> letter_with(Transaction& transaction, const std::string& document);

/// The entries about the recall, oldest first.
std::vector<Entry> entries_of_recall(Transaction& transaction, const std::string& person,
                                     const std::string& recall);

/// Inputs that wait because of a conflict of identity.
struct WaitingConflict {
  std::uint64_t entry = 0;
  std::string document;
};
std::vector<WaitingConflict> waiting_conflicts(Transaction& transaction);

}  // namespace ledger
