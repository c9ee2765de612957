// Reads objects of the record as fields.h describes them. Every fault is noted, and reading goes on.

#pragma once

#include <simdjson.h>

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <vector>

#include "record/faults.h"
#include "record/fields.h"
#include "record/path.h"
#include "record/scalars.h"
#include "record/terms.h"

namespace engine {

class FieldReader {
  using element = simdjson::dom::element;

 public:
  explicit FieldReader(Faults& faults) : scalars_(faults), faults_(faults) {}

  /// Fills `into` from the object `value`. Keys that are null count as left out. False when it is no object.
  template <class Described>
  bool object(element value, const Path& path, OwnerOf<Described>& into) {
    simdjson::dom::object members;
    if (value.get_object().get(members) != simdjson::SUCCESS) {
      return scalars_.wrong_type(value, path, std::string(Fields<Described>::name) + ", which is an object");
    }
    std::uint32_t seen = 0, stated = 0;
    std::size_t next = 0;  // keys mostly come in the order of the description
    for (const auto [key, member] : members) {
      const std::size_t position = position_of_key<Described>(key, next);
      const Path member_path = path.member(key);
      if (position == field_count<Described>) {
        unknown_key<Described>(key, member_path);
        continue;
      }
      next = position + 1;
      const std::uint32_t bit = std::uint32_t{1} << position;
      if ((seen & bit) != 0) {
        duplicate_key(key, member_path);
        continue;
      }
      seen |= bit;
      if (member.is_null()) continue;
      stated |= bit;
      readers<Described>[position](*this, member, member_path, into);
    }
    left_out<Described>(stated, path, into);
    return true;
  }

  void duplicate_key(std::string_view key, const Path& path) {
    faults_.add("duplicate_key", path, "the key " + quoted(key) + " stands twice in the same object",
                "keep the one that is right");
  }

 private:
  template <class Described>
  static std::size_t position_of_key(std::string_view key, std::size_t hint) {
    constexpr auto& keys = keys_of<Described>;
    if (hint < keys.size() && keys[hint] == key) return hint;
    for (std::size_t i = 0; i < keys.size(); ++i) {
      if (keys[i] == key) return i;
    }
    return keys.size();
  }

  template <class Described>
  void unknown_key(std::string_view key, const Path& path) {
    std::string_view note;
    if constexpr (requires { Fields<Described>::note; }) note = Fields<Described>::note;
    scalars_.unknown_key(key, path, Fields<Described>::name, keys_of<Described>, note);
  }

  // --- one key ---

  template <class Described, std::size_t Index>
  static void read_field(FieldReader& reader, element value, const Path& path, OwnerOf<Described>& into) {
    reader.member(std::get<Index>(Fields<Described>::all), value, path, into);
  }

  template <class Described, std::size_t... Index>
  static constexpr auto table(std::index_sequence<Index...>) {
    using Read = void (*)(FieldReader&, element, const Path&, OwnerOf<Described>&);
    return std::array<Read, sizeof...(Index)>{&read_field<Described, Index>...};
  }

  template <class Described>
  static constexpr auto readers = table<Described>(std::make_index_sequence<field_count<Described>>());

  template <class Owner, class Member, class Rule>
  void member(const Field<Owner, Member, Rule>& field, element value, const Path& path, Owner& into) {
    read(value, path, into.*field.member, field.rule);
  }

  template <class Parts>
  void member(const Group<Parts>&, element value, const Path& path, OwnerOf<Parts>& into) {
    object<Parts>(value, path, into);
  }

  template <class Described>
  void left_out(std::uint32_t stated, const Path& path, OwnerOf<Described>& into) {
    std::uint32_t bit = 1;
    const auto check = [&](const auto& field) {
      if ((stated & bit) == 0) unstated<Described>(field, path, into);
      bit <<= 1;
    };
    std::apply([&](const auto&... fields) { (check(fields), ...); }, Fields<Described>::all);
  }

