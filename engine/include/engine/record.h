// The examination record: patient, examination, lesions, specimens, earlier examinations, setting.
//
// The contract, with every key and term, is docs/record-format.md. Sizes are millimetres, dates calendar
// days. What was seen and cut has three states (Fact): known, not stated, known within bounds. Not stated is
// never "no". The patient's background (Background) may be left out: it is then taken as none, and the advice
// says so.

#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "engine/calendar.h"
#include "engine/result.h"

namespace engine {

// --- vocabulary: the order of the enumerators is the order of the terms in terms.h
// ------------------------------------

enum class Sex : std::uint8_t { female, male, unknown };
enum class Indication : std::uint8_t {
  screening,
  surveillance,
  symptoms,
  site_check,
  cancer_follow_up,
  bowel_disease_surveillance,
  family_history
};
enum class Procedure : std::uint8_t { colonoscopy, flexible_sigmoidoscopy, ct_colonography };
/// `Segment` serves both "how far was reached" and "where was the lesion".
enum class Segment : std::uint8_t {
  terminal_ileum,
  caecum,
  ascending_colon,
  hepatic_flexure,
  transverse_colon,
  splenic_flexure,
  descending_colon,
  sigmoid_colon,
  rectosigmoid,
  rectum,
  anastomosis
};
enum class Grade : std::uint8_t { excellent, good, fair, poor, adequate, inadequate };
enum class Paris : std::uint8_t { ip, isp, is, iia, iib, iic };
enum class Removal : std::uint8_t { en_bloc, piecemeal, biopsy_only, not_removed };
enum class LesionType : std::uint8_t {
  tubular_adenoma,
  tubulovillous_adenoma,
  villous_adenoma,
  sessile_serrated_lesion,
  traditional_serrated_adenoma,
  hyperplastic_polyp,
  unclassified_serrated_polyp,
  inflammatory_polyp,
  hamartoma,
  normal_mucosa,
  adenocarcinoma
};
enum class Dysplasia : std::uint8_t { none, low_grade, high_grade };
enum class Margin : std::uint8_t { clear, involved, not_assessable };
enum class ConditionName : std::uint8_t {
  lynch_syndrome,
  familial_adenomatous_polyposis,
  mutyh_associated_polyposis,
  serrated_polyposis_syndrome,
  ulcerative_colitis,
  crohns_colitis,
  primary_sclerosing_cholangitis,
  colorectal_cancer_resected
};
enum class FamilyHistory : std::uint8_t { none, moderate, high };
enum class Extent : std::uint8_t { proctitis, left_sided, extensive };
enum class Activity : std::uint8_t { none, mild, moderate, severe };
enum class ComplicationKind : std::uint8_t {
  bleeding,
  perforation,
  post_polypectomy_syndrome,
  cardiorespiratory,
  sedation_related,
  other
};
enum class ComplicationSeverity : std::uint8_t { mild, moderate, severe, fatal };

/// A length in tenths of a millimetre: endoscopists and pathologists give whole or half millimetres.
struct Millimetres {
  std::int32_t tenths = 0;
  friend constexpr auto operator<=>(const Millimetres&, const Millimetres&) = default;
};
constexpr Millimetres operator""_mm(unsigned long long whole) {
  return {static_cast<std::int32_t>(whole * 10)};
}

// --- facts
// -------------------------------------------------------------------------------------------------------------

/// What was seen, cut or read under the microscope.
template <class T>
struct Fact {
  enum class State : std::uint8_t { not_stated, known, bounded };
  State state = State::not_stated;
  T value{};               ///< When known; for a bounded number its least value.
  T most{};                ///< When bounded and T is a number: its greatest value.
  std::vector<T> options;  ///< When bounded and T is a term: what it may be, at least two.

