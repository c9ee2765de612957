// Records as sentences: a_record().aged(64).with(a_lesion().at("sigmoid colon").of(12_mm)).text().
//
// What is not said is ordinary: a complete, well prepared screening colonoscopy of an invented woman, and
// lesions that were removed whole, retrieved and found to be tubular adenomas. `with_fact` and `without`
// change any key.

#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <utility>

#include "engine/calendar.h"
#include "engine/record.h"

namespace support {

class LesionBuilder {
 public:
  LesionBuilder& called(const std::string& id) { return with_fact("id", id); }
  LesionBuilder& standing_for(int polyps) { return with_fact("number", polyps); }
  LesionBuilder& at(const std::string& site) { return with_fact("site", site); }
  LesionBuilder& of(engine::Millimetres size) { return with_fact("size_mm", size.tenths / 10.0); }
  LesionBuilder& shaped(const std::string& paris) { return with_fact("paris", paris); }
  LesionBuilder& removed(const std::string& removal) { return with_fact("removal", removal); }
  LesionBuilder& in_pot(const std::string& specimen) { return with_fact("specimen", specimen); }
  LesionBuilder& found_to_be(const std::string& type, const std::string& dysplasia = "low grade") {
    return with_fact("histology", {{"type", type}, {"dysplasia", dysplasia}, {"margin", "clear"}});
  }
  LesionBuilder& awaiting_histology() { return with_fact("histology", nullptr); }
  LesionBuilder& lost() { return with_fact("retrieved", false).awaiting_histology(); }
  LesionBuilder& left_in_place() { return removed("not removed").lost(); }

  LesionBuilder& with_fact(const std::string& key, nlohmann::json value) {
    lesion_[key] = std::move(value);
    return *this;
  }
  LesionBuilder& without(const std::string& key) {
    lesion_.erase(key);
    return *this;
  }

  const nlohmann::json& json() const { return lesion_; }

 private:
  nlohmann::json lesion_ = {
      {"site", "sigmoid colon"},
      {"size_mm", 5},
      {"paris", "0-Is"},
      {"removal", "en bloc"},
      {"retrieved", true},
      {"histology", {{"type", "tubular adenoma"}, {"dysplasia", "low grade"}, {"margin", "clear"}}}};
};

class RecordBuilder {
 public:
  RecordBuilder& on(const std::string& date) { return with_fact("/exam/date", date); }
  RecordBuilder& born(const std::string& date) { return with_fact("/patient/birth_date", date); }
  /// Whose birthday was on the day of the examination.
  RecordBuilder& aged(int years) {
    const auto date = engine::parse_date(record_["exam"]["date"].get<std::string>());
    return born(engine::text_of(engine::add(*date, engine::Months{-12 * years}).value()));
  }
  RecordBuilder& reached(const std::string& segment) { return with_fact("/exam/reached", segment); }
  /// Lesions without an id are called L1, L2 ... in their order.
  RecordBuilder& with(const LesionBuilder& lesion) {
    nlohmann::json& lesions = record_["exam"]["lesions"];
    lesions.push_back(lesion.json());
    if (!lesions.back().contains("id")) lesions.back()["id"] = "L" + std::to_string(lesions.size());
    return *this;
  }
  RecordBuilder& with_condition(nlohmann::json condition) {
    record_["patient"]["conditions"].push_back(std::move(condition));
    return *this;
  }
  /// After an earlier examination: that of `earlier`. Give the oldest first.
  RecordBuilder& after(const RecordBuilder& earlier) {
    record_["previous"].push_back(earlier.record_["exam"]);
    return *this;
  }

  /// Any fact, by its JSON pointer (RFC 6901): `/exam/lesions/0/size_mm`.
  RecordBuilder& with_fact(const std::string& pointer, nlohmann::json value) {
    record_[nlohmann::json::json_pointer(pointer)] = std::move(value);
    return *this;
  }
  RecordBuilder& without(const std::string& pointer) {
    const nlohmann::json::json_pointer key(pointer);
    record_[key.parent_pointer()].erase(key.back());
    return *this;
  }

  const nlohmann::json& json() const { return record_; }
  std::string text() const { return record_.dump(); }

 private:
  nlohmann::json record_ = {
      {"patient", {{"birth_date", "1961-05-04"}, {"sex", "female"}, {"conditions", nlohmann::json::array()}}},
      {"exam",
       {{"date", "2026-03-10"},
        {"indication", "screening"},
        {"procedure", "colonoscopy"},
        {"reached", "caecum"},
        {"preparation", {{"boston", {{"right", 2}, {"transverse", 3}, {"left", 3}}}}},
        {"lesions", nlohmann::json::array()}}},
      {"previous", nlohmann::json::array()}};
};

inline LesionBuilder a_lesion() {
  return {};
}
inline RecordBuilder a_record() {
  return {};
}

}  // namespace support
