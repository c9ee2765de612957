// dueward letter make: the letters that are owed are written into a folder, each once.

#include "commands/letter_make.h"

#include <CLI/CLI.hpp>
#include <iostream>
#include <memory>
#include <nlohmann/json.hpp>

#include "engine/canonical.h"
#include "ledger/letters.h"
#include "ledger_access.h"
#include "letters/desk.h"
#include "lists/people.h"
#include "report/caution.h"
#include "report/errors.h"
#include "report/layout.h"
#include "shipped_folder.h"

namespace cli {

namespace {

using ledger::LetterKey;
using ledger::OwedLetter;

struct TemplateOptions : LedgerOptions {
  std::string unit, templates;
};

struct MakeOptions : TemplateOptions {
  std::vector<std::string> about;  ///< Examinations, recalls or people; empty: all.
  std::string folder, letter, recipient, from;
  std::string format = "html";
  ledger::Permission permission;
};

std::string text_of(const LetterKey& key) {
  return key.letter + " to " + key.recipient + ", " + key.exam;
}

// --- templates

UnitDetails unit_of(const TemplateOptions& options) {
  if (!options.unit.empty()) return require(read_unit(options.unit), ExitCode::unreadable_input);
  fail(ExitCode::wrong_usage,
       {"no_unit",
        "no unit is named: a letter says who writes it and whom to ring",
        {},
        "name its file with `--unit FILE` or in DUEWARD_UNIT; docs/letters.md has an example"});
}

TemplateFolders folders_of(const TemplateOptions& options) {
  const auto shipped = shipped_folder("letters", DUEWARD_SOURCE_LETTERS);
  if (!shipped && options.templates.empty()) {
    fail(ExitCode::unreadable_input,
         {"no_templates", "no folder of templates is found", {}, "name it with `--templates DIR`"});
  }
  return {options.templates, shipped.value_or(std::filesystem::path())};
}

LetterTemplates templates_of(const TemplateOptions& options, const std::string& format,
                             const UnitDetails& unit) {
  return require(load_templates(folders_of(options), format, unit), ExitCode::unreadable_input);
}

ExitCode check(const TemplateOptions& options) {
  const UnitDetails unit = unit_of(options);
  std::size_t count = 0;
  for (const char* format : {"html", "txt"}) count += templates_of(options, format, unit).size();
  std::cout << count << " templates can be used; letters name " << unit.name << " and " << unit.telephone
            << '\n';
  return ExitCode::done;
}

// --- making

bool is_about(const std::string& word, const OwedLetter& owed) {
  return word == owed.key.exam || word == owed.recall || word == owed.person.person;
}

bool is_asked_for(const MakeOptions& options, const OwedLetter& owed) {
  return (options.letter.empty() || options.letter == owed.key.letter) &&
         (options.recipient.empty() || options.recipient == owed.key.recipient) &&
         (options.from.empty() || options.from <= owed.since);
}

/// A letter that is asked for by name and not owed: the ledger says why, unless a reason permits it.
void add_named(const MakeOptions& options, const std::string& exam, std::vector<LetterKey>& keys) {
  if (options.letter.empty() || options.recipient.empty()) {
    fail(ExitCode::wrong_usage,
         {"nothing_owed",
          "no letter is owed about `" + exam + "`",
          {},
          "to make one again, name it: `--letter`, `--recipient` and `--again REASON`"});
  }
  keys.push_back({exam, options.letter, options.recipient});
}

std::vector<LetterKey> keys_of(const MakeOptions& options, const std::vector<OwedLetter>& owed) {
  std::vector<LetterKey> keys;
  if (options.about.empty()) {
    for (const OwedLetter& letter : owed) {
      if (is_asked_for(options, letter)) keys.push_back(letter.key);
    }
    return keys;
  }
  for (const std::string& word : options.about) {
    const std::size_t before = keys.size();
    for (const OwedLetter& letter : owed) {
      if (is_about(word, letter) && is_asked_for(options, letter)) keys.push_back(letter.key);
    }
    if (keys.size() == before) add_named(options, word, keys);
  }
  return keys;
}

/// What a permission is for must be named: it is not given to letters that nobody looked at.
void check_permission(const MakeOptions& options) {
  const bool permits = !options.permission.again.empty() || !options.permission.told_by.empty();
  if (!permits || options.about.size() == 1) return;
  fail(ExitCode::wrong_usage,
       {"not_named", "`--again` and `--told` are for one examination, named by its id", {}, ""});
}

void print(const MakeOptions& options, const LetterKey& key, const MadeLetter& made) {
  if (options.json) {
    std::cout << engine::canonical_json({{"entry", made.entry},
                                         {"file", made.file.filename().string()},
                                         {"exam", key.exam},
                                         {"letter", key.letter},
                                         {"to", key.recipient},
                                         {"person", made.person.person},
                                         {"notes", made.notes}})
              << '\n';
    return;
  }
  std::cout << wrapped(made.file.filename().string() + "  " + text_of(key) + ": " + who(made.person), 2);
  for (const std::string& note : made.notes) std::cout << wrapped("  " + note, 4);
}

void print_refusal(const MakeOptions& options, const LetterKey& key, const engine::Errors& errors) {
  if (options.json) {
    nlohmann::json line = nlohmann::json::parse(json_of(errors));
    line.update({{"exam", key.exam}, {"letter", key.letter}, {"to", key.recipient}});
    std::cout << engine::canonical_json(line) << '\n';
    return;
  }
  std::cout << wrapped("not made: " + text_of(key) + ": " + errors.front().message, 2);
  if (!errors.front().help.empty()) std::cout << wrapped("  " + errors.front().help, 4);
}

std::string count_of_letters(std::size_t count) {
  return std::to_string(count) + (count == 1 ? " letter" : " letters");
}

void print_end(const MakeOptions& options, std::size_t made, std::size_t refused) {
  if (options.json) return;
  std::cout << wrapped(count_of_letters(made) + " made in " + options.folder + ", " +
                       std::to_string(refused) +
                       " not made. Next: print and send them; `dueward letters` lists what is still owed.")
            << caution << '\n';
}

ExitCode make_all(const MakeOptions& options, LetterDesk& desk, const std::vector<LetterKey>& keys) {
  std::size_t made = 0, refused = 0;
  for (const LetterKey& key : keys) {
    const auto letter = desk.make(key, options.permission);
    if (letter) {
      ++made;
      print(options, key, *letter);
      continue;
    }
    // What concerns this letter leaves the others to be made; a fault of ledger or folder ends the run.
    const std::string& code = letter.errors().front().code;
    if (code_of(letter.errors()) == ExitCode::ledger_fault)
      throw Failure{ExitCode::ledger_fault, letter.errors()};
    if (code == "unwritable_file" || code == "unmovable_file")
      throw Failure{ExitCode::unreadable_input, letter.errors()};
    ++refused;
    print_refusal(options, key, letter.errors());
  }
  print_end(options, made, refused);
  return refused == 0 ? ExitCode::done : ExitCode::needs_a_person;
}

ExitCode make(const MakeOptions& options) {
  check_permission(options);
  if (!options.from.empty()) (void)date_of("--from", options.from);
  const UnitDetails unit = unit_of(options);
  LetterDesk::Setting setting{options.folder, options.format == "text" ? "txt" : "html", unit, {}};
  setting.templates = templates_of(options, setting.format, unit);
  ledger::Ledger ledger = open_ledger(options, ledger::Ledger::Access::write);
  const UnitClock clock = clock_of(options);
  const ledger::Author author = author_of(options, clock);
  LetterDesk desk = require(LetterDesk::open(ledger, author, std::move(setting)), ExitCode::unreadable_input);
  for (const std::string& line : require(desk.finish_interrupted(), ExitCode::unreadable_input))
    std::cerr << line << '\n';
  return make_all(options, desk, keys_of(options, from_ledger(ledger::letters_owed(ledger, {}))));
}

// --- options

void add_template_options(CLI::App& command, TemplateOptions& options) {
  command.add_option("--unit", options.unit, "File with the unit's name, address and telephone")
      ->envname("DUEWARD_UNIT")
      ->type_name("FILE");
  command.add_option("--templates", options.templates, "Folder of the unit's own templates")
      ->type_name("DIR");
}

void add_make(CLI::App& letter, Run& run) {
  const auto options = std::make_shared<MakeOptions>();
  CLI::App* command = letter.add_subcommand("make", "Write the letters that are owed into a folder");
  command->add_option("about", options->about, "Examinations, recalls (R12) or people (P17); left out: all")
      ->type_name("ID");
  command->add_option("--to", options->folder, "The folder, one file a letter")->required()->type_name("DIR");
  command->add_option("--format", options->format, "html (left out) or text")
      ->type_name("FORMAT")
      ->check(CLI::IsMember({"html", "text"}));
  command->add_option("--letter", options->letter, "Only these: result, discharge, invitation, reminder")
      ->type_name("NAME");
  command->add_option("--recipient", options->recipient, "Only to: patient, family doctor")
      ->type_name("NAME");
  command->add_option("--from", options->from, "Only what was signed, or tried, on this day or later")
      ->type_name("YYYY-MM-DD");
  command->add_option("--again", options->permission.again, "Why a letter that went out is made again")
      ->type_name("REASON");
  command->add_option("--told", options->permission.told_by, "Who has spoken with a patient who has a cancer")
      ->type_name("NAME");
  add_template_options(*command, *options);
  add_writing_options(*command, *options);
  add_json_option(*command, *options);
  when_asked(*command, run, [options] { return make(*options); });
}

void add_check(CLI::App& letter, Run& run) {
  const auto options = std::make_shared<TemplateOptions>();
  CLI::App* command = letter.add_subcommand("check", "Check the unit file and the unit's own templates");
  add_template_options(*command, *options);
  add_json_option(*command, *options);
  when_asked(*command, run, [options] { return check(*options); });
}

}  // namespace

void add_letter_make(CLI::App& letter, Run& run) {
  add_make(letter, run);
  add_check(letter, run);
}

}  // namespace cli
