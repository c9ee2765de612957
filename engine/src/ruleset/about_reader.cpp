#include "ruleset/about_reader.h"

#include <array>

#include "ruleset/context_reader.h"

namespace engine {

namespace {

/// Ids are names of folders and stand in links: lower-case letters, digits and hyphens.
bool is_id(std::string_view id) {
  return !id.empty() &&
         id.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789-") == std::string_view::npos;
}

void check_state(const RulesetAbout& about, ContextReader& reader) {
  static constexpr std::array<std::string_view, 3> states = {"current", "superseded", "withdrawn"};
  for (const std::string_view state : states) {
    if (about.state == state) return;
  }
  reader.fault("unknown_term",
               "`About.state` is `" + about.state + "`, expected `current`, `superseded` or `withdrawn`",
               "state");
}

}  // namespace

RulesetAbout read_about(const Value& value, Errors& errors) {
  ContextReader reader(value, "About", errors);
  RulesetAbout about;
  about.id = reader.text("id");
  about.edition = reader.text("edition");
  about.title = reader.text("title");
  about.publisher = reader.text("publisher");
  about.published = reader.text("published");
  about.doi = reader.text_or_empty("doi");
  about.state = reader.text("state");
  about.supersedes = reader.texts_or_none("supersedes");
  const std::string successor = reader.text_or_empty("superseded by");
  if (!successor.empty()) about.superseded_by = successor;
  about.cautions = reader.texts_or_none("cautions");
  reader.end();

  if (!about.id.empty() && !is_id(about.id)) {
    reader.fault(
        "malformed_id",
        "`About.id` is `" + about.id + "`, expected lower-case letters, digits and hyphens: `uk-2020`", "id");
  }
  if (!about.state.empty()) check_state(about, reader);
  if (about.state == "current" && about.superseded_by) {
    reader.fault("contradiction",
                 "`About.state` is `current`, but `About.superseded by` is `" + *about.superseded_by + "`",
                 "state", "write `superseded`, or null for `superseded by`");
  }
  return about;
}

}  // namespace engine
