// Letters that went out, and those that were withheld.

#include "database/examinations.h"
#include "database/store.h"
#include "engine/canonical.h"
#include "json_fields.h"
#include "kept_rulesets.h"
#include "ledger/letters.h"
#include "letters/facts.h"
#include "letters/standing.h"

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

json body_of(const std::string& person, const LetterKey& key, const Author& author) {
  return {{"person", person},
          {"exam", key.exam},
          {"letter", key.letter},
          {"to", key.recipient},
          {"on", engine::text_of(author.clock.today())}};
}

/// What a letter tells that was made, or left out, elsewhere: the attempt, or what the signature says.
Result<json> told_elsewhere(Transaction& transaction, const LetterKey& key, const Author& author) {
  const auto about = find_letter_case(transaction, key.exam);
  if (!about) {
    return Error{"unknown_exam",
                 "no examination `" + key.exam + "` is on the ledger",
                 {},
                 "`letters` lists what is owed"};
  }
  const bool is_of_attempt = key.letter == "invitation" || key.letter == "reminder";
  const bool is_of_recall = is_of_attempt && about->recall && about->recall->invited;
  if (!is_of_recall && !about->signature) {
    return Error{"not_signed",
                 "no next step is signed for examination `" + key.exam + "`",
                 {},
                 "a letter tells nothing that no clinician has signed"};
  }
  const Standing standing =
      is_of_recall ? standing_of_recall(transaction, *about) : standing_of_signature(transaction, *about);
  json body = body_of(about->person.person, key, author);
  body["advice"] = standing.advice;
  body["action"] = std::string(engine::text_of(standing.action));
  body["due"] = standing.due ? engine::text_of(standing.due->from) : "";
  body["tells"] = is_of_recall ? *about->recall->invited : standing.tells;
  return body;
}

}  // namespace

Result<std::uint64_t> note_letter(Ledger& ledger, const Author& author, const Letter& letter) {
  if (Errors errors = missing(letter); !errors.empty()) return errors;
  std::uint64_t entry = 0;
  const auto done = ledger.store().write([&](Transaction& transaction) -> Result<Done> {
    auto body = told_elsewhere(transaction, {letter.exam, letter.letter, letter.recipient}, author);
    if (!body) return body.errors();
    (*body)["document"] = transaction.keep(letter.text);
    entry = transaction.append(author, Kind::letter_issued, "examination:" + letter.exam, *body);
    return Done{};
  });
  if (!done) return done.errors();
  return entry;
}

Result<std::uint64_t> issue_letter(Ledger& ledger, const Author& author, const NewLetter& letter) {
  std::uint64_t entry = 0;
  const auto done = ledger.store().write([&](Transaction& transaction) -> Result<Done> {
    const auto facts = facts_in(transaction, letter.key, letter.permission);
    if (!facts) return facts.errors();
    if (facts->tells != letter.tells) {
      return Error{"letter_out_of_date",
                   "what the letter about `" + letter.key.exam + "` tells was decided anew while it was made",
                   {},
                   "make it again"};
    }
    json body = body_of(facts->person.person, letter.key, author);
    body["advice"] = facts->advice;
    body["action"] = std::string(engine::text_of(facts->action));
    body["due"] = facts->due ? engine::text_of(facts->due->from) : "";
    body["tells"] = facts->tells;
    if (!facts->recall.empty()) body["attempt"] = facts->attempt;
    if (!letter.permission.again.empty()) body["reason"] = letter.permission.again;
    if (!letter.permission.told_by.empty()) body["told_by"] = letter.permission.told_by;
    body["document"] = transaction.keep(letter.text);
    entry = transaction.append(author, Kind::letter_issued, "examination:" + letter.key.exam, body);
    return Done{};
  });
  if (!done) return done.errors();
  return entry;
}

Result<std::uint64_t> withhold_letter(Ledger& ledger, const Author& author, const LetterKey& key,
                                      const std::string& reason) {
  if (reason.empty())
    return Error{"reason_missing", "no reason is given", {}, "say why the letter is not sent"};
  std::uint64_t entry = 0;
  const auto done = ledger.store().write([&](Transaction& transaction) -> Result<Done> {
    if (auto known = check_key(key); !known) return known;
    auto body = told_elsewhere(transaction, key, author);
    if (!body) return body.errors();
    (*body)["reason"] = reason;
    entry = transaction.append(author, Kind::letter_withheld, "examination:" + key.exam, *body);
    return Done{};
  });
  if (!done) return done.errors();
  return entry;
}

Result<std::string> letter_text(const Ledger& ledger, std::uint64_t entry) {
  std::string text;
  const auto done = ledger.store().read([&](Transaction& transaction) -> Result<Done> {
    const auto found = transaction.entry(entry);
    if (!found || found->kind != text_of(Kind::letter_issued)) {
      return Error{"unknown_letter",
                   "entry " + std::to_string(entry) + " tells of no letter",
                   {},
                   "`patient` shows the letters of a person with their entries"};
    }
    text = transaction.document(text_at(json::parse(found->body), "document")).value();
    return Done{};
  });
  if (!done) return done.errors();
  return text;
}

Result<std::string> ruleset_title(const Ledger& ledger, const std::string& digest) {
  const auto bytes = ledger.document(digest);
  if (!bytes) return bytes.errors();
  const auto ruleset = load_kept(ledger, *bytes, digest);
  if (!ruleset) return ruleset.errors();
  return (*ruleset)->about.title;
}

Result<std::optional<IssuedLetter>> letter_with(const Ledger& ledger, const std::string& document) {
  std::optional<IssuedLetter> found;
  const auto done = ledger.store().read([&](Transaction& transaction) -> Result<Done> {
    found = letter_with(transaction, document);
    return Done{};
  });
  if (!done) return done.errors();
  return found;
}

}  // namespace ledger
