// A template of a letter (Mustache), checked when it is loaded: what it names is known, what every letter
// needs is in it, and nothing is fetched from elsewhere.

#pragma once

#include <filesystem>
#include <map>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "engine/result.h"
#include "ledger/letters.h"
#include "letters/unit.h"

namespace cli {

/// `result-patient`, `reminder-family-doctor`: how files name a letter.
std::string letter_slug(const std::string& letter, const std::string& recipient);
/// Every letter that there is a template for.
const std::vector<ledger::LetterKey>& letter_kinds();

/// Where templates lie: a file of the unit's own stands before the one that comes with the program.
struct TemplateFolders {
  std::filesystem::path own;  ///< Empty when there is none.
  std::filesystem::path shipped;
};

class LetterTemplate {
 public:
  /// Fills it in. `fields` are those of fields.h. What was in them is escaped in HTML; lines of text
  /// are broken to fit (plain_page.h).
  std::string render(const nlohmann::json& fields) const;

 private:
  friend class TemplateLoader;
  std::string text_;
  bool is_html_ = false;
};

/// Every letter's template, by its slug.
using LetterTemplates = std::map<std::string, LetterTemplate>;

/// Reads all templates of a format, `html` or `txt`: `result-patient.html.mustache` ..., with what they
/// include. Every fault in one run, each with its line: `unclosed_tag`, `unclosed_section`, `unknown_tag`,
/// `tag_not_allowed`, `missing_part` (a file that is not there, or that includes itself), `may_be_empty`,
/// `unit_detail_missing`, `lacks_part`, `outside_resource`, `lacks_language`, `unused_template` (a file of
/// the unit's own that no letter uses); and `unreadable_file`.
engine::Result<LetterTemplates> load_templates(const TemplateFolders& folders, const std::string& format,
                                               const UnitDetails& unit);

}  // namespace cli
