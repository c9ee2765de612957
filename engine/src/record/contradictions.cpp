// What is refused here is impossible, not merely unusual. Read as possible, on purpose:
// - a resection after the examination, whatever its indication: the examination may have found the cancer, or
// have
//   cleared the rest of the bowel before the operation, and the record been completed later.
// - endoscopist and pathologist giving different sizes; a polyp removed en bloc and lost; two examinations on
// one day;
//   two conditions of the same name (a second cancer).

#include "record/contradictions.h"

#include <algorithm>
#include <cstdint>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <vector>

#include "record/path.h"
#include "record/terms.h"

namespace engine {

namespace {

constexpr std::int64_t oldest_age = 120;

bool was_read(const Date& date) {
  return date.year != 0;
}

template <class T>
bool is(const Fact<T>& fact, T value) {
  return fact.is_known() && fact.value == value;
}

std::string fact(std::string_view name, std::string_view value) {
  return "`" + std::string(name) + "` " + quoted(value);
}

class Check {
 public:
  Check(const Record& record, Faults& faults) : record_(record), faults_(faults) {}

  void record() {
    const Path root;
    const Path exam = root.member("exam"), previous = root.member("previous"),
               patient = root.member("patient");
    examination(record_.exam, exam);
    identifiers(patient.member("identifiers"));
    conditions(patient.member("conditions"));
    if (!record_.previous) return;
    for (std::size_t i = 0; i < record_.previous->size(); ++i) {
      const Path item = previous.item(i);
      examination((*record_.previous)[i], item);
      order_of_previous(i, item);
    }
  }

 private:
  void contradiction(const Path& path, std::string message) {
    faults_.add("contradiction", path, std::move(message));
  }

  // --- dates ---

  void order_of_previous(std::size_t index, const Path& path) {
    const Date date = (*record_.previous)[index].date;
    if (!was_read(date)) return;
    if (was_read(record_.exam.date) && date > record_.exam.date) {
      contradiction(path.member("date"), "the earlier examination of " + quoted(text_of(date)) +
                                             " is later than " +
                                             fact("exam.date", text_of(record_.exam.date)));
    }
    if (index == 0) return;
    const Date before = (*record_.previous)[index - 1].date;
    if (was_read(before) && date < before) {
      contradiction(path.member("date"), "the examination of " + quoted(text_of(date)) +
                                             " stands after that of " + quoted(text_of(before)) +
                                             ", expected the oldest first");
    }
  }

  void age_at(const Date& date, const Path& path) {
    if (!record_.patient.birth_date || !was_read(date)) return;
    const Date birth = *record_.patient.birth_date;
    const bool too_old = months_between(birth, date).count >= (oldest_age + 1) * 12;
    if (birth <= date && !too_old) return;
    const std::string when =
        too_old ? "more than " + std::to_string(oldest_age) + " years after " : "before ";
    contradiction(path, "the examination of " + quoted(text_of(date)) + " is " + when +
                            fact("patient.birth_date", text_of(birth)));
  }

  void conditions(const Path& path) {
    if (!record_.patient.conditions) return;
    for (std::size_t i = 0; i < record_.patient.conditions->size(); ++i) {
      const Path item = path.item(i);
      condition((*record_.patient.conditions)[i], item);
    }
  }

  void condition(const Condition& condition, const Path& path) {
    if (condition.resection_date) {
      const std::string date = text_of(*condition.resection_date);
      before_birth(fact("resection_date", date), date, path.member("resection_date"));
    }
    if (!condition.onset) return;
    before_birth(fact("onset", *condition.onset), *condition.onset, path.member("onset"));
    // A year or month is later when even its first day is: ISO dates compare as text.
    if (was_read(record_.exam.date) && *condition.onset > text_of(record_.exam.date)) {
      contradiction(path.member("onset"), fact("onset", *condition.onset) + " is after " +
                                              fact("exam.date", text_of(record_.exam.date)));
    }
  }

  // `date` may be a year or a month: it is before birth when the same part of the birth date is later.
  void before_birth(const std::string& what, std::string_view date, const Path& path) {
    if (!record_.patient.birth_date) return;
    const std::string birth = text_of(*record_.patient.birth_date);
    if (date < std::string_view(birth).substr(0, date.size())) {
      contradiction(path, what + " is before " + fact("patient.birth_date", birth));
    }
  }

  // --- identifiers ---

  void identifiers(const Path& path) {
    const Identifier* first = nullptr;
    for (std::size_t i = 0; i < record_.patient.identifiers.size(); ++i) {
      const Identifier& identifier = record_.patient.identifiers[i];
      if (identifier.system != "nhs-number" || identifier.value.empty()) continue;
      const Path item = path.item(i);
      if (!is_nhs_number(identifier.value)) {
        faults_.add(
            "bad_nhs_number", item.member("value"),
            quoted(identifier.value) + " is no NHS number, expected ten digits with the right check digit",
            "compare it with the source; a digit is wrong, missing or swapped");
      } else if (first == nullptr) {
        first = &identifier;
      } else if (digits_of(first->value) != digits_of(identifier.value)) {
        contradiction(item.member("value"), "the NHS number " + quoted(identifier.value) + " stands beside " +
                                                quoted(first->value) + ": a person has one");
      }
    }
  }

  static std::string digits_of(std::string_view number) {
    std::string digits;
    for (const char c : number) {
      if (c >= '0' && c <= '9') digits += c;
    }
    return digits;
  }

