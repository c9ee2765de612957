// One line about an entry, for a person who reads a history.

#include <utility>

#include "json_fields.h"
#include "ledger/entry.h"
#include "ledger/kind.h"

namespace ledger {

namespace {

using nlohmann::json;

/// Keys that say the most, in the order in which a person wants them; those an entry lacks are passed over.
constexpr std::pair<const char*, const char*> telling[] = {
    {"exam", "examination "},
    {"recall", "recall "},
    {"merged", "merged was "},
    {"other", "other than "},
    {"account", ""},
    {"name", ""},
    {"role", ""},
    {"result", ""},
    {"letter", ""},
    {"reason", ""},
    {"action", ""},
    {"findings", ""},
    {"timing", ""},
    {"means", "by "},
    {"owner", "owner "},
    {"clinician", "by "},
    {"on", "on "},
    {"from", "from "},
    {"to", "to "},
    {"because", "because "},
    {"specimen", "pot "},
    {"accession", "accession "},
    {"sent", "sent "},
    {"reported", "reported "},
    {"ruleset", ""},
    {"edition", "edition "},
    {"source", "from "},
    {"size", "at entry "},
};

void add(std::string& line, const std::string& words) {
  line += (line.ends_with(':') ? " " : "; ") + words;
}

void add_due(std::string& line, const json& body) {
  const auto due = body.find("due");
  if (due == body.end() || due->is_null()) return;
  add(line, "due " + (due->is_object() ? text_at(*due, "from") : due->get<std::string>()));
}

}  // namespace

std::string summary_of(const Entry& entry) {
  std::string line = entry.kind + ":";
  const json body = json::parse(entry.body, nullptr, false);
  if (!body.is_object()) return line + " " + entry.subject;
  for (const auto& [key, before] : telling) {
    const auto found = body.find(key);
    if (found == body.end()) continue;
    if (found->is_string() && !found->get_ref<const std::string&>().empty()) {
      add(line, before + found->get<std::string>());
    } else if (found->is_number()) {
      add(line, before + found->dump());
    }
  }
  if (const auto due = body.find("due"); due != body.end()) add_due(line, body);
  return line.ends_with(':') ? line + " " + entry.subject : line;
}

}  // namespace ledger
