#include "engine/representative.h"

#include <algorithm>

#include "representative/circumstances.h"
#include "representative/lines.h"
#include "representative/ordinary.h"

namespace engine {

namespace {

using Findings = std::vector<Lesion>;

constexpr PolypKind tubular{LesionType::tubular_adenoma, Dysplasia::low_grade};
constexpr PolypKind serrated{LesionType::sessile_serrated_lesion, Dysplasia::none};

std::int64_t unusual(const Lesion& lesion) {
  std::int64_t count =
      static_cast<std::int64_t>(lesion.histology ? lesion.histology->type.value : LesionType{});
  if (lesion.histology && lesion.histology->dysplasia.value == Dysplasia::high_grade) count += 20;
  if (lesion.histology && lesion.histology->margin.value != Margin::clear) count += 40;
  if (lesion.removal.value != Removal::en_bloc) count += 40;
  if (lesion.site.value != Segment::sigmoid_colon) count += 10;
  if (lesion.paris.value != Paris::is) count += 10;
  return count;
}

void add(const std::vector<Lesion>& lesions, Complexity& complexity) {
  for (const Lesion& lesion : lesions) {
    ++complexity.entries;
    complexity.polyps += lesion.number.value;
    complexity.size += lesion.size.value.tenths;
    complexity.unusual += unusual(lesion);
  }
}

class Generator {
 public:
  Generator(const Lines& lines, const std::function<void(const RepresentativeRecord&)>& use)
      : lines_(lines), use_(use) {}

  void everything() {
    one_kind();
    two_kinds();
    removals();
    earlier_examinations();
    circumstances();
    ages();
  }

 private:
  void give(const Record& record, std::int64_t circumstances = 0) {
    Complexity complexity;
    complexity.circumstances = circumstances;
    add(record.exam.lesions, complexity);
    if (record.previous) {
      for (const Examination& earlier : *record.previous) add(earlier.lesions, complexity);
    }
    use_({record, complexity});
  }

  void one_kind() {
    give(ordinary_record({}));
    for (const PolypKind& kind : polyp_kinds()) {
      for (const int size : lines_.sizes) {
        for (const int count : lines_.counts) give(ordinary_record({polyps(count, kind, size)}));
        for (const Segment site : {Segment::caecum, Segment::transverse_colon, Segment::rectum}) {
          for (const int count : {1, 2, 3, 5}) give(ordinary_record({polyps(count, kind, size, site)}));
        }
      }
    }
    for (const PolypKind& kind : {tubular, serrated}) {  // one larger than the others
      for (const int size : lines_.sizes) {
        for (const int count : {1, 2, 3, 4, 9})
          give(ordinary_record({polyps(count, kind, 4), polyps(1, kind, size)}));
      }
    }
  }

  void two_kinds() {
    const auto& kinds = polyp_kinds();
    for (std::size_t i = 0; i < kinds.size(); ++i) {
      for (std::size_t k = i + 1; k < kinds.size(); ++k) {
        for (const int first_size : {6, 12}) {
          for (const int second_size : {6, 12}) {
            for (const int count : {1, 2, 4}) {
              give(ordinary_record({polyps(count, kinds[i], first_size), polyps(1, kinds[k], second_size)}));
              if (count > 1)
                give(
                    ordinary_record({polyps(1, kinds[i], first_size), polyps(count, kinds[k], second_size)}));
            }
          }
        }
      }
    }
  }

  void removals() {
    struct Way {
      Removal removal;
      Margin margin;
    };
    constexpr Way ways[] = {
        {Removal::en_bloc, Margin::clear},          {Removal::en_bloc, Margin::involved},
        {Removal::en_bloc, Margin::not_assessable}, {Removal::piecemeal, Margin::not_assessable},
        {Removal::piecemeal, Margin::involved},     {Removal::biopsy_only, Margin::not_assessable},
        {Removal::not_removed, Margin::clear}};
    const PolypKind several[] = {tubular,
                                 {LesionType::tubular_adenoma, Dysplasia::high_grade},
                                 serrated,
                                 {LesionType::adenocarcinoma, Dysplasia::high_grade}};
    for (const PolypKind& kind : several) {
      for (const int size : lines_.sizes) {
        for (const Way& way : ways) {
          for (const Paris paris : {Paris::is, Paris::ip, Paris::iia}) {
            for (const Segment site : {Segment::sigmoid_colon, Segment::rectum})
              give(ordinary_record({removed(polyps(1, kind, size, site), way.removal, way.margin, paris)}));
          }
        }
      }
    }
    for (const PolypKind& kind : {tubular, serrated}) {
      Lesion lost = polyps(1, kind, 6);
      put(lost.retrieved, false);
      lost.histology.reset();
      give(ordinary_record({lost}));
    }
  }

  static Lesion removed(Lesion lesion, Removal removal, Margin margin, Paris paris) {
    put(lesion.paris, paris);
    put(lesion.removal, removal);
    put(lesion.histology->margin, margin);
    if (removal == Removal::not_removed) {
      put(lesion.retrieved, false);
      lesion.histology.reset();
    }
    return lesion;
  }

  void earlier_examinations() {
    const std::vector<Findings> common = common_findings();
    for (const int years : {1, 3, 5}) {
      for (const Findings& before : common) {
        for (const Findings& now : common) {
          give(after({{years, before}}, now), 1);
          if (years == 3 && before.size() < 2) {
            give(after({{6, before}, {3, {}}}, now), 2);
            give(after({{6, before}, {3, {polyps(1, tubular, 6)}}}, now), 2);
          }
        }
      }
    }
    for (const int size : lines_.sizes) {  // a site check
      Record record = after(
          {{0, {removed(polyps(1, tubular, size), Removal::piecemeal, Margin::not_assessable, Paris::iia)}}},
          {});
      put(record.exam.indication, Indication::site_check);
      give(record, 1);
    }
  }

  struct Earlier {
    int years_before;  ///< 0 stands for four months.
    Findings findings;
  };

  static Record after(const std::vector<Earlier>& earlier, const Findings& now) {
    Record record = ordinary_record(now);
    put(record.exam.indication, Indication::surveillance);
    for (const Earlier& one : earlier) {
      const Months months{one.years_before == 0 ? 4 : 12 * one.years_before};
      const Date day = engine::add(ordinary_day, Months{-months.count}).value_or(ordinary_day);
      record.previous->push_back(ordinary_examination(day, one.findings));
      record.previous->back().id = "E0-" + std::to_string(record.previous->size());
    }
    return record;
  }

  // Each ordinary in all but one respect, with findings that most guidelines tell apart.
  void circumstances() {
    for (const Findings& findings : common_findings()) {
      const Record ordinary = ordinary_record(findings);
      for (const Circumstance& change : engine::circumstances()) {
        Record record = ordinary;
        change(record);
        give(record, 1);
      }
    }
  }

  void ages() {
    for (const Findings& findings : common_findings()) {
      for (const int age : lines_.ages) {
        Record record = ordinary_record(findings);
        make_aged(record, age);
        give(record, 1);
      }
    }
  }

  const Lines& lines_;
  const std::function<void(const RepresentativeRecord&)>& use_;
};

}  // namespace

void each_representative_record(std::span<const Decimal> numbers,
                                const std::function<void(const RepresentativeRecord&)>& use) {
  const Lines lines = lines_of(numbers);
  Generator(lines, use).everything();
}

Date representative_day() {
  return ordinary_day;
}

}  // namespace engine
