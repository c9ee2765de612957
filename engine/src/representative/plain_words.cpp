// A representative record in plain words: what there is, and in what it is not ordinary.

#include <string>
#include <vector>

#include "engine/representative.h"
#include "record/terms.h"
#include "representative/ordinary.h"

namespace engine {

namespace {

std::string length_of(Millimetres size) {
  const std::string whole = std::to_string(size.tenths / 10);
  return size.tenths % 10 == 0 ? whole : whole + "." + std::to_string(size.tenths % 10);
}

std::string plural(const std::string& noun, int number) {
  return number == 1 ? noun : noun + "s";
}

std::string kind_of(const Lesion& lesion) {
  const int number = lesion.number.value;
  if (!lesion.histology) return plural("polyp", number);
  std::string words = plural(std::string(term_of(lesion.histology->type.value)), number);
  const LesionType type = lesion.histology->type.value;
  const Dysplasia grade = lesion.histology->dysplasia.value;
  const bool is_cancer = type == LesionType::adenocarcinoma;
  const bool is_adenoma = type <= LesionType::villous_adenoma;
  if (is_cancer || (is_adenoma && grade == Dysplasia::low_grade) || grade == Dysplasia::none) return words;
  return words + " with " + (grade == Dysplasia::low_grade ? "low-grade" : "high-grade") + " dysplasia";
}

std::string words_of(const Lesion& lesion) {
  std::string words = std::to_string(lesion.number.value) + " " + kind_of(lesion) + " of " +
                      length_of(lesion.size.value) + " mm in the " + std::string(term_of(lesion.site.value));
  if (lesion.paris.value != Paris::is) words += ", " + std::string(term_of(lesion.paris.value));
  if (lesion.removal.value != Removal::en_bloc) words += ", " + std::string(term_of(lesion.removal.value));
  if (lesion.retrieved.is_known() && !lesion.retrieved.value && lesion.removal.value != Removal::not_removed)
    words += ", not retrieved";
  const bool cut_out = lesion.removal.value == Removal::en_bloc || lesion.removal.value == Removal::piecemeal;
  if (cut_out && lesion.histology && lesion.histology->margin.value != Margin::clear)
    words += ", margin " + std::string(term_of(lesion.histology->margin.value));
  return words;
}

std::string words_of(const std::vector<Lesion>& lesions) {
  if (lesions.empty()) return "no polyps";
  std::string words;
  for (const Lesion& lesion : lesions) words += (words.empty() ? "" : " + ") + words_of(lesion);
  return words;
}

int completed_years(const Date& from, const Date& to) {
  const bool had_birthday = to.month > from.month || (to.month == from.month && to.day >= from.day);
  return to.year - from.year - (had_birthday ? 0 : 1);
}

std::string time_before(const Date& earlier, const Date& later) {
  const int months = (later.year - earlier.year) * 12 + later.month - earlier.month;
  const int number = months % 12 == 0 ? months / 12 : months;
  return std::to_string(number) + " " + plural(months % 12 == 0 ? "year" : "month", number) + " before";
}

class Plain {
 public:
  explicit Plain(const Record& record) : record_(record), words_(words_of(record.exam.lesions)) {}

  std::string words() {
    examination();
    patient();
    setting();
    for (const Examination& earlier : *record_.previous)
      add(time_before(earlier.date, record_.exam.date) + ": " + words_of(earlier.lesions));
    return words_;
  }

 private:
  void add(const std::string& part) { words_ += "; " + part; }

  void examination() {
    const Examination& exam = record_.exam;
    if (exam.procedure.value != Procedure::colonoscopy) add(std::string(term_of(exam.procedure.value)));
    if (exam.reached.value != Segment::caecum) add("reached the " + std::string(term_of(exam.reached.value)));
    if (exam.graded.is_known()) add("preparation " + std::string(term_of(exam.graded.value)));
    if (exam.boston) {
      const Boston& boston = *exam.boston;
      if (boston.right.value != 3 || boston.transverse.value != 3 || boston.left.value != 3) {
        add("Boston score " + std::to_string(boston.right.value) + "-" +
            std::to_string(boston.transverse.value) + "-" + std::to_string(boston.left.value));
      }
    }
    if (exam.cleared.is_known() && !exam.cleared.value) add("colon not cleared of polyps");
    const bool is_plain = exam.indication.value == Indication::symptoms ||
                          (exam.indication.value == Indication::surveillance && !record_.previous->empty());
    if (!is_plain) add("indication " + std::string(term_of(exam.indication.value)));
  }

  void patient() {
    const Patient& patient = record_.patient;
    const int age = completed_years(patient.birth_date.value_or(Date{}), record_.exam.date);
    if (age != ordinary_age) add("aged " + std::to_string(age));
    if (*patient.life_expectancy_under_10_years) add("life expectancy under 10 years");
    if (*patient.family_history != FamilyHistory::none)
      add("family history " + std::string(term_of(*patient.family_history)));
    for (const Relative& relative : *patient.relatives)
      add("first-degree relative with " + relative.cancer + " cancer at " +
          std::to_string(relative.age.value_or(0)));
    for (const Condition& condition : *patient.conditions) add(words_of_condition(condition));
  }

  static std::string words_of_condition(const Condition& condition) {
    std::string words(term_of(condition.name));
    if (condition.gene) words += " (" + *condition.gene + ")";
    if (condition.resection_date) words += " on " + text_of(*condition.resection_date);
    if (condition.extent) words += ", " + std::string(term_of(*condition.extent));
    if (condition.activity) words += ", activity " + std::string(term_of(*condition.activity));
    if (condition.post_inflammatory_polyps.value_or(false)) words += ", post-inflammatory polyps";
    if (condition.stricture.value_or(false)) words += ", stricture";
    if (condition.dysplasia_within_5_years.value_or(false)) words += ", dysplasia within 5 years";
    return words;
  }

  void setting() {
    const Setting& setting = record_.setting;
    if (*setting.nation != "England") add("in " + *setting.nation);
    if (!*setting.organised_screening) add("no organised screening");
    if (!*setting.adenoma_detection_adequate) add("adenoma detection not adequate");
  }

  const Record& record_;
  std::string words_;
};

}  // namespace

std::string in_plain_words(const Record& record) {
  return Plain(record).words();
}

}  // namespace engine
