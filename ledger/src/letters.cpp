#include "ledger/letters.h"

#include "database/examinations.h"
#include "database/store.h"
#include "json_fields.h"

namespace ledger {

using engine::Done;
using engine::Error;
using engine::Errors;
using engine::Result;
using nlohmann::json;

namespace {

Errors missing(const Letter& letter) {
  Errors errors;
  const auto need = [&](bool given, const char* what) {
    if (!given) errors.push_back({"detail_missing", std::string("a letter needs ") + what, {}, ""});
  };
  need(!letter.letter.empty(), "a name: result, invitation, ...");
  need(!letter.recipient.empty(), "a recipient: patient, family doctor");
  need(!letter.text.empty(), "its text");
  return errors;
}

/// What the signature on the examination said, which the letter tells.
struct Told {
  std::string action, due;
};

Told told_by(Transaction& transaction, const KnownExamination& examination) {
  const json body = transaction.body(signature_of(transaction, examination.exam));
  const json due = body.value("due", json());
  return {text_at(body, "action"), due.is_object() ? text_at(due, "from") : ""};
}

}  // namespace

Result<std::uint64_t> note_letter(Ledger& ledger, const Author& author, const Letter& letter) {
  if (Errors errors = missing(letter); !errors.empty()) return errors;
  std::uint64_t entry = 0;
  const auto done = ledger.store().write([&](Transaction& transaction) -> Result<Done> {
    const auto examination = find_examination(transaction, letter.exam);
    if (!examination)
      return Error{"unknown_exam", "no examination `" + letter.exam + "` is on the ledger", {}, ""};
    if (examination->outcome.empty())
      return Error{"not_signed",
                   "no next step is signed for examination `" + letter.exam + "`",
                   {},
                   "a letter tells nothing that no clinician has signed"};
    const Told told = told_by(transaction, *examination);
    const std::string document = transaction.keep(letter.text);
    entry = transaction.append(author, Kind::letter_issued, "examination:" + letter.exam,
                               {{"person", examination->person},
                                {"exam", letter.exam},
                                {"letter", letter.letter},
                                {"to", letter.recipient},
                                {"advice", examination->advice.value()},
                                {"action", told.action},
                                {"due", told.due},
                                {"document", document},
                                {"on", engine::text_of(author.clock.today())}});
    return Done{};
  });
  if (!done) return done.errors();
  return entry;
}

}  // namespace ledger
