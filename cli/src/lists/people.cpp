#include "lists/people.h"

#include <algorithm>

namespace cli {

const std::vector<std::string> person_keys = {"person",      "name",  "birth_date", "sex",
                                              "identifiers", "needs", "status"};
const std::vector<std::string> examination_keys = {"exam", "exam_date", "place", "endoscopist", "findings"};

std::vector<std::string> keys_around(std::vector<std::string> first, const std::vector<std::string>& then) {
  for (const auto& more : {person_keys, examination_keys, then})
    first.insert(first.end(), more.begin(), more.end());
  return first;
}

void add_cells(std::vector<nlohmann::json>& cells, const ledger::PersonLine& person) {
  for (const std::string& text : {person.person, person.name, person.birth_date, person.sex,
                                  person.identifiers, person.needs, person.status}) {
    cells.emplace_back(text);
  }
}

void add_cells(std::vector<nlohmann::json>& cells, const ledger::ExaminationLine& exam) {
  for (const std::string& text : {exam.exam, exam.date, exam.place, exam.endoscopist, exam.findings}) {
    cells.emplace_back(text);
  }
}

std::string who(const ledger::PersonLine& person) {
  std::string text = person.name.empty() ? "(no name) " + person.person : person.name;
  if (!person.birth_date.empty()) text += ", born " + person.birth_date;
  if (!person.status.empty()) text += ", " + person.status;
  return text;
}

std::string how_to_find(const ledger::PersonLine& person) {
  return joined({person.person + (person.sex.empty() ? "" : ", " + person.sex), person.identifiers,
                 person.needs.empty() ? "" : "needs: " + person.needs});
}

std::string what_was_found(const ledger::ExaminationLine& exam) {
  std::string text = exam.exam + " on " + exam.date;
  if (!exam.place.empty()) text += " at " + exam.place;
  if (!exam.endoscopist.empty()) text += " by " + exam.endoscopist;
  return exam.findings.empty() ? text : text + ": " + exam.findings;
}

Lines ways_to_reach(const engine::Contact& contact) {
  Lines lines;
  if (!contact.telephone.empty()) lines.push_back("telephone " + contact.telephone);
  if (!contact.email.empty()) lines.push_back(contact.email);
  if (!contact.address.empty()) lines.push_back(joined(contact.address, ", "));
  if (lines.empty()) lines.emplace_back("no telephone or address on record");
  return lines;
}

std::string who_cares(const engine::FamilyDoctor& doctor) {
  const std::string text = joined({doctor.name, doctor.practice, joined(doctor.address, ", ")}, ", ");
  return text.empty() ? "no family doctor on record" : "family doctor " + text;
}

Lines print_lines(const ledger::PersonLine& person) {
  std::string birth = person.birth_date.empty() ? "" : "born " + person.birth_date;
  if (!person.sex.empty()) birth += (birth.empty() ? "" : ", ") + person.sex;
  return {person.name.empty() ? "(no name)" : person.name, birth, person.identifiers,
          person.person + (person.status.empty() ? "" : ", " + person.status)};
}

Lines print_lines(const ledger::ExaminationLine& exam) {
  return {exam.date + " " + exam.exam,
          exam.place + (exam.endoscopist.empty() ? "" : (exam.place.empty() ? "" : ", ") + exam.endoscopist),
          exam.findings};
}

std::string days(std::int64_t count) {
  return std::to_string(count) + (count == 1 ? " day" : " days");
}

std::string padded(std::string text, std::size_t width) {
  text.resize(std::max(width, text.size()), ' ');
  return text;
}

std::string joined(const std::vector<std::string>& parts, std::string_view joint) {
  std::string text;
  for (const std::string& part : parts) {
    if (part.empty()) continue;
    if (!text.empty()) text += joint;
    text += part;
  }
  return text;
}

}  // namespace cli
