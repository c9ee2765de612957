#include "letters/standing.h"

#include "json_fields.h"

namespace ledger {

using nlohmann::json;

namespace {

std::optional<engine::Window> window_of(const json& due) {
  if (!due.is_object()) return std::nullopt;
  return engine::Window{engine::parse_date(text_at(due, "from")).value(),
                        engine::parse_date(text_at(due, "to")).value()};
}

engine::Window window_of_recall(const json& body) {
  return {engine::parse_date(text_at(body, "due")).value(),
          engine::parse_date(text_at(body, "due_to")).value()};
}

void take_signature(Transaction& transaction, std::uint64_t signature, Standing& standing) {
  standing.tells = standing.signature = signature;
  standing.signed_body = transaction.body(signature);
  standing.advice = standing.signed_body.at("advice").get<std::uint64_t>();
  standing.action = engine::action_of(text_at(standing.signed_body, "action")).value();
  standing.due = window_of(standing.signed_body.value("due", json()));
  standing.clinician = text_at(standing.signed_body, "clinician");
}

/// A recall that was opened or redated by a signature has the window of that signature, whichever end of it
/// is the due date; the later step of a plan has its own.
void take_plan(Transaction& transaction, const Entry& entry, const json& body, Standing& standing) {
  const auto signature = number_at(body, "signed");
  if (signature && *signature != 0) take_signature(transaction, *signature, standing);
  standing.tells = entry.sequence;
  standing.advice = body.at("advice").get<std::uint64_t>();
  standing.action = engine::action_of(text_at(body, "action")).value();
  standing.clinician = text_at(body, "clinician");
  standing.moved.reset();
  if (!standing.due || body.contains("follows")) standing.due = window_of_recall(body);
}

void take_move(const Entry& entry, const json& body, Standing& standing) {
  standing.tells = entry.sequence;
  standing.due = window_of_recall(body);
  standing.moved = {text_at(body, "clinician"), text_at(body, "on"), text_at(body, "reason")};
}

}  // namespace

Standing standing_of_recall(Transaction& transaction, const LetterCase& about) {
  Standing standing;
  for (const Entry& entry : entries_of_recall(transaction, about.person.person, about.recall->id())) {
    const bool opened = entry.kind == text_of(Kind::recall_opened);
    if (!opened && entry.kind != text_of(Kind::recall_redated)) continue;
    const json body = json::parse(entry.body);
    if (body.contains("advice")) {
      take_plan(transaction, entry, body, standing);
    } else {
      take_move(entry, body, standing);
    }
  }
  return standing;
}

Standing standing_of_signature(Transaction& transaction, const LetterCase& about) {
  Standing standing;
  take_signature(transaction, *about.signature, standing);
  if (!about.recall || about.recall->signature != about.signature) return standing;
  const Standing recall = standing_of_recall(transaction, about);
  if (!recall.moved) return standing;
  standing.tells = recall.tells;
  standing.due = recall.due;
  standing.moved = recall.moved;
  return standing;
}

std::string line_of(const Standing& standing) {
  std::string line(engine::text_of(standing.action));
  if (!standing.due) return line;
  line += ", due " + engine::text_of(standing.due->from);
  return standing.due->from == standing.due->to ? line : line + " to " + engine::text_of(standing.due->to);
}

}  // namespace ledger
