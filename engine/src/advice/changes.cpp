// What would change a settled answer: one fact after another is opened around what the record states, and the
// outcomes that are then possible are told. The search parts them where the rules do, so a limit is found
// where it lies and no list of special cases is kept.

#include <algorithm>
#include <functional>
#include <string>
#include <vector>

#include "advice/outcomes.h"
#include "advice/possibility.h"
#include "advice/workspace.h"
#include "engine/advice.h"

namespace engine {

namespace {

constexpr std::int32_t size_reach = 50;   // tenths of a millimetre: what two observers may differ by
constexpr std::int32_t number_reach = 4;  // polyps more
constexpr std::uint32_t runs_each = 400;
constexpr std::size_t most_lesions = 12;

template <class T>
void open(Fact<T>& fact) {
  fact = {};
}

void widen(Fact<Millimetres>& size) {
  const std::int32_t tenths = size.value.tenths;
  size.state = Fact<Millimetres>::State::bounded;
  size.value = {std::max(1, tenths - size_reach)};
  size.most = {std::min(3000, tenths + size_reach)};
}

void widen(Fact<std::int32_t>& number) {
  number.state = Fact<std::int32_t>::State::bounded;
  number.most = number.value + number_reach;
  number.value = std::max(1, number.value - 1);
}

bool is_removed(const Lesion& lesion) {
  return lesion.removal.is_known() &&
         (lesion.removal.value == Removal::en_bloc || lesion.removal.value == Removal::piecemeal);
}

/// Everything but the names of the two.
bool alike(const Lesion& a, const Lesion& b) {
  const auto same = [](const auto& x, const auto& y) { return x.state == y.state && x.value == y.value; };
  if (!same(a.number, b.number) || !same(a.size, b.size) || !same(a.site, b.site) ||
      !same(a.removal, b.removal))
    return false;
  if (a.histology.has_value() != b.histology.has_value()) return false;
  return !a.histology || (same(a.histology->type, b.histology->type) &&
                          same(a.histology->dysplasia, b.histology->dysplasia) &&
                          same(a.histology->margin, b.histology->margin));
}

Lesion small_adenoma() {
  Lesion lesion;
  lesion.id = "one more";
  lesion.site = Fact<Segment>::known(Segment::sigmoid_colon);
  lesion.size = Fact<Millimetres>::known(3_mm);
  lesion.paris = Fact<Paris>::known(Paris::is);
  lesion.removal = Fact<Removal>::known(Removal::en_bloc);
  lesion.retrieved = Fact<bool>::known(true);
  lesion.histology.emplace();
  lesion.histology->type = Fact<LesionType>::known(LesionType::tubular_adenoma);
  lesion.histology->dysplasia = Fact<Dysplasia>::known(Dysplasia::low_grade);
  lesion.histology->margin = Fact<Margin>::known(Margin::clear);
  return lesion;
}

class Changes {
 public:
  /// `ask` advises on a changed record and lists the outcomes; `said` goes before each way.
  using Ask = std::function<void(const Record&, const std::string& said)>;
  Changes(const Record& record, const Ask& ask) : record_(record), ask_(ask) {}

  void try_all() {
    const std::vector<Lesion>& lesions = record_.exam.lesions;
    for (std::size_t i = 0; i < std::min(lesions.size(), most_lesions); ++i) {
      const bool told = std::any_of(lesions.begin(), lesions.begin() + static_cast<std::ptrdiff_t>(i),
                                    [&](const Lesion& other) { return alike(other, lesions[i]); });
      if (!told) lesion(i);
    }
    for (std::int32_t more = 1; more <= number_reach; ++more) one_more(more);
  }

 private:
  void lesion(std::size_t i) {
    const Lesion& stated = record_.exam.lesions[i];
    const auto here = [i](Record& r) -> Lesion& { return r.exam.lesions[i]; };
    if (stated.histology) {
      if (stated.histology->size.is_known() && stated.size.is_known()) {
        changed([&](Record& r) { here(r).size = stated.histology->size; },
                "the size by pathology counted instead of that by endoscopy, for lesion " +
                    std::to_string(i + 1));
      }
      if (stated.histology->dysplasia.is_known())
        changed([&](Record& r) { open(here(r).histology->dysplasia); });
      if (stated.histology->margin.is_known()) changed([&](Record& r) { open(here(r).histology->margin); });
    }
    if (stated.size.is_known()) changed([&](Record& r) { widen(here(r).size); });
    if (stated.number.is_known()) changed([&](Record& r) { widen(here(r).number); });
    if (is_removed(stated)) {
      changed([&](Record& r) {
        here(r).removal = {Fact<Removal>::State::bounded, {}, {}, {Removal::en_bloc, Removal::piecemeal}};
      });
    }
    if (stated.histology && stated.histology->type.is_known()) {
      changed([&](Record& r) {
        open(here(r).histology->type);
        open(here(r).histology->dysplasia);
      });
    }
  }

  void one_more(std::int32_t count) {
    changed(
        [&](Record& r) {
          Lesion more = small_adenoma();
          more.number = Fact<std::int32_t>::known(count);
          r.exam.lesions.push_back(std::move(more));
        },
        count == 1 ? "one more adenoma of 3 mm" : std::to_string(count) + " more adenomas of 3 mm");
  }

  template <class Change>
  void changed(Change&& change, const std::string& said = {}) {
    Record record = record_;
    change(record);
    ask_(record, said);
  }

  const Record& record_;
  const Ask& ask_;
};

}  // namespace

void Adviser::add_changes(Advice& advice, const Record& record, const Date& today) {
  if (advice.state != AdviceState::settled) return;
  Workspace& w = *workspace_;
  const auto tell = [&](Possibility change) {
    for (Possibility& told : advice.changes) {
      if (told.action != change.action || told.due != change.due || told.rule != change.rule) continue;
      for (std::string& way : change.when) {
        if (std::find(told.when.begin(), told.when.end(), way) == told.when.end())
          told.when.push_back(std::move(way));
      }
      return;
    }
    advice.changes.push_back(std::move(change));
  };
  const Changes::Ask ask = [&](const Record& changed, const std::string& said) {
    w.hand_over(changed, today);
    if (w.evaluation.has_error()) return;
    Consultation consultation(
        *w.ruleset, w.row_ids, w.evaluation, w.bound,
        open_variables(w.bound.facts, numeric_literals(*w.ruleset->model), changed, w.evaluation.arena()));
    const Outcomes outcomes = find_outcomes(consultation, changed.exam.date, runs_each);
    if (!consultation.errors().empty() || outcomes.search.exhausted || outcomes.has_unknown()) return;
    for (std::uint32_t i = 0; i < outcomes.all.size(); ++i) {
      const NextStep& step = outcomes.all[i].step;
      if (step.action == advice.action && step.interval == advice.interval && step.due == advice.due)
        continue;
      Possibility other = possibility(outcomes, i, consultation);
      if (!said.empty()) other.when = {said};
      tell(std::move(other));
    }
  };
  Changes(record, ask).try_all();
}

}  // namespace engine
