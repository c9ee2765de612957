#include "reception/input.h"

#include <map>
#include <utility>

#include "database/inputs.h"
#include "database/store.h"

namespace ledger {

using engine::Done;
using engine::Result;
using nlohmann::json;

namespace {

json json_of(const engine::Errors& errors) {
  json list = json::array();
  for (const engine::Error& error : errors) {
    list.push_back({{"code", error.code},
                    {"message", error.message},
                    {"path", error.place.path},
                    {"line", error.place.line},
                    {"help", error.help}});
  }
  return list;
}

/// Lines are counted from the start of the input, not of the record.
void place(engine::Errors& errors, const Input& input) {
  for (engine::Error& error : errors) {
    error.place.source = input.source;
    error.place.line = error.place.line == 0 ? input.part.line : input.part.line + error.place.line - 1;
  }
}

void settle(Transaction& transaction, const Author& author, std::uint64_t entry, std::string_view reason) {
  transaction.append(author, Kind::input_settled, "input:" + std::to_string(entry),
                     {{"input", entry}, {"reason", reason}});
}

}  // namespace

engine::Error no_ruleset() {
  return {"no_ruleset", "no ruleset is in force", {}, "name at least one; `rulesets list` shows them"};
}

Receipt set_aside(Transaction& transaction, const Author& author, const Input& input, Received received,
                  engine::Errors errors) {
  place(errors, input);
  Receipt receipt{received, input.part.line, {}, {}, 0, 0, {}, 0, {}, std::move(errors)};
  const std::string document = transaction.keep(input.part.text);
  const auto waiting = waiting_inputs_with(transaction, document);
  if (!waiting.empty()) {
    receipt.entry = waiting.front();
    return receipt;
  }
  const Kind kind = received == Received::refused ? Kind::input_refused : Kind::input_unmatched;
  receipt.entry = transaction.append(author, kind, "input:" + std::to_string(transaction.next()),
                                     {{"what", input.what},
                                      {"document", document},
                                      {"source", input.source},
                                      {"line", input.part.line},
                                      {"errors", json_of(receipt.errors)}});
  return receipt;
}

void settle_waiting(Transaction& transaction, const Author& author, const std::string& document,
                    const std::string& reason) {
  for (const std::uint64_t waiting : waiting_inputs_with(transaction, document)) {
    settle(transaction, author, waiting, reason);
  }
}

std::string acted_on_by(std::uint64_t entry) {
  return "acted on by entry " + std::to_string(entry);
}

json standing_of(const engine::Examination& exam) {
  struct Pot {
    std::string accession, sent;
    int awaited = 0;
  };
  std::map<std::string, Pot> pots;
  for (const engine::Specimen& specimen : exam.specimens) {
    pots[specimen.id] = {specimen.accession, specimen.sent ? engine::text_of(*specimen.sent) : "", 0};
  }
  for (const engine::Lesion& lesion : exam.lesions) {
    const bool awaits = lesion.awaits_histology();
    if (!lesion.specimen.empty() || awaits) pots[lesion.specimen].awaited += awaits ? 1 : 0;
  }
  json list = json::array();
  for (const auto& [id, pot] : pots) {
    list.push_back(
        {{"specimen", id}, {"accession", pot.accession}, {"sent", pot.sent}, {"awaited", pot.awaited}});
  }
  return {{"findings", engine::findings_line(exam)}, {"pots", std::move(list)}};
}

std::string_view text_of(Received received) {
  switch (received) {
    case Received::recorded:
      return "recorded";
    case Received::amended:
      return "amended";
    case Received::already_recorded:
      return "already recorded";
    case Received::entered:
      return "histology entered";
    case Received::histology_amended:
      return "histology amended";
    case Received::histology_withdrawn:
      return "histology withdrawn";
    case Received::already_entered:
      return "already entered";
    case Received::refused:
      return "refused";
    default:
      return "unmatched";
  }
}

Result<Done> settle_input(Ledger& ledger, const Author& author, std::uint64_t entry,
                          std::string_view reason) {
  if (reason.empty()) {
    return engine::Error{"reason_missing", "no reason is given", {}, "say what was done with the input"};
  }
  return ledger.store().write([&](Transaction& transaction) -> Result<Done> {
    if (!is_waiting(transaction, entry)) {
      return engine::Error{"unknown_input",
                           "no input of entry " + std::to_string(entry) + " waits",
                           {},
                           "the list of waiting inputs has their numbers"};
    }
    settle(transaction, author, entry, reason);
    return Done{};
  });
}

}  // namespace ledger
