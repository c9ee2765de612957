#include "database/connection.h"
#include "database/derive.h"

namespace ledger {

void derive_letter(Connection& connection, std::uint64_t entry, const nlohmann::json& body) {
  connection.run(
      "INSERT INTO letters (exam, letter, recipient, action, due, advice, document, issued, issued_on,"
      " another_because, entry) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, '', ?8)"
      " ON CONFLICT (exam, letter, recipient) DO UPDATE SET action = ?4, due = ?5, advice = ?6,"
      " document = ?7, issued = ?8, issued_on = ?9, another_because = '', entry = ?8",
      text_at(body, "exam"), text_at(body, "letter"), text_at(body, "to"), text_at(body, "action"),
      text_at(body, "due"), body.at("advice").get<std::uint64_t>(), text_at(body, "document"), entry,
      text_at(body, "on"));
}

}  // namespace ledger
