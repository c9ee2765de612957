#include "database/connection.h"
#include "database/derive.h"
#include "database/derive_letters.h"

namespace ledger {

namespace {

using nlohmann::json;

void give(Connection& connection, std::uint64_t entry, const json& body) {
  connection.run(
      "UPDATE examinations SET advice = ?2, advice_state = ?3, reason = ?4, risk = ?5, earliest = ?6,"
      " earliest_site_check = ?7, outcome = '', signed = NULL, entry = ?2 WHERE exam = ?1",
      text_at(body, "exam"), entry, text_at(body, "state"), text_at(body, "reason"),
      body.at("risk").get<std::int64_t>(), text_at(body, "earliest"), text_at(body, "earliest_site_check"));
}

void settle(Connection& connection, const char* outcome, std::uint64_t entry, const json& body) {
  connection.run("UPDATE examinations SET outcome = ?1, signed = ?2, entry = ?2 WHERE exam = ?3", outcome,
                 entry, text_at(body, "exam"));
  derive_letters_signed(connection, entry, body);
}

/// A recall stands, under review, until the new advice is signed: no one drops out in between. A letter that
/// went out is marked at once.
void supersede(Connection& connection, std::uint64_t entry, const json& body) {
  const auto advice = body.at("advice").get<std::uint64_t>();
  connection.run("UPDATE recalls SET under_review = 1, entry = ?1 WHERE advice = ?2", entry, advice);
  derive_letters_superseded(connection, entry, body);
}

}  // namespace

void derive_advice(Connection& connection, Kind kind, std::uint64_t entry, const json& body) {
  switch (kind) {
    case Kind::advice_given:
      return give(connection, entry, body);
    case Kind::advice_signed:
      return settle(connection, "signed", entry, body);
    case Kind::advice_overridden:
      return settle(connection, "overridden", entry, body);
    default:
      return supersede(connection, entry, body);
  }
}

}  // namespace ledger
