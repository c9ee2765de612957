#include "database/transaction.h"

#include "database/connection.h"
#include "database/derive.h"
#include "database/entries.h"
#include "database/rights_check.h"
#include "engine/canonical.h"
#include "ledger/chain.h"
#include "utf8.h"

namespace ledger {

namespace {

engine::Error not_utf8() {
  return {"not_utf8",
          "what is to be entered is no text in UTF-8",
          {},
          "type it on a terminal that is set to UTF-8: names and reasons are kept for other people to read"};
}

}  // namespace

Transaction::Transaction(Connection& connection) : connection_(connection), head_(head_of(connection)) {}

std::uint64_t Transaction::append(const Author& author, Kind kind, const std::string& subject,
                                  const nlohmann::json& body) {
  if (auto error = objection(connection_, author, kind, body)) throw NotAllowed{std::move(*error)};
  Entry entry{next(),  text_of(author.clock.now()),  author.actor, std::string(text_of(kind)),
              subject, engine::canonical_json(body), head_.head,   {}};
  if (!is_utf8(entry.actor) || !is_utf8(entry.subject) || !is_utf8(entry.body)) throw NotAllowed{not_utf8()};
  entry.hash = hash_of(entry);
  adopt(entry, kind, body);
  return entry.sequence;
}

void Transaction::adopt(const Entry& entry, Kind kind, const nlohmann::json& body) {
  insert(connection_, entry);
  derive(connection_, kind, entry.sequence, body);
  head_ = {entry.sequence, entry.hash};
}

std::string Transaction::keep(std::string_view bytes) {
  std::string digest = engine::digest_text(bytes);
  if (!keeps(digest))
    connection_.run("INSERT INTO documents (digest, bytes) VALUES (?, ?)", digest, Blob{bytes});
  return digest;
}

bool Transaction::keeps(const std::string& digest) {
  return connection_
      .first(
          "SELECT 1 FROM documents WHERE digest = ?", [](const Row& row) { return row.number(0); }, digest)
      .has_value();
}

std::optional<std::string> Transaction::document(const std::string& digest) {
  return connection_.first(
      "SELECT bytes FROM documents WHERE digest = ?", [](const Row& row) { return row.text(0); }, digest);
}

std::optional<Entry> Transaction::entry(std::uint64_t sequence) {
  return connection_.first(
      "SELECT sequence, at, actor, kind, subject, body, previous, hash FROM entries WHERE sequence = ?",
      entry_of, sequence);
}

nlohmann::json Transaction::body(std::uint64_t sequence) {
  return nlohmann::json::parse(entry(sequence).value().body);
}

}  // namespace ledger
