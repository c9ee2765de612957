// The tags that a template of a letter may use. docs/letters.md tells what each one says.

#pragma once

#include <cstdint>
#include <span>
#include <string_view>

namespace cli {

enum class TagKind : std::uint8_t {
  text,   ///< Always says something.
  maybe,  ///< A text that may be missing: used within a section of its own name.
  list,   ///< A section that is repeated for each text in it, `{{.}}`.
  flag    ///< A section that is there or not.
};

/// Which letters cannot do without a tag.
enum class Needed : std::uint8_t { nowhere, everywhere, after_removal, before_examination };

struct Tag {
  std::string_view name;
  TagKind kind{};
  Needed needed = Needed::nowhere;
  std::string_view without = {};  ///< What a letter lacks that leaves it out.
};

std::span<const Tag> letter_tags();
/// Null when there is no such tag.
const Tag* find_tag(std::string_view name);

}  // namespace cli