  template <class Described, class AnyField>
  void unstated(const AnyField& field, const Path& path, OwnerOf<Described>& into) {
    if constexpr (requires { into.*field.rule.stated; }) into.*field.rule.stated = false;
    if (field.left_out != LeftOut::refused) return;
    const std::string key(field.key);
    faults_.add("missing_key", path.member(field.key),
                std::string(Fields<Described>::name) + " needs `" + key + "`, which is left out or null");
  }

  // --- values, by the type of the member ---
  // What could not be read is left as not stated, so that it contradicts nothing.

  template <class T, class Rule>
  bool read(element value, const Path& path, T& into, const Rule& rule) {
    if constexpr (Described<T>) {
      return object<T>(value, path, into);
    } else {
      return scalars_.read(value, path, into, rule);
    }
  }

  template <class T, class Rule>
  bool read(element value, const Path& path, std::optional<T>& into, const Rule& rule) {
    if (read(value, path, into.emplace(), rule)) return true;
    into.reset();
    return false;
  }

  template <class T, class Rule>
  bool read(element value, const Path& path, std::vector<T>& into, const Rule& rule) {
    simdjson::dom::array items;
    if (value.get_array().get(items) != simdjson::SUCCESS) return scalars_.wrong_type(value, path, "a list");
    into.reserve(items.size());
    for (const element item : items) {
      const Path item_path = path.item(into.size());
      read(item, item_path, into.emplace_back(), rule);
    }
    return true;
  }

  template <class T, class Rule>
  bool read(element value, const Path& path, Fact<T>& into, const Rule& rule) {
    if constexpr (std::is_enum_v<T>) {
      if (value.is_array()) return options(value, path, into, rule);
    } else if constexpr (!std::is_same_v<T, bool>) {
      if (value.is_object()) return bounds(value, path, into, rule);
    }
    if (!scalars_.read(value, path, into.value, rule)) {
      into = {};
      return false;
    }
    into.state = Fact<T>::State::known;
    into.most = into.value;
    return true;
  }

  // --- known within bounds ---

  template <class Term, class Rule>
  bool options(element value, const Path& path, Fact<Term>& into, const Rule& rule) {
    const simdjson::dom::array items = value.get_array().value_unsafe();
    if (items.size() == 0) scalars_.no_options(path);
    std::uint32_t seen = 0;
    std::size_t index = 0;
    for (const element item : items) {
      const Path item_path = path.item(index++);
      Term option{};
      if (!scalars_.read(item, item_path, option, rule)) continue;
      const std::uint32_t bit = std::uint32_t{1} << static_cast<unsigned>(option);
      if ((seen & bit) != 0) {
        scalars_.repeated_option(item, item_path);
      } else {
        into.options.push_back(option);
      }
      seen |= bit;
    }
    if (into.options.size() != index || index == 0) {  // something was refused
      into = {};
      return false;
    }
    if (index == 1) {
      into = Fact<Term>::known(into.options.front());
    } else {
      into.state = Fact<Term>::State::bounded;
    }
    return true;
  }

  template <class Number, class Rule>
  bool bounds(element value, const Path& path, Fact<Number>& into, const Rule& rule) {
    into = {};
    std::optional<Number> from, to;
    bool has_from = false, has_to = false;
    const simdjson::dom::object ends = value.get_object().value_unsafe();
    for (const auto [key, end] : ends) {
      const Path end_path = path.member(key);
      const bool is_from = key == "from";
      if (!is_from && key != "to") {
        static constexpr auto keys = std::to_array<std::string_view>({"from", "to"});
        scalars_.unknown_key(key, end_path, "a value within bounds", keys);
      } else if (std::exchange(is_from ? has_from : has_to, true)) {
        duplicate_key(key, end_path);
      } else {
        read(end, end_path, is_from ? from : to, rule);
      }
    }
    scalars_.check_ends(has_from, has_to, path);
    if (!from || !to) return false;
    if (*from > *to) {
      scalars_.ends_reversed(value, path);
      return false;
    }
    into.value = *from;
    into.most = *to;
    into.state = *from == *to ? Fact<Number>::State::known : Fact<Number>::State::bounded;
    return true;
  }

  Scalars scalars_;
  Faults& faults_;
};

}  // namespace engine
