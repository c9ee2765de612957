#include "letters/template.h"

#include <algorithm>
#include <kainjow/mustache.hpp>
#include <optional>
#include <set>

#include "letters/plain_page.h"
#include "letters/tag_scanner.h"
#include "letters/template_check.h"
#include "system/files.h"

namespace cli {

namespace fs = std::filesystem;
namespace mustache = kainjow::mustache;
using engine::Error;
using engine::Errors;
using engine::Result;
using nlohmann::json;

namespace {

constexpr const char* extension = ".mustache";

// The library leaves a line out when it has nothing but the tags of a section that is there, and an empty
// line where a section is not. Here the line of such a tag is gone already (tag_scanner.h); this sign, which
// no text has, keeps the library from leaving out the next line too.
constexpr char line_begins = '\x01';

std::string file_name(const std::string& slug, const std::string& format) {
  return slug + "." + format + extension;
}

/// The unit's own file, or the one that comes with the program.
std::optional<fs::path> find_file(const TemplateFolders& folders, const std::string& name) {
  std::error_code ignored;
  for (const fs::path& folder : {folders.own, folders.shipped}) {
    if (!folder.empty() && fs::is_regular_file(folder / name, ignored)) return folder / name;
  }
  return std::nullopt;
}

mustache::data data_of(const json& value) {
  if (value.is_string()) return mustache::data(value.get<std::string>());
  if (value.is_boolean()) return mustache::data(value.get<bool>());
  if (value.is_array()) {
    mustache::data list(mustache::data::type::list);
    for (const json& item : value) list.push_back(data_of(item));
    return list;
  }
  mustache::data object;
  for (const auto& [key, item] : value.items()) object.set(key, data_of(item));
  return object;
}

std::string as_it_stands(const std::string& text) {
  return text;
}

}  // namespace

class TemplateLoader {
 public:
  /// Notes the files that it reads in `used`.
  TemplateLoader(const TemplateFolders& folders, const std::string& format, std::set<std::string>& used)
      : folders_(folders), format_(format), used_(used) {}

  Result<LetterTemplate> load(const ledger::LetterKey& kind, const UnitDetails& unit) {
    const std::string slug = letter_slug(kind.letter, kind.recipient);
    const auto file = find_file(folders_, file_name(slug, format_));
    if (!file) return missing(slug, {});
    const auto bytes = read_file(file->string());
    if (!bytes) return bytes.errors();
    put_in(*bytes, file->string());
    LetterTemplate made;
    made.is_html_ = format_ == "html";
    const Errors faults = faults_of_template(pieces_, kind, unit, file->string(), made.is_html_);
    errors_.insert(errors_.end(), faults.begin(), faults.end());
    if (!errors_.empty()) return errors_;
    made.text_ = text();
    return made;
  }

 private:
  Error missing(const std::string& slug, const engine::Place& place) const {
    return {"missing_part", "there is no template `" + file_name(slug, format_) + "`", place,
            "it lies in the folder of `--templates`, or comes with the program"};
  }

  /// Cuts a file up, with those that it includes put in where they are named.
  void put_in(const std::string& bytes, const std::string& source) {
    open_.push_back(source);
    used_.insert(source);
    for (TemplatePiece& piece : scan_template(bytes, source, errors_)) {
      if (piece.sigil == '>') {
        include(piece);
      } else {
        pieces_.push_back(std::move(piece));
      }
    }
    open_.pop_back();
  }

  void include(const TemplatePiece& piece) {
    const auto file = find_file(folders_, file_name(piece.text, format_));
    if (!file || piece.text.find('/') != std::string::npos)
      return errors_.push_back(missing(piece.text, piece.place));
    if (std::find(open_.begin(), open_.end(), file->string()) != open_.end()) {
      return errors_.push_back(
          {"missing_part", "`" + piece.text + "` includes itself", piece.place, "take one of the two out"});
    }
    const auto bytes = read_file(file->string());
    if (bytes) return put_in(*bytes, file->string());
    errors_.insert(errors_.end(), bytes.errors().begin(), bytes.errors().end());
  }

  std::string text() const {
    std::string all;
    for (const TemplatePiece& piece : pieces_) {
      if (piece.sigil == 0) {
        all += piece.text;
      } else if (piece.sigil == 'v') {
        all += "{{" + piece.text + "}}";
      } else if (piece.sigil != '!') {
        all += "{{" + std::string(1, piece.sigil) + piece.text + "}}";
        if (piece.is_alone) all += line_begins;
      }
    }
    return all;
  }

  const TemplateFolders& folders_;
  const std::string& format_;
  std::set<std::string>& used_;
  std::vector<std::string> open_;
  std::vector<TemplatePiece> pieces_;
  Errors errors_;
};

std::string letter_slug(const std::string& letter, const std::string& recipient) {
  std::string slug = letter + "-" + recipient;
  std::replace(slug.begin(), slug.end(), ' ', '-');
  return slug;
}

const std::vector<ledger::LetterKey>& letter_kinds() {
  static const std::vector<ledger::LetterKey> kinds = {
      {"", "result", "patient"},          {"", "result", "family doctor"}, {"", "discharge", "patient"},
      {"", "discharge", "family doctor"}, {"", "invitation", "patient"},   {"", "reminder", "patient"},
      {"", "reminder", "family doctor"}};
  return kinds;
}

std::string LetterTemplate::render(const json& fields) const {
  mustache::mustache page(text_);
  if (!is_html_) page.set_custom_escape(as_it_stands);
  std::string text = page.render(data_of(fields));
  std::erase(text, line_begins);
  if (is_html_) return text;
  return laid_out(text);
}

namespace {

/// A file of the unit's own that no letter uses was meant for something: most likely its name is mistyped.
Errors unused_files(const TemplateFolders& folders, const std::string& format,
                    const std::set<std::string>& used) {
  Errors errors;
  if (folders.own.empty()) return errors;
  const auto files = files_in(folders.own);
  if (!files) return files.errors();
  std::vector<std::string> names;
  for (const ledger::LetterKey& kind : letter_kinds())
    names.push_back(file_name(letter_slug(kind.letter, kind.recipient), format));
  for (const fs::path& file : *files) {
    const std::string name = file.filename().string();
    if (!name.ends_with(file_name("", format)) || used.contains(file.string())) continue;
    const std::string near = engine::nearest(name, {names.begin(), names.end()});
    errors.push_back({"unused_template",
                      "no letter is made from `" + file.string() + "`",
                      {},
                      near.empty() ? "docs/letters.md has the names" : "did you mean `" + near + "`?"});
  }
  return errors;
}

/// Parts that several letters include are wrong once.
Errors each_once(Errors errors) {
  std::set<std::string> told;
  std::erase_if(errors, [&](const Error& error) { return !told.insert(engine::text_of(error)).second; });
  return errors;
}

}  // namespace

Result<LetterTemplates> load_templates(const TemplateFolders& folders, const std::string& format,
                                       const UnitDetails& unit) {
  LetterTemplates templates;
  std::set<std::string> used;
  Errors errors;
  for (const ledger::LetterKey& kind : letter_kinds()) {
    TemplateLoader loader(folders, format, used);
    auto loaded = loader.load(kind, unit);
    if (loaded) {
      templates.emplace(letter_slug(kind.letter, kind.recipient), std::move(*loaded));
    } else {
      errors.insert(errors.end(), loaded.errors().begin(), loaded.errors().end());
    }
  }
  const Errors unused = unused_files(folders, format, used);
  errors.insert(errors.end(), unused.begin(), unused.end());
  if (!errors.empty()) return each_once(std::move(errors));
  return templates;
}

}  // namespace cli
