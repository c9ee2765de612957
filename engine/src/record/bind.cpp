// The binder walks the same description of the record as the reader (fields.h). Keys are static arrays, terms
// static strings, text stays in the record: only the values themselves, and what is open, are made anew.

#include "record/bind.h"

#include <algorithm>
#include <array>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <tuple>
#include <type_traits>
#include <utility>
#include <vector>

#include "record/fields.h"
#include "record/path.h"
#include "record/terms.h"

namespace engine {

namespace {

constexpr Millimetres shortest{1};

// `common practice`: an adenoma is dysplastic by definition, and so is a cancer's border; a serrated lesion
// may or may not be; the others are not.
std::span<const Dysplasia> dysplasias(LesionType type) {
  static constexpr std::array adenomas{Dysplasia::low_grade, Dysplasia::high_grade};
  static constexpr std::array serrated{Dysplasia::none, Dysplasia::low_grade, Dysplasia::high_grade};
  static constexpr std::array without{Dysplasia::none};
  static constexpr std::array cancer{Dysplasia::high_grade};
  switch (type) {
    case LesionType::tubular_adenoma:
    case LesionType::tubulovillous_adenoma:
    case LesionType::villous_adenoma:
      return adenomas;
    case LesionType::sessile_serrated_lesion:
    case LesionType::traditional_serrated_adenoma:
    case LesionType::unclassified_serrated_polyp:
      return serrated;
    case LesionType::hyperplastic_polyp:
    case LesionType::inflammatory_polyp:
    case LesionType::hamartoma:
    case LesionType::normal_mucosa:
      return without;
    case LesionType::adenocarcinoma:
      return cancer;
  }
  return serrated;
}

template <class T>
Value value_of(T term) requires std::is_enum_v<T> {
  return Value::string(term_of(term));
}
Value value_of(bool truth) {
  return Value::of(truth);
}
Value value_of(std::int32_t number) {
  return Value::number(number);
}
Value value_of(const Date& date) {
  return Value::of(date);
}
Value value_of(const std::string& text) {
  return Value::string(text);
}

/// The keys of an object that rules see.
template <class Described>
constexpr auto rule_keys() {
  constexpr auto seen = [](const auto&... fields) {
    return (std::size_t{0} + ... + (fields.seen == Seen::by_rules ? 1 : 0));
  };
  std::array<std::string_view, std::apply(seen, Fields<Described>::all)> keys{};
  std::size_t count = 0;
  const auto add = [&](const auto& field) {
    if (field.seen == Seen::by_rules) keys[count++] = field.key;
  };
  std::apply([&](const auto&... fields) { (add(fields), ...); }, Fields<Described>::all);
  return keys;
}

template <class Described>
constexpr auto keys_for_rules = rule_keys<Described>();

class Binder {
 public:
  Binder(Arena& arena, BoundRecord& bound) : arena_(arena), bound_(bound) {}

  void record(const Record& record) {
    const Path root;
    bound_.patient = object<Patient>(record.patient, root.member("patient"));
    bound_.exam = object<Examination>(record.exam, root.member("exam"));
    bound_.previous = field(record, std::get<2>(Fields<Record>::all), root.member("previous"));
    bound_.setting = object<Setting>(record.setting, root.member("setting"));
    bound_.facts.resize(open_);
  }

 private:
  // --- objects ---

  template <class Described>
  Value object(const OwnerOf<Described>& owner, const Path& path) {
    constexpr auto& keys = keys_for_rules<Described>;
    Value* const values = arena_.allocate<Value>(keys.size());
    Value* next = values;
    members<Described>(owner, path, next, std::make_index_sequence<field_count<Described>>());
    return Value::of(arena_.make<Context>(static_cast<std::uint32_t>(keys.size()), keys.data(), values));
  }

  template <class Described, std::size_t... Index>
  void members(const OwnerOf<Described>& owner, const Path& path, Value*& next,
               std::index_sequence<Index...>) {
    (member<Described, Index>(owner, path, next), ...);
  }

  template <class Described, std::size_t Index>
  void member(const OwnerOf<Described>& owner, const Path& path, Value*& next) {
    constexpr const auto& described = std::get<Index>(Fields<Described>::all);
    if constexpr (described.seen == Seen::by_rules) {
      std::construct_at(next, field(owner, described, path.member(described.key)));
      ++next;
    }
  }

  // --- one key; the special ones first ---

