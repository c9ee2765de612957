// Where in a record a walk stands. Links on the stack, spelled out only when a fault or an open fact needs
// it.

#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace engine {

struct Path {
  const Path* parent = nullptr;
  std::string_view key;  ///< Of an object's member; empty for an item of a list and for the record itself.
  std::size_t index = 0;

  Path member(std::string_view name) const { return {this, name, 0}; }
  Path item(std::size_t at) const { return {this, {}, at}; }
};

/// Appends `exam.lesions[1].size_mm`: items are counted from 0. Nothing for the record itself.
void append(std::string& out, const Path& path);

std::string text_of(const Path& path);

}  // namespace engine
