#include <algorithm>

#include "engine/differential/hand_written_advice.h"
#include "engine/differential/hand_written_uk_2020/answer.h"
#include "engine/differential/hand_written_uk_2020/common_advice.h"
#include "engine/differential/hand_written_uk_2020/open_histology.h"

namespace testing {

namespace {

using namespace by_hand;

// --- which records ----------------------------------------------------------------------------------------

bool is_known(const Lesion& lesion) {
  const std::optional<Histology>& found = lesion.histology;
  const bool nothing_between =
      !found || (by_hand::is_known(*found) && found->size.state != Fact<Millimetres>::State::bounded);
  return lesion.number.is_known() && lesion.site.is_known() && lesion.size.is_known() &&
         lesion.paris.is_known() && lesion.removal.is_known() && lesion.retrieved.is_known() &&
         nothing_between;
}
bool is_known(const Boston& boston) {
  return boston.right.is_known() && boston.transverse.is_known() && boston.left.is_known();
}
bool is_known(const Examination& exam) {
  return exam.indication.is_known() && exam.procedure.is_known() && exam.reached.is_known() &&
         exam.cleared.state != Fact<bool>::State::bounded &&
         (exam.graded.is_known() || (exam.boston && is_known(*exam.boston))) && exam.lesions_stated &&
         std::all_of(exam.lesions.begin(), exam.lesions.end(), [](const Lesion& l) { return is_known(l); });
}
bool is_known(const Record& record) {
  const auto known = [](const Examination& exam) { return is_known(exam); };
  return record.patient.birth_date && is_known(record.exam) &&
         (!record.previous || std::all_of(record.previous->begin(), record.previous->end(), known));
}

// --- histology that is not known --------------------------------------------------------------------------

/// Lesions whose histology a rule may read: not of what was left in place.
std::vector<Taken> open_histology(const Record& record) {
  std::vector<Taken> open = without_histology(record);
  std::erase_if(open, [](const Taken& taken) { return taken.lesion->removal.value == Removal::not_removed; });
  return open;
}

/// Adds the advice under every histology of `taken` from `next` on; false when they disagree.
bool add_every(const Record& record, std::vector<Taken>& taken, std::size_t next, const Texts& texts,
               CommonAdvice& common) {
  if (next == taken.size()) {
    Advice advice;
    write_answer(record, taken, texts, advice);
    return common.add(std::move(advice));
  }
  for (const Histology& kind : kinds_for_an_answer()) {
    taken[next].histology = &kind;
    if (!add_every(record, taken, next + 1, texts, common)) return false;
  }
  return true;
}

std::optional<Advice> advice_whatever_it_is(const Record& record, std::vector<Taken>& open,
                                            const Texts& texts) {
  CommonAdvice common;
  if (!add_every(record, open, 0, texts, common)) return std::nullopt;
  return common.take(texts);
}

}  // namespace

struct HandWrittenAdviser::Texts : by_hand::Texts {
  using by_hand::Texts::Texts;
};

HandWrittenAdviser::HandWrittenAdviser(const Ruleset& ruleset)
    : texts_(std::make_unique<const Texts>(ruleset)) {}

HandWrittenAdviser::~HandWrittenAdviser() = default;

std::optional<Advice> HandWrittenAdviser::advise(const Record& record, std::string_view id) const {
  if (!is_known(record)) return std::nullopt;
  std::vector<Taken> open = open_histology(record);
  std::optional<Advice> advice;
  if (open.empty()) {
    write_answer(record, open, *texts_, advice.emplace());
  } else {
    advice = advice_whatever_it_is(record, open, *texts_);
    if (!advice) return std::nullopt;
  }
  advice->id = id;
  advice->record_digest = record.digest;
  return advice;
}

}  // namespace testing
