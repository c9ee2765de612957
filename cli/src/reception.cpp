#include "reception.h"

#include <algorithm>
#include <map>
#include <nlohmann/json.hpp>

#include "engine/canonical.h"
#include "report/errors.h"

namespace cli {

using ledger::Receipt;
using ledger::Received;

bool needs_a_person(const Receipt& receipt) {
  return receipt.received == Received::refused || receipt.received == Received::unmatched;
}

std::string summary_of(const std::string& source, const std::vector<Receipt>& receipts) {
  std::map<Received, std::size_t> counts;
  for (const Receipt& receipt : receipts) ++counts[receipt.received];
  std::string text = source + ":";
  if (counts.empty()) text += " nothing in it";
  for (const auto& [received, count] : counts) {
    text += (received == counts.begin()->first ? " " : ", ") + std::to_string(count) + " " +
            std::string(ledger::text_of(received));
  }
  return text;
}

std::string notes_of(const Receipt& receipt) {
  std::string text;
  const std::string name = receipt.exam.empty() ? "line " + std::to_string(receipt.line) : receipt.exam;
  for (const std::string& note : receipt.notes) text += "  " + name + ": " + note + "\n";
  return text + text_of(receipt.errors);
}

std::string json_of(const std::string& source, const Receipt& receipt) {
  nlohmann::json line{{"source", source},
                      {"line", receipt.line},
                      {"received", ledger::text_of(receipt.received)},
                      {"notes", receipt.notes}};
  if (!receipt.exam.empty()) line["exam"] = receipt.exam;
  if (!receipt.person.empty()) line["person"] = receipt.person;
  if (receipt.entry != 0) line["entry"] = receipt.entry;
  if (receipt.advice != 0) line["advice"] = receipt.advice;
  if (receipt.chosen < receipt.answers.size()) {
    line["answer"] = nlohmann::json::parse(engine::json_of(receipt.answers[receipt.chosen]));
  }
  if (!receipt.errors.empty()) line["errors"] = nlohmann::json::parse(json_of(receipt.errors))["errors"];
  return engine::canonical_json(line);
}

}  // namespace cli
