#include "reception/merge.h"

#include <algorithm>
#include <string>

#include "json_fields.h"

namespace ledger {

namespace {

using nlohmann::json;

bool lacks_histology(const json& lesion) {
  const auto found = lesion.find("histology");
  return found == lesion.end() || found->is_null();
}

bool same(const json& a, const json& b) {
  const std::string id = text_at(a, "id");
  return (!id.empty() && id == text_at(b, "id")) || text_at(a, "date") == text_at(b, "date");
}

}  // namespace

void put_histology(json& exam, std::uint64_t recorded, const std::vector<EnteredHistology>& results) {
  const auto lesions = exam.find("lesions");
  if (lesions == exam.end() || !lesions->is_array()) return;
  for (json& lesion : *lesions) {
    const auto result = std::find_if(results.begin(), results.end(), [&](const EnteredHistology& entered) {
      return entered.lesion == text_at(lesion, "id");
    });
    if (result == results.end()) continue;
    if (result->entry > recorded || lacks_histology(lesion)) lesion["histology"] = result->histology;
  }
}

void add_previous(json& record, const std::vector<json>& earlier) {
  const std::string date = text_at(record.at("exam"), "date");
  json previous = record.value("previous", json::array());
  if (!previous.is_array()) previous = json::array();
  const std::size_t own = previous.size();
  for (const json& exam : earlier) {
    if (text_at(exam, "date") >= date) continue;
    const bool known =
        std::any_of(previous.begin(), previous.end(), [&](const json& other) { return same(exam, other); });
    if (!known) previous.push_back(exam);
  }
  if (previous.size() == own) return;
  std::stable_sort(previous.begin(), previous.end(),
                   [](const json& a, const json& b) { return text_at(a, "date") < text_at(b, "date"); });
  record["previous"] = std::move(previous);
}

void add_background(json& record, const std::vector<json>& earlier) {
  json& patient = record.at("patient");
  for (const char* key : {"conditions", "relatives", "family_history"}) {
    const auto said = [&](const json& who) { return who.contains(key) && !who.at(key).is_null(); };
    if (said(patient)) continue;
    const auto latest = std::find_if(earlier.rbegin(), earlier.rend(),
                                     [&](const json& other) { return said(other.at("patient")); });
    if (latest != earlier.rend()) patient[key] = latest->at("patient").at(key);
  }
}

void keep_previous(json& record, const json& replaced) {
  const json told = replaced.value("previous", json());
  if (!told.is_array() || record.value("previous", json()).is_array()) return;
  const std::string date = text_at(record.at("exam"), "date");
  json& previous = record["previous"] = json::array();
  for (const json& exam : told) {
    if (text_at(exam, "date") <= date) previous.push_back(exam);
  }
}

}  // namespace ledger
