// What follows from a record without any guideline: whether the laboratory still owes an answer, and the
// findings in a line. No grading here: what counts as advanced or high risk is the ruleset's to say.

#include <algorithm>
#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/record.h"
#include "record/terms.h"

namespace engine {

std::string_view text_of(Segment segment) {
  return term_of(segment);
}

std::string_view text_of(ComplicationKind kind) {
  return term_of(kind);
}

std::string_view text_of(ComplicationSeverity severity) {
  return term_of(severity);
}

bool Lesion::awaits_histology() const {
  if (histology) return false;
  const bool lost = retrieved.is_known() && !retrieved.value;
  const bool nothing_cut = removal.is_known() && removal.value == Removal::not_removed;
  return !lost && !nothing_cut;
}

bool Examination::awaits_histology() const {
  return std::any_of(lesions.begin(), lesions.end(),
                     [](const Lesion& lesion) { return lesion.awaits_histology(); });
}

namespace {

/// How many polyps: bounds, since an entry may stand for several of them.
struct Count {
  std::int64_t least = 0, most = 0;

  void add(const Fact<std::int32_t>& number) {
    least += number.value;
    most += number.most;
  }
  bool is_one() const { return most == 1; }
};

std::string text_of(Count count) {
  if (count.least == count.most) return std::to_string(count.least);
  return std::to_string(count.least) + " to " + std::to_string(count.most);
}

std::string text_of(Millimetres length) {
  std::string out = std::to_string(length.tenths / 10);
  if (length.tenths % 10 != 0) out.append(".").append(std::to_string(length.tenths % 10));
  return out;
}

/// What lists call a lesion type. `common practice`: several types share a word.
struct Kind {
  std::string_view one, several;
};
constexpr Kind cancer{"cancer", "cancers"};
constexpr Kind adenoma{"adenoma", "adenomas"};
constexpr Kind serrated{"serrated", "serrated"};
constexpr Kind hyperplastic{"hyperplastic", "hyperplastic"};
constexpr Kind other{"other", "other"};
constexpr std::array kinds_in_order{&cancer, &adenoma, &serrated, &hyperplastic, &other};

const Kind* kind_of(LesionType type) {
  switch (type) {
    case LesionType::adenocarcinoma:
      return &cancer;
    case LesionType::tubular_adenoma:
    case LesionType::tubulovillous_adenoma:
    case LesionType::villous_adenoma:
      return &adenoma;
    case LesionType::sessile_serrated_lesion:
    case LesionType::traditional_serrated_adenoma:
    case LesionType::unclassified_serrated_polyp:
      return &serrated;
    case LesionType::hyperplastic_polyp:
      return &hyperplastic;
    case LesionType::inflammatory_polyp:
    case LesionType::hamartoma:
    case LesionType::normal_mucosa:
      return &other;
  }
  return &other;
}

std::string counted(Count count, const Kind& kind) {
  return text_of(count) + " " + std::string(count.is_one() ? kind.one : kind.several);
}

void add_part(std::string& line, std::string_view joint, const std::string& part) {
  if (!line.empty()) line += joint;
  line += part;
}

/// `largest 12 mm (sigmoid colon)`; `largest stated` when the size of another is missing.
std::string largest(const std::vector<Lesion>& lesions) {
  const Lesion* found = nullptr;
  bool all_stated = true;
  for (const Lesion& lesion : lesions) {
    if (lesion.size.state == Fact<Millimetres>::State::not_stated) {
      all_stated = false;
    } else if (found == nullptr || lesion.size.most > found->size.most) {
      found = &lesion;
    }
  }
  if (found == nullptr) return "size not stated";
  std::string out = all_stated ? "largest " : "largest stated ";
  out += text_of(found->size.value);
  if (found->size.most != found->size.value) out += " to " + text_of(found->size.most);
  out += " mm";
  if (found->site.is_known()) out.append(" (").append(term_of(found->site.value)).append(")");
  return out;
}

/// `3 adenomas, 1 serrated, 1 of doubtful type`.
std::string types(const std::vector<Lesion>& lesions) {
  std::string out;
  for (const Kind* kind : kinds_in_order) {
    Count count;
    for (const Lesion& lesion : lesions) {
      if (lesion.histology && lesion.histology->type.is_known() &&
          kind_of(lesion.histology->type.value) == kind) {
        count.add(lesion.number);
      }
    }
    if (count.most > 0) add_part(out, ", ", counted(count, *kind));
  }
  Count doubtful;
  for (const Lesion& lesion : lesions) {
    if (lesion.histology && !lesion.histology->type.is_known()) doubtful.add(lesion.number);
  }
  if (doubtful.most > 0) add_part(out, ", ", text_of(doubtful) + " of doubtful type");
  return out;
}

/// `1 awaiting histology, 1 without histology`: the second will never have one.
std::string without_histology(const std::vector<Lesion>& lesions) {
  Count awaited, lost;
  for (const Lesion& lesion : lesions) {
    if (!lesion.histology) (lesion.awaits_histology() ? awaited : lost).add(lesion.number);
  }
  std::string out;
  if (awaited.most > 0) add_part(out, ", ", text_of(awaited) + " awaiting histology");
  if (lost.most > 0) add_part(out, ", ", text_of(lost) + " without histology");
  return out;
}

}  // namespace

std::string findings_line(const Examination& exam) {
  if (!exam.lesions_stated) return "findings not stated";
  if (exam.lesions.empty()) return "no polyps";
  Count polyps;
  for (const Lesion& lesion : exam.lesions) polyps.add(lesion.number);
  std::string line = counted(polyps, {"polyp", "polyps"});
  add_part(line, ", ", largest(exam.lesions));
  for (const std::string& part : {types(exam.lesions), without_histology(exam.lesions)}) {
    if (!part.empty()) add_part(line, "; ", part);
  }
  return line;
}

}  // namespace engine