  template <class Parts>
  Value field(const OwnerOf<Parts>& owner, const Group<Parts>&, const Path& path) {
    return object<Parts>(owner, path);
  }

  // A Boston score tells how clean the bowel was: then nobody asks for a grade.
  Value field(const Examination& exam, const Field<Examination, Fact<Grade>, ByType>& described,
              const Path& path) {
    const LeftOut left_out = exam.boston ? LeftOut::nothing : described.left_out;
    return value(exam.graded, described.rule, left_out, path);
  }

  // Histology is a context even when there is none: its parts are then open.
  Value field(const Lesion& lesion, const Field<Lesion, std::optional<Histology>, ByType>&,
              const Path& path) {
    static const Histology nothing_stated;
    if (lesion.histology) return object<Histology>(*lesion.histology, path);
    why_not_stated_ = lesion.awaits_histology() ? OpenFact::Why::awaited : OpenFact::Why::lost;
    const Value histology = object<Histology>(nothing_stated, path);
    why_not_stated_ = OpenFact::Why::not_stated;
    return histology;
  }

  Value field(const Histology& histology, const Field<Histology, Fact<LesionType>, ByType>& described,
              const Path& path) {
    const Value type = value(histology.type, described.rule, described.left_out, path);
    type_fact_ = type.is(Kind::open_fact) ? static_cast<std::int32_t>(type.fact()) : -1;
    return type;
  }

  // What the record does not say is narrowed by the type, which stands before it in the description.
  Value field(const Histology& histology, const Field<Histology, Fact<Dysplasia>, ByType>& described,
              const Path& path) {
    if (histology.dysplasia.state != Fact<Dysplasia>::State::not_stated) {
      return value(histology.dysplasia, described.rule, described.left_out, path);
    }
    std::array<Value, 3> possible;
    std::size_t count = 0;
    for (const Dysplasia dysplasia : {Dysplasia::none, Dysplasia::low_grade, Dysplasia::high_grade}) {
      if (goes_with(histology.type, dysplasia)) possible[count++] = value_of(dysplasia);
    }
    if (count == 1) return possible[0];
    OpenFact& fact = open(path, why_not_stated_);
    fact.type_fact = type_fact_;
    fact.options.assign(possible.begin(), possible.begin() + count);
    return last_open();
  }

  template <class Owner, class Item, class Rule>
  Value field(const Owner& owner, const Field<Owner, std::vector<Item>, Rule>& described, const Path& path) {
    if constexpr (requires { owner.*described.rule.stated; }) {
      if (!(owner.*described.rule.stated)) return nothing_to_choose_from(path);
    }
    return list(owner.*described.member, path);
  }

  template <class Owner, class T, class Rule>
  Value field(const Owner& owner, const Field<Owner, std::optional<T>, Rule>& described, const Path& path) {
    const std::optional<T>& member = owner.*described.member;
    if (member) return present(*member, path);
    switch (described.left_out) {
      case LeftOut::doubt:
        return nothing_to_choose_from(path);
      case LeftOut::taken_as_none:
        return assumed(none<T>(), path);
      case LeftOut::taken_as_default:
        return assumed(Value(), path);
      case LeftOut::nothing:
      case LeftOut::refused:
        break;
    }
    return {};
  }

  template <class Owner, class T, class Rule>
  Value field(const Owner& owner, const Field<Owner, Fact<T>, Rule>& described, const Path& path) {
    return value(owner.*described.member, described.rule, described.left_out, path);
  }

  template <class Owner, class T, class Rule>
  Value field(const Owner& owner, const Field<Owner, T, Rule>& described, const Path&) {
    return value_of(owner.*described.member);
  }

  // --- values ---

  template <class T>
  Value present(const T& item, const Path& path) {
    if constexpr (Described<T>) {
      return object<T>(item, path);
    } else {
      return value_of(item);
    }
  }
  template <class T>
  Value present(const std::vector<T>& items, const Path& path) {
    return list(items, path);
  }

  template <class Item>
  Value list(const std::vector<Item>& items, const Path& path) {
    Value* const values = arena_.allocate<Value>(items.size());
    for (std::size_t i = 0; i < items.size(); ++i) {
      std::construct_at(values + i, object<Item>(items[i], path.item(i)));
    }
    return Value::list(std::span<const Value>(values, items.size()));
  }

