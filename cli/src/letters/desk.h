// Where letters are written: a folder of files and the ledger, kept in step. The order is file, entry, name:
// a letter is first written as `....part`, then noted in the ledger, then given its name. Whatever ends the
// program in between, the next run finishes what was noted and takes away what was not.

#pragma once

#include <filesystem>
#include <map>
#include <string>
#include <vector>

#include "engine/result.h"
#include "ledger/ledger.h"
#include "ledger/letters.h"
#include "letters/template.h"
#include "letters/unit.h"
#include "system/files.h"

namespace cli {

struct MadeLetter {
  std::uint64_t entry = 0;
  std::filesystem::path file;
  ledger::PersonLine person;
  std::vector<std::string> notes;  ///< What the administrator has to know: another language, large print.
};

class LetterDesk {
 public:
  struct Setting {
    std::filesystem::path folder;
    std::string format;  ///< `html` or `txt`
    UnitDetails unit;
    LetterTemplates templates;
  };

  /// Keeps other desks out of the folder. Fails as FolderLock and make_folder.
  static engine::Result<LetterDesk> open(ledger::Ledger& ledger, const ledger::Author& author,
                                         Setting setting);

  /// Finishes what an interrupted run left behind. Gives a line for each.
  engine::Result<std::vector<std::string>> finish_interrupted();

  /// Fails as letter_facts and issue_letter do (ledger/letters.h), and as files do.
  engine::Result<MadeLetter> make(const ledger::LetterKey& key, const ledger::Permission& permission);

 private:
  LetterDesk(ledger::Ledger& ledger, const ledger::Author& author, Setting setting, FolderLock lock);
  engine::Result<std::string> title_of(const ledger::LetterFacts& facts);
  engine::Result<std::filesystem::path> name_file(const std::filesystem::path& part, std::uint64_t entry,
                                                  const std::string& person);

  ledger::Ledger& ledger_;
  const ledger::Author& author_;
  Setting setting_;
  FolderLock lock_;
  std::map<std::string, std::string> titles_;  ///< Of rulesets, by digest.
};

}  // namespace cli
