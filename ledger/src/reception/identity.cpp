#include "reception/identity.h"

#include <algorithm>

#include "database/people.h"
#include "json_fields.h"
#include "places.h"

namespace ledger {

using engine::Error;
using engine::Errors;
using engine::Result;
using nlohmann::json;

namespace {

constexpr const char* one_per_person = "nhs-number";

Error conflict(std::string message, std::string path, const std::string& source) {
  return {"identity_conflict", std::move(message), at_path(std::move(path), source),
          "find out whose examination it is, correct the record or the person, and send it again"};
}

std::string path_of(std::size_t index) {
  return "patient.identifiers[" + std::to_string(index) + "]";
}

std::string named(const engine::Identifier& identifier) {
  return "`" + identifier.system + " " + identifier.value + "`";
}

/// What speaks against `person` being the patient of the record.
Errors contradictions(Transaction& transaction, const std::string& person, const engine::Patient& patient,
                      const std::string& source) {
  Errors errors;
  const json known = description_of(transaction, person);
  const std::string birth_date = text_at(known, "birth_date");
  if (patient.birth_date && !birth_date.empty() && engine::text_of(*patient.birth_date) != birth_date) {
    errors.push_back(conflict("the identifiers are those of " + person + ", born `" + birth_date +
                                  "`; the record has `" + engine::text_of(*patient.birth_date) + "`",
                              "patient.birth_date", source));
  }
  for (std::size_t i = 0; i < patient.identifiers.size(); ++i) {
    const engine::Identifier& given = patient.identifiers[i];
    if (given.system != one_per_person) continue;
    if (person_with(transaction, given.system, given.value) == person)
      continue;  // of a number merged into it
    for (const json& other : known.at("identifiers")) {
      if (text_at(other, "system") != one_per_person) continue;
      if (text_at(other, "value") == without_spaces(given.value)) continue;
      errors.push_back(conflict("the identifiers are those of " + person + ", whose NHS number is `" +
                                    text_at(other, "value") + "`; the record has `" + given.value + "`",
                                path_of(i), source));
    }
  }
  return errors;
}

}  // namespace

Result<std::optional<std::string>> identify(Transaction& transaction, const engine::Patient& patient,
                                            const std::string& source) {
  std::optional<std::string> person;
  for (std::size_t i = 0; i < patient.identifiers.size(); ++i) {
    const engine::Identifier& identifier = patient.identifiers[i];
    const auto holder = person_with(transaction, identifier.system, identifier.value);
    if (!holder) continue;
    if (person && *person != *holder) {
      return conflict(
          "the identifiers point to two people: " + *person + ", and " + *holder + " by " + named(identifier),
          path_of(i), source);
    }
    person = holder;
  }
  if (!person) return std::optional<std::string>();
  Errors errors = contradictions(transaction, *person, patient, source);
  if (!errors.empty()) return errors;
  return person;
}

std::string number_of(Transaction& transaction, const engine::Patient& patient, const std::string& person) {
  for (const engine::Identifier& identifier : patient.identifiers) {
    const auto number = number_with(transaction, identifier.system, identifier.value);
    if (number == person) return person;
  }
  for (const engine::Identifier& identifier : patient.identifiers) {
    if (const auto number = number_with(transaction, identifier.system, identifier.value)) return *number;
  }
  return person;
}

namespace {

json identifiers_of(const json& known, const json& patient) {
  json identifiers = known.is_object() ? known.at("identifiers") : json::array();
  for (const json& given : patient.at("identifiers")) {
    const json identifier = {{"system", text_at(given, "system")},
                             {"value", without_spaces(text_at(given, "value"))}};
    if (std::find(identifiers.begin(), identifiers.end(), identifier) == identifiers.end()) {
      identifiers.push_back(identifier);
    }
  }
  return identifiers;
}

bool says_something(const json& patient, const char* key) {
  const auto found = patient.find(key);
  return found != patient.end() && !found->is_null() && *found != "unknown";
}

/// What is known under `key`, by the latest record that says something about it.
json known_after(const char* key, const json& known, const json& patient, bool is_latest) {
  const bool has_known = says_something(known, key);
  if (says_something(patient, key) && (is_latest || !has_known)) return patient.at(key);
  return has_known ? known.at(key) : json();
}

/// Telephone, email and address are told apart: one that is left out stays as it was.
json contact_after(const json& known, const json& patient, bool is_latest) {
  const json before = known.value("contact", json::object());
  const json told = says_something(patient, "contact") ? patient.at("contact") : json::object();
  json contact = json::object();
  for (const char* key : {"telephone", "email", "address"}) {
    json value = known_after(key, before, told, is_latest);
    if (!value.is_null()) contact[key] = std::move(value);
  }
  return contact;
}

}  // namespace

json describe(const std::string& person, const json& known, const json& patient, bool is_latest) {
  json body = {{"person", person}, {"identifiers", identifiers_of(known, patient)}};
  for (const char* key : {"name", "birth_date", "sex", "needs"})
    body[key] = known_after(key, known, patient, is_latest);
  // Only where they were told: people described before there were such keys are not amended for it.
  const json contact = contact_after(known.is_object() ? known : json::object(), patient, is_latest);
  if (!contact.empty()) body["contact"] = contact;
  const json doctor = known_after("family_doctor", known, patient, is_latest);
  if (!doctor.is_null()) body["family_doctor"] = doctor;
  return body;
}

}  // namespace ledger
