// Every key of the record, once: its name, the member it fills, what it may be, what it means to leave it
// out, and whether rules see it. The reader (field_reader.h) and the binder (bind.cpp) both walk these lists.
//
// Keys stand in the order in which rules see them. Source: docs/record-format.md.

#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <string_view>
#include <tuple>
#include <utility>

#include "engine/record.h"
#include "record/terms.h"

namespace engine {

/// What it means that a key is left out or null.
enum class LeftOut : std::uint8_t {
  refused,           ///< The record cannot be used without it.
  nothing,           ///< There is none, or nobody asks: empty text, empty list, null for rules.
  doubt,             ///< Not stated, and never read as "no".
  taken_as_none,     ///< Background: no conditions, no relatives, sex unknown. The advice says so when it
                     ///< mattered.
  taken_as_default,  ///< Setting: null for rules, which have their own default. The advice says so too.
};

enum class Seen : std::uint8_t { by_rules, by_people_only };

// --- what a value may be
// ---------------------------------------------------------------------------------------

struct Whole {
  std::int32_t least, most;
};
/// More than 0 mm, at most this; one decimal at most.
struct Length {
  Millimetres most;
};
/// Terms of an enumeration, dates, booleans, objects, lists: the member's type says all.
struct ByType {};
/// Free text, not empty.
struct Words {};
/// Text that must be one of `terms`.
struct OneOf {
  std::span<const std::string_view> terms;
};
/// Free text, but no misspelling of one of `terms`.
struct NearNone {
  std::span<const std::string_view> terms;
};
/// `2009`, `2009-05` or a full date.
struct PartialDate {};
/// A list for which "none" and "not stated" differ: the flag tells.
template <class Owner>
struct ListWithFlag {
  bool Owner::*stated;
};

// --- one key
// ---------------------------------------------------------------------------------------------------

template <class OwnerType, class MemberType, class RuleType>
struct Field {
  using Owner = OwnerType;
  using Member = MemberType;
  using Rule = RuleType;
  std::string_view key;
  MemberType OwnerType::*member;
  RuleType rule;
  LeftOut left_out;
  Seen seen;
};

/// A key whose object has no type of its own: its parts are members of the owner. `Parts` has a Fields.
template <class Parts>
struct Group {
  std::string_view key;
  LeftOut left_out = LeftOut::nothing;
  Seen seen = Seen::by_rules;
};

template <class Owner, class Member, class Rule>
constexpr Field<Owner, Member, Rule> field(std::string_view key, Member Owner::*member, Rule rule,
                                           LeftOut left_out, Seen seen = Seen::by_rules) {
  return {key, member, rule, left_out, seen};
}

/// The keys of one kind of object: `name` as a sentence calls it, `Owner` the type that holds it, `all` the
/// keys, `note`, if any, what else to tell a person who gave an unknown key.
template <class Described>
struct Fields;

template <>
struct Fields<Identifier> {
  using Owner = Identifier;
  static constexpr std::string_view name = "an identifier";
  static constexpr auto all =
      std::tuple{field("system", &Identifier::system, Words{}, LeftOut::refused, Seen::by_people_only),
                 field("value", &Identifier::value, Words{}, LeftOut::refused, Seen::by_people_only)};
};

template <>
struct Fields<PersonName> {
  using Owner = PersonName;
  static constexpr std::string_view name = "a name";
  static constexpr auto all =
      std::tuple{field("family", &PersonName::family, Words{}, LeftOut::nothing, Seen::by_people_only),
                 field("given", &PersonName::given, Words{}, LeftOut::nothing, Seen::by_people_only),
                 field("prefix", &PersonName::prefix, Words{}, LeftOut::nothing, Seen::by_people_only)};
};

template <>
struct Fields<Contact> {
  using Owner = Contact;
  static constexpr std::string_view name = "a contact";
  static constexpr auto all =
      std::tuple{field("telephone", &Contact::telephone, Words{}, LeftOut::nothing, Seen::by_people_only),
                 field("email", &Contact::email, Words{}, LeftOut::nothing, Seen::by_people_only),
                 field("address", &Contact::address, Words{}, LeftOut::nothing, Seen::by_people_only)};
};

template <>
struct Fields<FamilyDoctor> {
  using Owner = FamilyDoctor;
  static constexpr std::string_view name = "a family doctor";
  static constexpr auto all =
      std::tuple{field("name", &FamilyDoctor::name, Words{}, LeftOut::nothing, Seen::by_people_only),
                 field("practice", &FamilyDoctor::practice, Words{}, LeftOut::nothing, Seen::by_people_only),
                 field("address", &FamilyDoctor::address, Words{}, LeftOut::nothing, Seen::by_people_only)};
};

template <>
struct Fields<Condition> {
  using Owner = Condition;
  static constexpr std::string_view name = "a condition";
  static constexpr auto all = std::tuple{
      field("name", &Condition::name, ByType{}, LeftOut::refused),
      field("gene", &Condition::gene, OneOf{genes}, LeftOut::nothing),
      field("onset", &Condition::onset, PartialDate{}, LeftOut::nothing),
      field("resection_date", &Condition::resection_date, ByType{}, LeftOut::nothing),
      field("extent", &Condition::extent, ByType{}, LeftOut::nothing),
      field("activity", &Condition::activity, ByType{}, LeftOut::nothing),
      field("post_inflammatory_polyps", &Condition::post_inflammatory_polyps, ByType{}, LeftOut::nothing),
      field("stricture", &Condition::stricture, ByType{}, LeftOut::nothing),
      field("dysplasia_within_5_years", &Condition::dysplasia_within_5_years, ByType{}, LeftOut::nothing)};
};

template <>
struct Fields<Relative> {
  using Owner = Relative;
  static constexpr std::string_view name = "a relative";
  static constexpr auto all =
      std::tuple{field("degree", &Relative::degree, Whole{1, 3}, LeftOut::refused),
                 field("cancer", &Relative::cancer, OneOf{relatives_cancers}, LeftOut::refused),
                 field("age", &Relative::age, Whole{0, 120}, LeftOut::nothing)};
};

template <>
struct Fields<Need> {
  using Owner = Need;
  static constexpr std::string_view name = "a need";
  static constexpr auto all =
      std::tuple{field("flag", &Need::flag, Words{}, LeftOut::refused, Seen::by_people_only),
                 field("since", &Need::since, ByType{}, LeftOut::nothing, Seen::by_people_only),
                 field("source", &Need::source, Words{}, LeftOut::nothing, Seen::by_people_only)};
};

template <>
struct Fields<Patient> {
  using Owner = Patient;
  static constexpr std::string_view name = "a patient";
  static constexpr auto all = std::tuple{
      field("identifiers", &Patient::identifiers, ByType{}, LeftOut::nothing, Seen::by_people_only),
      field("name", &Patient::name, ByType{}, LeftOut::nothing, Seen::by_people_only),
      field("contact", &Patient::contact, ByType{}, LeftOut::nothing, Seen::by_people_only),
      field("family_doctor", &Patient::family_doctor, ByType{}, LeftOut::nothing, Seen::by_people_only),
      field("birth_date", &Patient::birth_date, ByType{}, LeftOut::doubt),
      field("sex", &Patient::sex, ByType{}, LeftOut::taken_as_none),
      field("conditions", &Patient::conditions, ByType{}, LeftOut::taken_as_none),
      field("relatives", &Patient::relatives, ByType{}, LeftOut::taken_as_none),
      field("family_history", &Patient::family_history, ByType{}, LeftOut::taken_as_none),
      field("life_expectancy_under_10_years", &Patient::life_expectancy_under_10_years, ByType{},
            LeftOut::taken_as_none),
      field("needs", &Patient::needs, ByType{}, LeftOut::nothing, Seen::by_people_only)};
};

template <>
struct Fields<Histology> {
  using Owner = Histology;
  static constexpr std::string_view name = "a histology";
  static constexpr auto all =
      std::tuple{field("type", &Histology::type, ByType{}, LeftOut::doubt),
                 field("dysplasia", &Histology::dysplasia, ByType{}, LeftOut::doubt),
                 field("margin", &Histology::margin, ByType{}, LeftOut::doubt),
                 field("size_mm", &Histology::size, Length{300_mm}, LeftOut::nothing)};
};

template <>
struct Fields<Lesion> {
  using Owner = Lesion;
  static constexpr std::string_view name = "a lesion";
  static constexpr auto all = std::tuple{field("id", &Lesion::id, Words{}, LeftOut::nothing),
                                         field("number", &Lesion::number, Whole{1, 200}, LeftOut::nothing),
                                         field("site", &Lesion::site, ByType{}, LeftOut::doubt),
                                         field("size_mm", &Lesion::size, Length{300_mm}, LeftOut::doubt),
                                         field("paris", &Lesion::paris, ByType{}, LeftOut::doubt),
                                         field("removal", &Lesion::removal, ByType{}, LeftOut::doubt),
                                         field("retrieved", &Lesion::retrieved, ByType{}, LeftOut::doubt),
                                         field("specimen", &Lesion::specimen, Words{}, LeftOut::nothing),
                                         field("histology", &Lesion::histology, ByType{}, LeftOut::doubt)};
};

template <>
struct Fields<Specimen> {
  using Owner = Specimen;
  static constexpr std::string_view name = "a specimen";
  static constexpr auto all =
      std::tuple{field("id", &Specimen::id, Words{}, LeftOut::refused, Seen::by_people_only),
                 field("accession", &Specimen::accession, Words{}, LeftOut::nothing, Seen::by_people_only),
                 field("sent", &Specimen::sent, ByType{}, LeftOut::nothing, Seen::by_people_only)};
};

template <>
struct Fields<Complication> {
  using Owner = Complication;
  static constexpr std::string_view name = "a complication";
  static constexpr auto all = std::tuple{
      field("kind", &Complication::kind, ByType{}, LeftOut::refused, Seen::by_people_only),
      field("on", &Complication::on, ByType{}, LeftOut::nothing, Seen::by_people_only),
      field("severity", &Complication::severity, ByType{}, LeftOut::nothing, Seen::by_people_only)};
};

template <>
struct Fields<Boston> {
  using Owner = Boston;
  static constexpr std::string_view name = "a Boston score";
  static constexpr auto all =
      std::tuple{field("right", &Boston::right, Whole{0, 3}, LeftOut::doubt),
                 field("transverse", &Boston::transverse, Whole{0, 3}, LeftOut::doubt),
                 field("left", &Boston::left, Whole{0, 3}, LeftOut::doubt)};
};

struct Preparation;  // the key `preparation`: its parts are members of Examination

template <>
struct Fields<Preparation> {
  using Owner = Examination;
  static constexpr std::string_view name = "a preparation";
  static constexpr auto all = std::tuple{field("boston", &Examination::boston, ByType{}, LeftOut::nothing),
                                         field("graded", &Examination::graded, ByType{}, LeftOut::doubt)};
};

template <>
struct Fields<Examination> {
  using Owner = Examination;
  static constexpr std::string_view name = "an examination";
  static constexpr auto all = std::tuple{
      field("id", &Examination::id, Words{}, LeftOut::nothing),
      field("date", &Examination::date, ByType{}, LeftOut::refused),
      field("indication", &Examination::indication, ByType{}, LeftOut::doubt),
      field("procedure", &Examination::procedure, ByType{}, LeftOut::doubt),
      field("reached", &Examination::reached, ByType{}, LeftOut::doubt),
      field("cleared", &Examination::cleared, ByType{}, LeftOut::nothing),
      Group<Preparation>{"preparation"},
      field("endoscopist", &Examination::endoscopist, Words{}, LeftOut::nothing),
      field("place", &Examination::place, Words{}, LeftOut::nothing),
      field("lesions", &Examination::lesions, ListWithFlag<Examination>{&Examination::lesions_stated},
            LeftOut::doubt),
      field("specimens", &Examination::specimens, ByType{}, LeftOut::nothing, Seen::by_people_only),
      field("complications", &Examination::complications, ByType{}, LeftOut::nothing, Seen::by_people_only)};
};

template <>
struct Fields<Setting> {
  using Owner = Setting;
  static constexpr std::string_view name = "a setting";
  static constexpr auto all = std::tuple{
      field("nation", &Setting::nation, NearNone{nations}, LeftOut::taken_as_default),
      field("screening_from_age", &Setting::screening_from_age, Whole{0, 120}, LeftOut::taken_as_default),
      field("organised_screening", &Setting::organised_screening, ByType{}, LeftOut::taken_as_default),
      field("adenoma_detection_adequate", &Setting::adenoma_detection_adequate, ByType{},
            LeftOut::taken_as_default)};
};

template <>
struct Fields<Record> {
  using Owner = Record;
  static constexpr std::string_view name = "a record";
  static constexpr std::string_view note =
      "keys of your own may stand beside a record that stands under `given`";
  static constexpr auto all =
      std::tuple{field("patient", &Record::patient, ByType{}, LeftOut::nothing),
                 field("exam", &Record::exam, ByType{}, LeftOut::refused),
                 field("previous", &Record::previous, ByType{}, LeftOut::taken_as_none),
                 field("setting", &Record::setting, ByType{}, LeftOut::nothing)};
};

// --- walking the keys
// ------------------------------------------------------------------------------------------

template <class Described>
using OwnerOf = typename Fields<Described>::Owner;

template <class Described>
inline constexpr std::size_t field_count = std::tuple_size_v<decltype(Fields<Described>::all)>;

template <class Described>
inline constexpr auto keys_of = std::apply(
    [](const auto&... fields) { return std::array<std::string_view, sizeof...(fields)>{fields.key...}; },
    Fields<Described>::all);

/// A type that Fields describes.
template <class T>
concept Described = requires {
  typename Fields<T>::Owner;
};

}  // namespace engine
