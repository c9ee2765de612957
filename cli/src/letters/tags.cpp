#include "letters/tags.h"

#include <algorithm>

namespace cli {

namespace {

using enum TagKind;
using enum Needed;

constexpr Tag tags[] = {
    // The letter.
    {"date", text},
    {"reference", text},
    {"title", text},
    {"greeting", text},
    {"addressee", text},
    {"address", list},
    {"large_print", flag},
    // The unit.
    {"unit.name", text},
    {"unit.address", list},
    {"unit.telephone", text},
    {"unit.hours", maybe},
    {"unit.email", maybe},
    // The person and the examination.
    {"patient", text},
    {"born", maybe},
    {"identifiers", maybe},
    {"examination", text},
    {"examined", text},
    {"place", maybe},
    {"endoscopist", maybe},
    {"found", maybe},
    {"findings", maybe},
    // What was signed.
    {"step", text, everywhere, "the next step"},
    {"window", text, everywhere, "when it is due"},
    {"interval", maybe},
    {"why", text},
    {"after", text},
    {"signed", text},
    {"guideline", maybe},
    {"rules", list},
    {"decision", maybe},
    {"moved", maybe},
    {"later", list},
    {"flags", list},
    {"notes", list},
    // An attempt to reach the person.
    {"attempt", maybe},
    {"last_attempt", flag},
    // What guards the patient.
    {"sooner", text, everywhere, "what to do when symptoms come sooner"},
    {"bleeding", maybe, after_removal, "that bleeding may come days after a polyp was removed"},
    {"preparation", text},
    {"medicines", text, before_examination, "that the unit must know of medicines"},
    {"escort", text, before_examination, "that nobody drives after sedation"},
    {"ring", text, everywhere, "whom to ring"},
    {"caution", text, everywhere, "the caution"},
};

}  // namespace

std::span<const Tag> letter_tags() {
  return tags;
}

const Tag* find_tag(std::string_view name) {
  const auto* found =
      std::find_if(std::begin(tags), std::end(tags), [&](const Tag& tag) { return tag.name == name; });
  return found == std::end(tags) ? nullptr : found;
}

}  // namespace cli
