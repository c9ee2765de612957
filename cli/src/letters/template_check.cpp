#include "letters/template_check.h"

#include <algorithm>
#include <regex>
#include <set>

#include "letters/tags.h"

namespace cli {

using engine::Error;
using engine::Errors;

namespace {

std::vector<std::string_view> tag_names() {
  std::vector<std::string_view> names;
  for (const Tag& tag : letter_tags()) names.push_back(tag.name);
  return names;
}

bool has_detail(const UnitDetails& unit, const std::string& name) {
  if (name == "unit.hours") return !unit.hours.empty();
  if (name == "unit.email") return !unit.email.empty();
  return name == "unit.address" ? !unit.address.empty() : true;
}

class Check {
 public:
  Check(const UnitDetails& unit, Errors& errors) : unit_(unit), errors_(errors) {}

  void run(const std::vector<TemplatePiece>& pieces) {
    for (const TemplatePiece& piece : pieces) {
      if (piece.sigil != 0 && piece.sigil != '!') check(piece);
    }
    for (const TemplatePiece* open : sections_)
      fault("unclosed_section", "the section `" + open->text + "` is not closed", *open,
            "`{{/" + open->text + "}}` ends it");
  }

  /// Used outside any section, or at least somewhere when the tag may be missing.
  bool uses(const Tag& tag) const {
    const std::string name(tag.name);
    return tag.kind == TagKind::text ? always_.contains(name) : somewhere_.contains(name);
  }

 private:
  void fault(const char* code, std::string message, const TemplatePiece& piece, std::string help) {
    Error error{code, std::move(message), piece.place, std::move(help)};
    error.place.length = 2;
    errors_.push_back(std::move(error));
  }

  void check(const TemplatePiece& piece) {
    switch (piece.sigil) {
      case '/':
        return close(piece);
      case '#':
      case '^':
        if (piece.text != "." && !is_known(piece)) return open(piece);
        if (piece.text != ".") somewhere_.insert(piece.text);
        return open(piece);
      case 'v':
        return use(piece);
      default:
        return fault("tag_not_allowed",
                     piece.sigil == '='
                         ? std::string("delimiters are not changed in a letter")
                         : "`" + piece.text + "` would be put in as it stands, without being made safe",
                     piece, "write `{{name}}`");
    }
  }

  bool is_known(const TemplatePiece& piece) {
    if (find_tag(piece.text) != nullptr) return true;
    const std::string near = engine::nearest(piece.text, tag_names());
    fault("unknown_tag", "there is no tag `" + piece.text + "`", piece,
          near.empty() ? "docs/letters.md has them all" : "did you mean `" + near + "`?");
    return false;
  }

  void open(const TemplatePiece& piece) { sections_.push_back(&piece); }

  void close(const TemplatePiece& piece) {
    if (!sections_.empty() && sections_.back()->text == piece.text) {
      sections_.pop_back();
      return;
    }
    fault("unclosed_section",
          sections_.empty() ? "`" + piece.text + "` is closed and was not opened"
                            : "`" + piece.text + "` is closed while `" + sections_.back()->text + "` is open",
          piece, "sections are closed in the order in which they were opened, the last one first");
  }

  bool is_within(const std::string& name) const {
    return std::any_of(sections_.begin(), sections_.end(),
                       [&](const TemplatePiece* open) { return open->sigil == '#' && open->text == name; });
  }

  void use(const TemplatePiece& piece) {
    if (piece.text == ".") {
      if (sections_.empty() || sections_.back()->sigil != '#')
        fault("unknown_tag", "`.` stands outside a section", piece, "it is each text of a list");
      return;
    }
    if (!is_known(piece)) return;
    const Tag& tag = *find_tag(piece.text);
    somewhere_.insert(piece.text);
    if (sections_.empty()) always_.insert(piece.text);
    if (tag.kind == TagKind::list || tag.kind == TagKind::flag) {
      return fault("may_be_empty", "`" + piece.text + "` is no text", piece,
                   "write a section: `{{#" + piece.text + "}}...{{/" + piece.text + "}}`");
    }
    if (tag.kind == TagKind::maybe && !is_within(piece.text)) check_present(piece);
  }

  void check_present(const TemplatePiece& piece) {
    const bool is_of_unit = piece.text.starts_with("unit.");
    if (is_of_unit && has_detail(unit_, piece.text)) return;
    fault(is_of_unit ? "unit_detail_missing" : "may_be_empty",
          is_of_unit ? "the unit file has no `" + piece.text.substr(5) + "`"
                     : "`" + piece.text + "` may be empty",
          piece,
          (is_of_unit ? "put it into the unit file, or write " : "write ") +
              ("`{{#" + piece.text + "}}...{{" + piece.text + "}}...{{/" + piece.text + "}}`"));
  }

  const UnitDetails& unit_;
  Errors& errors_;
  std::vector<const TemplatePiece*> sections_;
  std::set<std::string> always_, somewhere_;
};

bool is_needed(const Tag& tag, const ledger::LetterKey& kind) {
  const bool to_patient = kind.recipient == "patient";
  const bool about_attempt = kind.letter == "invitation" || kind.letter == "reminder";
  switch (tag.needed) {
    case Needed::everywhere:
      return true;
    case Needed::after_removal:
      return to_patient && !about_attempt;
    case Needed::before_examination:
      return to_patient && about_attempt;
    default:
      return false;
  }
}

void check_html(const std::vector<TemplatePiece>& pieces, const std::string& source, Errors& errors) {
  std::string all;
  for (const TemplatePiece& piece : pieces) {
    if (piece.sigil == 0) all += piece.text;
  }
  static const std::regex outside(
      R"(<script|<link|<iframe|<object|<embed|@import|<[^>]*\son[a-z]+\s*=|)"
      R"(\b(src|srcset|href|action)\s*=\s*(?!["']?(data:|#|mailto:|tel:))|url\(\s*(?!["']?data:))",
      std::regex::icase);
  std::smatch found;
  engine::Place place;
  place.source = source;
  if (std::regex_search(all, found, outside)) {
    errors.push_back({"outside_resource",
                      "`" + found.str() + "` fetches or runs something from outside the letter", place,
                      "put pictures in as `data:`, and the style into the page"});
  }
  static const std::regex language(R"(<html[^>]*\blang\s*=)", std::regex::icase);
  if (!std::regex_search(all, language))
    errors.push_back(
        {"lacks_language", "the page does not say its language", place, "write `<html lang=\"en-GB\">`"});
}

}  // namespace

Errors faults_of_template(const std::vector<TemplatePiece>& pieces, const ledger::LetterKey& kind,
                          const UnitDetails& unit, const std::string& source, bool is_html) {
  Errors errors;
  Check check(unit, errors);
  check.run(pieces);
  for (const Tag& tag : letter_tags()) {
    if (!is_needed(tag, kind) || check.uses(tag)) continue;
    engine::Place place;
    place.source = source;
    const std::string name(tag.name);
    errors.push_back({"lacks_part", "the letter does not say " + std::string(tag.without), place,
                      tag.kind == TagKind::text
                          ? "use `{{" + name + "}}`, outside any section"
                          : "use `{{#" + name + "}}{{" + name + "}}{{/" + name + "}}`"});
  }
  if (is_html) check_html(pieces, source, errors);
  return errors;
}

}  // namespace cli
