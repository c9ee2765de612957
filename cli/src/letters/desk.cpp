#include "letters/desk.h"

#include <regex>

#include "engine/canonical.h"
#include "ledger_access.h"
#include "letters/fields.h"
#include "letters/words.h"

namespace cli {

namespace fs = std::filesystem;
using engine::Done;
using engine::Result;
using ledger::LetterFacts;

namespace {

constexpr const char* part = ".part";

std::vector<std::string> notes_for_the_office(const LetterFacts& facts, const std::string& format) {
  std::vector<std::string> notes;
  if (facts.address.empty()) notes.emplace_back("no address on record: look it up");
  if (reader_of(facts) == Reader::doctor) return notes;
  for (std::string& note : reading_notes(facts, format)) notes.push_back(std::move(note));
  return notes;
}

/// `118-P17-result-patient.html.part`: no name of a person is in it.
std::string part_name(const LetterFacts& facts, const std::string& format) {
  return std::to_string(facts.tells) + "-" + facts.person.person + "-" +
         letter_slug(facts.key.letter, facts.key.recipient) + "." + format + part;
}

bool is_part_of_ours(const fs::path& file) {
  static const std::regex pattern(
      R"(\d+-P\d+-(result|discharge|invitation|reminder)-(patient|family-doctor)\.(html|txt)\.part)");
  return std::regex_match(file.filename().string(), pattern);
}

}  // namespace

LetterDesk::LetterDesk(ledger::Ledger& ledger, const ledger::Author& author, Setting setting, FolderLock lock)
    : ledger_(ledger), author_(author), setting_(std::move(setting)), lock_(std::move(lock)) {}

Result<LetterDesk> LetterDesk::open(ledger::Ledger& ledger, const ledger::Author& author, Setting setting) {
  if (auto made = make_folder(setting.folder); !made) return made.errors();
  auto lock = FolderLock::take(setting.folder);
  if (!lock) return lock.errors();
  return LetterDesk(ledger, author, std::move(setting), std::move(*lock));
}

/// `L131-P17.html`
Result<fs::path> LetterDesk::name_file(const fs::path& file, std::uint64_t entry, const std::string& person) {
  const std::string extension = file.stem().extension().string();
  const auto named =
      move_to(file, setting_.folder / ("L" + std::to_string(entry) + "-" + person + extension));
  if (!named) return named.errors();
  if (*named) return **named;
  return engine::Error{"unmovable_file",
                       "`" + file.string() + "` is gone",
                       {},
                       "`letter show " + std::to_string(entry) + "` prints the letter"};
}

Result<std::vector<std::string>> LetterDesk::finish_interrupted() {
  std::vector<std::string> lines;
  const auto files = files_in(setting_.folder);
  if (!files) return files.errors();
  for (const fs::path& file : *files) {
    if (!is_part_of_ours(file)) continue;
    const auto bytes = read_file(file.string());
    if (!bytes) return bytes.errors();
    const auto issued = ledger::letter_with(ledger_, engine::digest_text(*bytes));
    if (!issued) return issued.errors();
    if (*issued) {
      const auto named = name_file(file, (*issued)->entry, (*issued)->person);
      if (!named) return named.errors();
      lines.push_back("finished from an interrupted run: " + named->filename().string());
    } else {
      if (auto removed = remove_file(file); !removed) return removed.errors();
      lines.push_back("taken away from an interrupted run, never sent: " + file.filename().string());
    }
  }
  return lines;
}

Result<std::string> LetterDesk::title_of(const LetterFacts& facts) {
  if (facts.ruleset_digest.empty()) return std::string();
  std::string& title = titles_[facts.ruleset_digest];
  if (!title.empty()) return title;
  auto read = ledger::ruleset_title(ledger_, facts.ruleset_digest);
  if (read) title = *read;
  return read;
}

Result<MadeLetter> LetterDesk::make(const ledger::LetterKey& key, const ledger::Permission& permission) {
  const auto facts = ledger::letter_facts(ledger_, key, permission);
  if (!facts) return facts.errors();
  const auto title = title_of(*facts);
  if (!title) return title.errors();
  const LetterTemplate& letter = setting_.templates.at(letter_slug(key.letter, key.recipient));
  const std::string text =
      letter.render(letter_fields(*facts, {setting_.unit, author_.clock.today(), *title}));
  const fs::path file = setting_.folder / part_name(*facts, setting_.format);
  if (auto written = write_draft(file, text); !written) return written.errors();
  const auto entry = ledger::issue_letter(ledger_, author_, {key, facts->tells, text, permission});
  if (!entry) {
    // After a fault of the ledger itself the next run looks whether it was noted.
    if (code_of(entry.errors()) != ExitCode::ledger_fault) (void)remove_file(file);
    return entry.errors();
  }
  const auto named = name_file(file, *entry, facts->person.person);
  if (!named) return named.errors();
  return MadeLetter{*entry, *named, facts->person, notes_for_the_office(*facts, setting_.format)};
}

}  // namespace cli