  // --- one examination ---

  void examination(const Examination& exam, const Path& path) {
    age_at(exam.date, path.member("date"));
    const Path lesions = path.member("lesions"), specimens = path.member("specimens");
    const Ids lesion_ids = sorted_ids(exam.lesions), specimen_ids = sorted_ids(exam.specimens);
    each_id_once(lesion_ids, "lesion", lesions);
    each_id_once(specimen_ids, "specimen", specimens);
    for (std::size_t i = 0; i < exam.specimens.size(); ++i) {
      const Path item = specimens.item(i);
      specimen(exam, exam.specimens[i], item);
    }
    complications(exam, path.member("complications"));
    for (std::size_t i = 0; i < exam.lesions.size(); ++i) {
      const Path item = lesions.item(i);
      lesion(exam, exam.lesions[i], item);
      known_specimen(exam.lesions[i].specimen, specimen_ids, item);
    }
  }

  using Ids = std::vector<std::pair<std::string_view, std::size_t>>;  // id and index

  template <class Item>
  static Ids sorted_ids(const std::vector<Item>& items) {
    Ids ids;
    ids.reserve(items.size());
    for (std::size_t i = 0; i < items.size(); ++i) {
      if (!items[i].id.empty()) ids.emplace_back(items[i].id, i);
    }
    std::sort(ids.begin(), ids.end());
    return ids;
  }

  void each_id_once(const Ids& ids, std::string_view what, const Path& path) {
    for (std::size_t i = 1; i < ids.size(); ++i) {
      if (ids[i].first != ids[i - 1].first) continue;
      const Path item = path.item(ids[i].second);
      contradiction(item.member("id"), "two entries are called " + std::string(what) + " " +
                                           quoted(ids[i].first) + ", expected each id once");
    }
  }

  void known_specimen(std::string_view id, const Ids& specimens, const Path& path) {
    if (id.empty() || specimens.empty()) return;
    const auto at = std::lower_bound(specimens.begin(), specimens.end(), std::pair(id, std::size_t{0}));
    if (at != specimens.end() && at->first == id) return;
    contradiction(path.member("specimen"),
                  fact("specimen", id) + " is not among the examination's `specimens`");
  }

  void specimen(const Examination& exam, const Specimen& specimen, const Path& path) {
    if (!specimen.sent || !was_read(exam.date) || *specimen.sent >= exam.date) return;
    contradiction(path.member("sent"), fact("sent", text_of(*specimen.sent)) +
                                           " is before the examination's " +
                                           fact("date", text_of(exam.date)));
  }

  void complications(const Examination& exam, const Path& path) {
    if (!exam.complications) return;
    for (std::size_t i = 0; i < exam.complications->size(); ++i) {
      const Path item = path.item(i);
      complication(exam, (*exam.complications)[i], item);
    }
  }

  void complication(const Examination& exam, const Complication& complication, const Path& path) {
    if (complication.on && was_read(exam.date) && *complication.on < exam.date) {
      contradiction(path.member("on"), "the complication of " + quoted(text_of(*complication.on)) +
                                           " is before the examination's " +
                                           fact("date", text_of(exam.date)));
    }
    if (complication.kind == ComplicationKind::post_polypectomy_syndrome && nothing_removed(exam)) {
      contradiction(path.member("kind"),
                    fact("kind", term_of(complication.kind)) + " is given, but no lesion was removed");
    }
  }

  static bool nothing_removed(const Examination& exam) {
    return exam.lesions_stated &&
           std::all_of(exam.lesions.begin(), exam.lesions.end(),
                       [](const Lesion& lesion) { return is(lesion.removal, Removal::not_removed); });
  }

  void lesion(const Examination& exam, const Lesion& lesion, const Path& path) {
    const bool has_histology = lesion.histology && states_something(*lesion.histology);
    if (is(lesion.retrieved, false) && has_histology) {
      contradiction(path.member("histology"), "a `histology` is given, but " + fact("retrieved", "false") +
                                                  ": what was not retrieved has none");
    }
    if (!is(lesion.removal, Removal::not_removed)) return;
    const std::string not_removed = fact("removal", "not removed");
    if (is(lesion.retrieved, true)) {
      contradiction(path.member("retrieved"), fact("retrieved", "true") + " is given, but " + not_removed);
    }
    if (has_histology) {
      contradiction(path.member("histology"), "a `histology` is given, but " + not_removed);
    }
    if (is(exam.cleared, true) && !is_left_on_purpose(lesion)) {
      contradiction(path.member("removal"),
                    not_removed + " is given, but the examination says " + fact("cleared", "true"));
    }
  }

  // Polyps of 5 mm or less are left in place by a judgement of the endoscopist (common practice: small
  // hyperplastic polyps of the rectum, small polyps in polyposis); the bowel may then still be called
  // cleared.
  static bool is_left_on_purpose(const Lesion& lesion) {
    return lesion.size.is_known() && lesion.size.value <= 5_mm;
  }

  static bool states_something(const Histology& histology) {
    const auto stated = [](const auto& part) {
      return part.state != std::remove_cvref_t<decltype(part)>::State::not_stated;
    };
    return stated(histology.type) || stated(histology.dysplasia) || stated(histology.margin) ||
           stated(histology.size);
  }

  const Record& record_;
  Faults& faults_;
};

}  // namespace

void find_contradictions(const Record& record, Faults& faults) {
  Check(record, faults).record();
}

}  // namespace engine
