// A record back to JSON, as the reader reads it: for records that were made and not read.

#include <nlohmann/json.hpp>

#include "engine/record.h"
#include "record/terms.h"

namespace engine {

using nlohmann::json;

namespace {

template <class T>
json written(const T& value) {
  if constexpr (std::is_enum_v<T>) {
    return std::string(term_of(value));
  } else if constexpr (std::is_same_v<T, Millimetres>) {
    return value.tenths % 10 == 0 ? json(value.tenths / 10) : json(static_cast<double>(value.tenths) / 10);
  } else {
    return value;
  }
}

/// `key` with the fact, unless it is not stated.
template <class T>
void put(json& object, const char* key, const Fact<T>& fact) {
  using State = typename Fact<T>::State;
  if (fact.state == State::not_stated) return;
  if (fact.state == State::known) {
    object[key] = written(fact.value);
  } else if (fact.options.empty()) {
    object[key] = {{"from", written(fact.value)}, {"to", written(fact.most)}};
  } else {
    object[key] = json::array();
    for (const T& option : fact.options) object[key].push_back(written(option));
  }
}

template <class T>
void put(json& object, const char* key, const std::optional<T>& value) {
  if (value) object[key] = written(*value);
}

void put(json& object, const char* key, const std::optional<Date>& date) {
  if (date) object[key] = text_of(*date);
}

void put(json& object, const char* key, const std::string& text) {
  if (!text.empty()) object[key] = text;
}

void put(json& object, const char* key, const std::vector<std::string>& lines) {
  if (!lines.empty()) object[key] = lines;
}

json of(const Lesion& lesion) {
  json object = json::object();
  put(object, "id", lesion.id);
  put(object, "number", lesion.number);
  put(object, "site", lesion.site);
  put(object, "size_mm", lesion.size);
  put(object, "paris", lesion.paris);
  put(object, "removal", lesion.removal);
  put(object, "retrieved", lesion.retrieved);
  put(object, "specimen", lesion.specimen);
  if (!lesion.histology) return object;
  json& histology = object["histology"] = json::object();
  put(histology, "type", lesion.histology->type);
  put(histology, "dysplasia", lesion.histology->dysplasia);
  put(histology, "margin", lesion.histology->margin);
  put(histology, "size_mm", lesion.histology->size);
  return object;
}

json of(const Specimen& specimen) {
  json object = json::object();
  put(object, "id", specimen.id);
  put(object, "accession", specimen.accession);
  put(object, "sent", specimen.sent);
  return object;
}

json of(const Complication& complication) {
  json object = {{"kind", written(complication.kind)}};
  put(object, "on", complication.on);
  put(object, "severity", complication.severity);
  return object;
}

json of(const Condition& condition) {
  json object = {{"name", std::string(term_of(condition.name))}};
  put(object, "gene", condition.gene);
  put(object, "onset", condition.onset);
  put(object, "resection_date", condition.resection_date);
  put(object, "extent", condition.extent);
  put(object, "activity", condition.activity);
  put(object, "post_inflammatory_polyps", condition.post_inflammatory_polyps);
  put(object, "stricture", condition.stricture);
  put(object, "dysplasia_within_5_years", condition.dysplasia_within_5_years);
  return object;
}

json of(const Relative& relative) {
  json object = {{"degree", relative.degree}, {"cancer", relative.cancer}};
  put(object, "age", relative.age);
  return object;
}

json of(const Identifier& identifier) {
  return {{"system", identifier.system}, {"value", identifier.value}};
}

json of(const PersonName& name) {
  json object = json::object();
  put(object, "family", name.family);
  put(object, "given", name.given);
  put(object, "prefix", name.prefix);
  return object;
}

json of(const Contact& contact) {
  json object = json::object();
  put(object, "telephone", contact.telephone);
  put(object, "email", contact.email);
  put(object, "address", contact.address);
  return object;
}

json of(const FamilyDoctor& doctor) {
  json object = json::object();
  put(object, "name", doctor.name);
  put(object, "practice", doctor.practice);
  put(object, "address", doctor.address);
  return object;
}

json of(const Need& need) {
  json object = {{"flag", need.flag}};
  put(object, "since", need.since);
  put(object, "source", need.source);
  return object;
}

json of(const Examination& exam);

template <class T>
void put_all(json& object, const char* key, const std::vector<T>& items) {
  object[key] = json::array();
  for (const T& item : items) object[key].push_back(of(item));
}

template <class T>
void put_all(json& object, const char* key, const std::optional<std::vector<T>>& items) {
  if (items) put_all(object, key, *items);
}

json of(const Examination& exam) {
  json object = {{"date", text_of(exam.date)}};
  put(object, "id", exam.id);
  put(object, "indication", exam.indication);
  put(object, "procedure", exam.procedure);
  put(object, "reached", exam.reached);
  put(object, "cleared", exam.cleared);
  json preparation = json::object();
  if (exam.boston) {
    json& boston = preparation["boston"] = json::object();
    put(boston, "right", exam.boston->right);
    put(boston, "transverse", exam.boston->transverse);
    put(boston, "left", exam.boston->left);
  }
  put(preparation, "graded", exam.graded);
  if (!preparation.empty()) object["preparation"] = std::move(preparation);
  put(object, "endoscopist", exam.endoscopist);
  put(object, "place", exam.place);
  if (exam.lesions_stated) put_all(object, "lesions", exam.lesions);
  if (!exam.specimens.empty()) put_all(object, "specimens", exam.specimens);
  put_all(object, "complications", exam.complications);
  return object;
}

json of(const Patient& patient) {
  json object = json::object();
  if (!patient.identifiers.empty()) put_all(object, "identifiers", patient.identifiers);
  if (patient.name) object["name"] = of(*patient.name);
  if (patient.contact) object["contact"] = of(*patient.contact);
  if (patient.family_doctor) object["family_doctor"] = of(*patient.family_doctor);
  put(object, "birth_date", patient.birth_date);
  put(object, "sex", patient.sex);
  put_all(object, "conditions", patient.conditions);
  put_all(object, "relatives", patient.relatives);
  put(object, "family_history", patient.family_history);
  put(object, "life_expectancy_under_10_years", patient.life_expectancy_under_10_years);
  if (!patient.needs.empty()) put_all(object, "needs", patient.needs);
  return object;
}

json of(const Setting& setting) {
  json object = json::object();
  put(object, "nation", setting.nation);
  put(object, "screening_from_age", setting.screening_from_age);
  put(object, "organised_screening", setting.organised_screening);
  put(object, "adenoma_detection_adequate", setting.adenoma_detection_adequate);
  return object;
}

}  // namespace

std::string json_of(const Record& record) {
  json object = {{"patient", of(record.patient)}, {"exam", of(record.exam)}, {"setting", of(record.setting)}};
  put_all(object, "previous", record.previous);
  return object.dump();
}

}  // namespace engine