  bool is_known() const { return state == State::known; }
  static Fact known(T v) { return {State::known, v, v, {}}; }
};

/// Left out is "not stated, taken as none or as the ruleset's default".
template <class T>
using Background = std::optional<T>;

struct Identifier {
  std::string system;  ///< `nhs-number`, `hospital-number`, ... as the unit names them.
  std::string value;   ///< As written; NHS numbers are checked (modulus 11) and compared without spaces.
};

struct Condition {
  ConditionName name{};
  std::optional<std::string> gene;   ///< Lynch syndrome: MLH1, MSH2, MSH6, PMS2, EPCAM.
  std::optional<std::string> onset;  ///< `2009`, `2009-05` or a full date.
  std::optional<Date> resection_date;
  std::optional<Extent> extent;
  std::optional<Activity> activity;
  std::optional<bool> post_inflammatory_polyps;
  std::optional<bool> stricture;
  std::optional<bool> dysplasia_within_5_years;
};

struct Relative {
  std::int32_t degree = 1;          ///< 1 to 3.
  std::string cancer;               ///< `colorectal`, ...
  std::optional<std::int32_t> age;  ///< At diagnosis, in years.
};

struct Need {
  std::string flag;  ///< `anticoagulant`, ... docs/record-format.md
  std::optional<Date> since;
  std::optional<std::string> source;
};

struct PersonName {
  std::string family, given, prefix;
};

/// How a person is reached: for lists and letters.
struct Contact {
  std::string telephone, email;
  std::vector<std::string> address;  ///< Line by line, as it stands on an envelope.
};

struct FamilyDoctor {
  std::string name, practice;
  std::vector<std::string> address;
};

struct Patient {
  std::vector<Identifier> identifiers;
  std::optional<PersonName> name;
  std::optional<Contact> contact;
  std::optional<FamilyDoctor> family_doctor;
  std::optional<Date> birth_date;  ///< A doubt when left out: the stop rules test the age.
  Background<Sex> sex;
  Background<std::vector<Condition>> conditions;
  Background<std::vector<Relative>> relatives;
  Background<FamilyHistory> family_history;
  Background<bool> life_expectancy_under_10_years;
  std::vector<Need> needs;
};

struct Histology {
  Fact<LesionType> type;
  Fact<Dysplasia> dysplasia;
  Fact<Margin> margin;
  Fact<Millimetres> size;  ///< As the pathologist measured it. Optional: never asked for.
};

struct Lesion {
  std::string id;
  Fact<std::int32_t> number =
      Fact<std::int32_t>::known(1);  ///< Polyps that this entry stands for. Left out: 1.
  Fact<Segment> site;
  Fact<Millimetres> size;  ///< As the endoscopist measured it.
  Fact<Paris> paris;
  Fact<Removal> removal;
  Fact<bool> retrieved;
  std::string specimen;                ///< Id of the pot; empty when none is named.
  std::optional<Histology> histology;  ///< None: awaited when retrieved, never to be known when not.

  /// Removed at least in part and not said to be lost, and no histology yet.
  bool awaits_histology() const;
};

struct Specimen {
  std::string id;
  std::string accession;
  std::optional<Date> sent;
};

/// Boston bowel preparation score by segment, 0 to 3 each.
struct Boston {
  Fact<std::int32_t> right, transverse, left;
};

/// What went wrong at the examination or because of it.
struct Complication {
  ComplicationKind kind{};
  std::optional<Date> on;  ///< The day it showed: that of the examination, or a later one.
  std::optional<ComplicationSeverity> severity;
};

struct Examination {
  std::string id;      ///< Empty when none is given; the ledger needs one.
  Date date{0, 1, 1};  ///< Always given: the year 0, in which no record lies, stands for "not read yet".
  Fact<Indication> indication;
  Fact<Procedure> procedure;
  Fact<Segment> reached;
  Fact<bool> cleared;  ///< Left out: follows from the lesions' removal.
  std::optional<Boston> boston;
  Fact<Grade> graded;
  std::string endoscopist, place;
  std::vector<Lesion> lesions;
  bool lesions_stated = true;  ///< False when the record leaves `lesions` out: not the same as an empty list.
  std::vector<Specimen> specimens;
  std::optional<std::vector<Complication>> complications;  ///< Not stated is not "none": an empty list is.

  bool awaits_histology() const;
};

struct Setting {
  Background<std::string>
      nation;  ///< `England`, `Scotland`, `Wales`, `Northern Ireland`, or another country's name.
  Background<std::int32_t> screening_from_age;  ///< Years.
  Background<bool> organised_screening;
  Background<bool> adenoma_detection_adequate;
};

struct Record {
  Patient patient;
  Examination exam;
  Background<std::vector<Examination>> previous;  ///< Oldest first.
  Setting setting;
  std::string canonical;  ///< RFC 8785 form of the object with these four keys, as they were given.
  std::string digest;     ///< `sha256:...` of `canonical`.
};

/// Reads one record: the object with `patient`, `exam`, ... or one that holds it under `given`.
///
/// Strict: unknown keys and terms, impossible dates and sizes, and contradictions are refused, all of them in
/// one run, each with its JSON path. `source` names the text in errors. Keeps no reference to `text`.
Result<Record> read_record(std::string_view text, std::string_view source);

/// All that `record` says, as JSON that read_record() reads as the same record.
std::string json_of(const Record& record);

/// The `id` at the top of the text, where the caller's keys stand beside `given`, or empty: echoed in advice,
/// also when the record is refused. A whole number is given as its digits. Never fails.
std::string caller_id(std::string_view text);

/// Replaces parts of a record by keys as `--setting` gives them: `nation=Scotland`, `screening_from_age=50`.
Result<Done> apply_setting(Record& record, std::string_view assignment);

/// The term as it stands in a record: `sigmoid colon`. Static storage.
std::string_view text_of(Segment segment);
std::string_view text_of(ComplicationKind kind);
std::string_view text_of(ComplicationSeverity severity);

/// Findings in a line, for lists: `5 polyps, largest 12 mm (sigmoid colon); 3 adenomas, 1 serrated; 1
/// awaiting histology`. Words only, no clinical grading.
std::string findings_line(const Examination& exam);

/// True for ten digits whose check digit (modulus 11) is right and that are not all equal: those pass the sum
/// and are never issued. Spaces and hyphens are ignored. Source: NHS Data Dictionary, NHS NUMBER.
bool is_nhs_number(std::string_view digits);

}  // namespace engine