  Value value_of(Millimetres length) {
    if (length.tenths % 10 == 0) return Value::number(length.tenths / 10);
    return Value::number(Decimal::of(length.tenths, -1), arena_);
  }
  template <class T>
  Value value_of(const T& plain) {
    return engine::value_of(plain);
  }

  template <class T, class Rule>
  Value value(const Fact<T>& fact, const Rule& rule, LeftOut left_out, const Path& path) {
    using State = typename Fact<T>::State;
    if (fact.state == State::known) return value_of(fact.value);
    if (fact.state == State::not_stated && left_out == LeftOut::nothing) return {};
    const bool bounded = fact.state == State::bounded;
    OpenFact& opened = open(path, bounded ? OpenFact::Why::bounded : why_not_stated_);
    if constexpr (std::is_same_v<T, Millimetres>) {
      opened.least = bounded ? fact.value : shortest;
      opened.most = bounded ? fact.most : rule.most;
    } else if constexpr (std::is_same_v<T, std::int32_t>) {
      add_numbers(opened, bounded ? fact.value : rule.least, bounded ? fact.most : rule.most);
    } else if constexpr (std::is_same_v<T, bool>) {
      opened.options.assign({Value::of(true), Value::of(false)});
    } else {
      add_terms(opened, fact);
    }
    return last_open();
  }

  template <class Term>
  static void add_terms(OpenFact& fact, const Fact<Term>& terms) {
    if (terms.state == Fact<Term>::State::bounded) {
      for (const Term option : terms.options) fact.options.push_back(engine::value_of(option));
    } else {
      for (const std::string_view term : vocabulary<Term>) fact.options.push_back(Value::string(term));
    }
  }

  static void add_numbers(OpenFact& fact, std::int32_t least, std::int32_t most) {
    for (std::int32_t number = least; number <= most; ++number) fact.options.push_back(Value::number(number));
  }

  static bool goes_with(const Fact<LesionType>& type, Dysplasia dysplasia) {
    const auto reported_with = [&](LesionType option) {
      const auto options = dysplasias(option);
      return std::find(options.begin(), options.end(), dysplasia) != options.end();
    };
    if (type.state == Fact<LesionType>::State::not_stated) return true;
    if (type.is_known()) return reported_with(type.value);
    return std::any_of(type.options.begin(), type.options.end(), reported_with);
  }

  // --- open facts ---

  // Facts of the record before are overwritten in place: their text and lists keep their memory.
  OpenFact& open(const Path& path, OpenFact::Why why) {
    if (open_ == bound_.facts.size()) bound_.facts.emplace_back();
    OpenFact& fact = bound_.facts[open_++];
    fact.path.clear();
    append(fact.path, path);
    fact.why = why;
    fact.options.clear();
    fact.least = fact.most = std::nullopt;
    fact.assumed = Value();
    fact.type_fact = -1;
    return fact;
  }

  Value last_open() const { return Value::open_fact(static_cast<std::uint32_t>(open_ - 1)); }

  Value nothing_to_choose_from(const Path& path) {
    open(path, OpenFact::Why::not_stated);
    return last_open();
  }

  Value assumed(Value value, const Path& path) {
    open(path, OpenFact::Why::assumed).assumed = value;
    return last_open();
  }

  /// Background that is left out is taken as this.
  template <class T>
  static Value none() {
    if constexpr (std::is_same_v<T, Sex>) {
      return engine::value_of(Sex::unknown);
    } else if constexpr (std::is_same_v<T, FamilyHistory>) {
      return engine::value_of(FamilyHistory::none);
    } else if constexpr (std::is_same_v<T, bool>) {
      return Value::of(false);
    } else {
      return Value::list({});
    }
  }

  Arena& arena_;
  BoundRecord& bound_;
  std::size_t open_ = 0;
  OpenFact::Why why_not_stated_ = OpenFact::Why::not_stated;
  std::int32_t type_fact_ = -1;
};

}  // namespace

std::vector<Value> dysplasia_options(std::string_view type) {
  std::vector<Value> options;
  const auto lesion_type = term_from<LesionType>(type);
  if (!lesion_type) return options;
  for (const Dysplasia dysplasia : dysplasias(*lesion_type)) options.push_back(value_of(dysplasia));
  return options;
}

void bind(const Record& record, Arena& arena, BoundRecord& bound) {
  Binder(arena, bound).record(record);
}

}  // namespace engine
