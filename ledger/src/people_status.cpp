// Deaths, moves, and their reversal.

#include "database/known_recalls.h"
#include "database/people.h"
#include "database/store.h"
#include "ledger/people.h"

namespace ledger {

using engine::Date;
using engine::Done;
using engine::Error;
using engine::Result;

namespace {

Result<Done> report(Ledger& ledger, const Author& author, Kind kind, const std::string& text,
                    const Date& on) {
  return ledger.store().write([&](Transaction& transaction) -> Result<Done> {
    const auto person = find_person_in(transaction, text);
    if (!person) return person.errors();
    // It was told of this number: should it turn out to be somebody else's, so is the report.
    const std::string number = number_named(transaction, text, person->person);
    transaction.append(author, kind, "person:" + number, {{"person", number}, {"on", engine::text_of(on)}});
    return Done{};
  });
}

/// What a person's report is called, and what takes it back.
struct Reversal {
  Kind kind;
  std::string_view status;  ///< How the status begins that it ends.
  std::string_view what;
};

Error not_reported(const PersonLine& person, const Reversal& reversal) {
  return {"not_reported",
          person.person + " has no " + std::string(reversal.what) + " to be taken back",
          {},
          person.status.empty() ? "nothing is reported of this person"
                                : "what stands is `" + person.status + "`"};
}

/// Every number of the person that carries the report loses it.
void reverse(Transaction& transaction, const Author& author, const std::string& person,
             const Reversal& reversal, const std::string& reason) {
  for (const std::string& number : numbers_with_status(transaction, person, reversal.status)) {
    transaction.append(
        author, reversal.kind, "person:" + number,
        {{"person", number}, {"reason", reason}, {"on", engine::text_of(author.clock.today())}});
  }
}

Result<std::vector<std::string>> take_back(Ledger& ledger, const Author& author, const std::string& text,
                                           const Reversal& reversal, const std::string& reason) {
  if (reason.empty())
    return Error{"reason_missing", "no reason is given", {}, "say how it is known, in a sentence"};
  std::vector<std::string> closed;
  const auto done = ledger.store().write([&](Transaction& transaction) -> Result<Done> {
    const auto person = find_person_in(transaction, text);
    if (!person) return person.errors();
    if (!person->status.starts_with(reversal.status)) return not_reported(*person, reversal);
    const std::uint64_t reported = reported_at(transaction, person->person, reversal.status);
    reverse(transaction, author, person->person, reversal, reason);
    closed = recalls_closed_after(transaction, person->person, reported);
    return Done{};
  });
  if (!done) return done.errors();
  return closed;
}

}  // namespace

Result<Done> report_death(Ledger& ledger, const Author& author, const std::string& person, const Date& on) {
  return report(ledger, author, Kind::person_died, person, on);
}

Result<Done> report_move_away(Ledger& ledger, const Author& author, const std::string& person,
                              const Date& on) {
  return report(ledger, author, Kind::person_moved_away, person, on);
}

Result<std::vector<std::string>> report_alive(Ledger& ledger, const Author& author, const std::string& person,
                                              const std::string& reason) {
  return take_back(ledger, author, person, {Kind::person_death_reversed, "died", "death"}, reason);
}

Result<std::vector<std::string>> report_move_back(Ledger& ledger, const Author& author,
                                                  const std::string& person, const std::string& reason) {
  return take_back(ledger, author, person, {Kind::person_moved_back, "moved away", "move away"}, reason);
}

}  // namespace ledger
