#include "reception/result_matching.h"

#include <algorithm>
#include <optional>
#include <set>

#include "json_fields.h"
#include "places.h"

namespace ledger {

using engine::Errors;
using nlohmann::json;

namespace {

class Matcher {
 public:
  explicit Matcher(const json& exam);
  void match(const PotReport& report);
  Errors errors;
  std::vector<MatchedLesion> matched;

 private:
  void fault(std::string code, std::string message, const std::string& path, std::string help = "") {
    errors.push_back({std::move(code), std::move(message), at_path(path), std::move(help)});
  }
  std::optional<std::string> pot_of(const PotReport& report) const;
  std::string known_pots() const;
  bool is_in(const json& lesion, const std::string& pot) const;
  std::optional<std::size_t> only_lesion_in(const std::string& pot, const std::string& path);
  std::optional<std::size_t> lesion_called(const std::string& id, const std::string& pot,
                                           const std::string& path);
  void take(std::size_t index, const std::string& pot, const LesionReport& report);

  json lesions_, specimens_;
  std::set<std::string> pots_;
};

Matcher::Matcher(const json& exam)
    : lesions_(exam.value("lesions", json::array())), specimens_(exam.value("specimens", json::array())) {
  for (const json& specimen : specimens_) pots_.insert(text_at(specimen, "id"));
  for (const json& lesion : lesions_) pots_.insert(text_at(lesion, "specimen"));
  pots_.erase("");
}

std::optional<std::string> Matcher::pot_of(const PotReport& report) const {
  if (!report.id.empty()) return pots_.contains(report.id) ? std::optional(report.id) : std::nullopt;
  for (const json& specimen : specimens_) {
    if (text_at(specimen, "accession") == report.accession) return text_at(specimen, "id");
  }
  return std::nullopt;
}

std::string Matcher::known_pots() const {
  if (pots_.empty()) return "the record names no pots: record the examination again with its specimens";
  std::string help = "the examination has";
  for (const std::string& pot : pots_) {
    help += (help.ends_with("has") ? " `" : ", `") + pot + "`";
    for (const json& specimen : specimens_) {
      if (text_at(specimen, "id") != pot || text_at(specimen, "accession").empty()) continue;
      help += " (accession `" + text_at(specimen, "accession") + "`)";
    }
  }
  return help;
}

/// A lesion that names no pot is in the only pot there is.
bool Matcher::is_in(const json& lesion, const std::string& pot) const {
  const std::string named = text_at(lesion, "specimen");
  return named == pot || (named.empty() && pots_.size() == 1);
}

std::optional<std::size_t> Matcher::only_lesion_in(const std::string& pot, const std::string& path) {
  std::vector<std::size_t> inside;
  for (std::size_t i = 0; i < lesions_.size(); ++i) {
    if (is_in(lesions_[i], pot)) inside.push_back(i);
  }
  if (inside.size() == 1) return inside.front();
  fault("several_lesions",
        "pot `" + pot + "` holds " + std::to_string(inside.size()) +
            " lesion entries, so its histology must name them",
        path, "give `lesions` with their ids instead of `histology`");
  return std::nullopt;
}

std::optional<std::size_t> Matcher::lesion_called(const std::string& id, const std::string& pot,
                                                  const std::string& path) {
  for (std::size_t i = 0; i < lesions_.size(); ++i) {
    if (text_at(lesions_[i], "id") != id) continue;
    if (is_in(lesions_[i], pot)) return i;
    const std::string other = text_at(lesions_[i], "specimen");
    std::string message = "lesion `" + id + "` is in ";
    message += other.empty() ? "no named pot" : "pot `" + other + "`";
    fault("other_pot", message + ", not in `" + pot + "`", path + ".id");
    return std::nullopt;
  }
  std::string help = "the examination has";
  for (const json& lesion : lesions_)
    help += (help.ends_with("has") ? " `" : ", `") + text_at(lesion, "id") + "`";
  fault("unknown_lesion", "the examination has no lesion `" + id + "`", path + ".id",
        lesions_.empty() ? "the examination has no lesions" : help);
  return std::nullopt;
}

void Matcher::take(std::size_t index, const std::string& pot, const LesionReport& report) {
  const json& lesion = lesions_[index];
  const std::string id = text_at(lesion, "id");
  if (text_at(lesion, "removal") == "not removed") {
    fault("not_removed", "lesion `" + id + "` was not removed, so it has no histology", report.path,
          "check the lesion's id, or record the examination again with how it was removed");
    return;
  }
  const bool twice = std::any_of(matched.begin(), matched.end(),
                                 [&](const MatchedLesion& other) { return other.index == index; });
  if (twice) {
    fault("named_twice", "lesion `" + id + "` is named twice in this result", report.path);
    return;
  }
  matched.push_back({index, id, pot, report.histology, report.path});
}

void Matcher::match(const PotReport& report) {
  const auto pot = pot_of(report);
  if (!pot) {
    const std::string named = report.id.empty() ? report.accession : report.id;
    fault("unknown_pot", "the examination has no pot `" + named + "`",
          report.path + (report.id.empty() ? ".accession" : ".id"), known_pots());
    return;
  }
  for (const LesionReport& lesion : report.lesions) {
    const auto index = lesion.lesion.empty() ? only_lesion_in(*pot, lesion.path)
                                             : lesion_called(lesion.lesion, *pot, lesion.path);
    if (index) take(*index, *pot, lesion);
  }
}

}  // namespace

engine::Result<std::vector<MatchedLesion>> match(const ResultReport& report, const json& exam) {
  Matcher matcher(exam);
  for (const PotReport& pot : report.pots) matcher.match(pot);
  if (!matcher.errors.empty()) return matcher.errors;
  return std::move(matcher.matched);
}

}  // namespace ledger
