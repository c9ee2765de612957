#include "database/connection.h"
#include "database/derive.h"
#include "engine/canonical.h"

namespace ledger {

namespace {

using nlohmann::json;

/// `pots` in a body is always the whole of them, as they stand after the entry.
void write_pots(Connection& connection, std::uint64_t entry, const json& body) {
  const std::string exam = text_at(body, "exam");
  connection.run("DELETE FROM pots WHERE exam = ?", exam);
  for (const json& pot : body.at("pots")) {
    connection.run(
        "INSERT INTO pots (exam, specimen, accession, sent, awaited, entry) VALUES (?, ?, ?, ?, ?, ?)", exam,
        text_at(pot, "specimen"), text_at(pot, "accession"), text_at(pot, "sent"),
        pot.at("awaited").get<std::int64_t>(), entry);
  }
  connection.run(
      "UPDATE examinations SET findings = ?2, entry = ?3,"
      " awaited = (SELECT coalesce(sum(awaited), 0) FROM pots WHERE exam = ?1),"
      " since = coalesce((SELECT min(iif(sent = '', date, sent)) FROM pots WHERE exam = ?1 AND awaited > 0), "
      "'')"
      " WHERE exam = ?1",
      exam, text_at(body, "findings"), entry);
}

void record(Connection& connection, std::uint64_t entry, const json& body) {
  const std::string exam = text_at(body, "exam");
  const json& examination = body.at("record").at("exam");
  connection.run(
      "INSERT INTO examinations (exam, person, recorded_for, date, place, endoscopist, findings, recorded, "
      "awaited, since,"
      " advice, advice_state, reason, risk, earliest, earliest_site_check, outcome, entry)"
      " VALUES (?1, ?2, ?8, ?3, ?4, ?5, '', ?6, 0, '', NULL, '', '', ?7, '', '', '', ?6)"
      " ON CONFLICT (exam) DO UPDATE SET date = ?3, place = ?4, endoscopist = ?5, recorded = ?6",
      exam, text_at(body, "person"), text_at(examination, "date"), text_at(examination, "place"),
      text_at(examination, "endoscopist"), entry, body.at("risk").get<std::int64_t>(),
      body.contains("recorded_for") ? text_at(body, "recorded_for") : text_at(body, "person"));
  connection.run("INSERT INTO versions (exam, content, entry) VALUES (?, ?, ?)", exam,
                 text_at(body, "content"), entry);
  write_pots(connection, entry, body);
}

void enter_histology(Connection& connection, std::uint64_t entry, const json& body) {
  for (const json& lesion : body.at("lesions")) {
    connection.run(
        "INSERT INTO histologies (exam, lesion, histology, entry) VALUES (?1, ?2, ?3, ?4)"
        " ON CONFLICT (exam, lesion) DO UPDATE SET histology = ?3, entry = ?4",
        text_at(body, "exam"), text_at(lesion, "lesion"),
        engine::canonical_json(lesion.value("histology", json())), entry);
  }
  write_pots(connection, entry, body);
}

}  // namespace

void derive_examination(Connection& connection, Kind kind, std::uint64_t entry, const json& body) {
  switch (kind) {
    case Kind::examination_recorded:
    case Kind::examination_amended:
      return record(connection, entry, body);
    case Kind::histology_entered:
    case Kind::histology_amended:
    case Kind::histology_withdrawn:
      return enter_histology(connection, entry, body);
    default:
      return;  // `specimen sent` follows from the record, which has already written its pot
  }
}

}  // namespace ledger
