#include "evaluate/run_key.h"

#include <algorithm>

#include "evaluate/function.h"
#include "model/body.h"

namespace engine {

namespace {

/// What tells the value from others as long as the inputs stand; nothing when it lives in the run alone.
std::optional<std::uint64_t> identity(const Evaluation::State& state, const Value& value) {
  const auto place = [&](const void* memory) -> std::optional<std::uint64_t> {
    const bool outlives = state.inputs_arena.owns(memory) ||
                          (state.model && state.model->body().codes.constants.owns(memory));
    if (!outlives) return std::nullopt;
    return reinterpret_cast<std::uint64_t>(memory);
  };
  switch (value.kind()) {
    case Kind::null: return 0;
    case Kind::boolean: return value.boolean() ? 1 : 0;
    case Kind::open_fact: return value.fact();
    case Kind::number:
      if (!value.is_plain_integer()) return std::nullopt;
      return static_cast<std::uint64_t>(value.plain_integer());
    case Kind::date: {
      const Date date = value.date();
      return static_cast<std::uint64_t>(date.year) << 16 | std::uint64_t{date.month} << 8 | date.day;
    }
    case Kind::years_and_months: return static_cast<std::uint64_t>(value.months().count);
    case Kind::string: return place(value.string().data());
    case Kind::context: return place(&value.context());
    case Kind::function:
      if (value.function().captured) return std::nullopt;
      return reinterpret_cast<std::uint64_t>(value.function().shape);
    default: return std::nullopt;
  }
}

struct Slots {
  std::vector<std::uint32_t> read, bound;
  bool beyond = false;

  void look_at(const Binding& name) {
    if (name.kind != Binding::Kind::slot) return;
    beyond = beyond || name.up > 0;
    read.push_back(name.index);
  }
  void look_at(const Node& node) {
    beyond = beyond || node.kind == Node::Kind::function || node.table;
    look_at(node.binding);
    for (const ItemKey& key : node.item_keys) look_at(key.item);
    bound.insert(bound.end(), node.slots.begin(), node.slots.end());
    for (const Tree& child : node.children) {
      if (child) look_at(*child);
    }
  }
};

}  // namespace

std::optional<FactSource::Key> key_of(Evaluation::State& state, const void* what, std::span<const Value> values) {
  FactSource::Key key{};
  if (1 + 2 * values.size() > key.size()) return std::nullopt;
  std::size_t at = 0;
  key[at++] = reinterpret_cast<std::uint64_t>(what);
  for (const Value& value : values) {
    const auto identified = identity(state, value);
    if (!identified) return std::nullopt;
    key[at++] = static_cast<std::uint64_t>(value.kind());
    key[at++] = *identified;
  }
  return key;
}

std::optional<std::vector<std::uint32_t>> slots_read(const Node& node) {
  Slots slots;
  slots.look_at(node);
  if (slots.beyond) return std::nullopt;
  std::sort(slots.read.begin(), slots.read.end());
  slots.read.erase(std::unique(slots.read.begin(), slots.read.end()), slots.read.end());
  std::erase_if(slots.read, [&](std::uint32_t slot) {
    return std::find(slots.bound.begin(), slots.bound.end(), slot) != slots.bound.end();
  });
  return slots.read;
}

}  // namespace engine
