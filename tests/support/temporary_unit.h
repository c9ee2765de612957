// A folder with rulesets made for tests, a ledger that does not exist yet, and the words that name them.

#pragma once

#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

#include "support/run_program.h"
#include "support/small_protocol.h"
#include "support/temporary_folder.h"

namespace support {

inline void write_file(const std::filesystem::path& path, std::string_view text) {
  std::filesystem::create_directories(path.parent_path());
  std::ofstream(path, std::ios::binary) << text;
}

inline std::string read_text(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

struct TemporaryUnit {
  TemporaryFolder folder;
  std::string rulesets = folder.file("rulesets");
  std::string ledger = folder.file("unit.ledger");
  std::string today = "2026-03-20";

  /// Rulesets `test-a` (small_protocol) and `test-b`, which always asks for a colonoscopy after a year.
  TemporaryUnit() {
    write_file(rulesets + "/test-a/ruleset.dmn", small_protocol().front().bytes);
    write_file(rulesets + "/test-b/ruleset.dmn",
               small_dmn("test-b", small_answer("surveillance colonoscopy", "P1Y", "P1Y", "T-01")));
    write_manifest();
  }

  /// Vouches for the rulesets as they are now.
  void write_manifest() const { run_program({"rulesets", "verify", "--write", "--rulesets", rulesets}); }

  std::string file(const std::string& name, std::string_view text) const {
    write_file(folder.file(name), text);
    return folder.file(name);
  }

  /// `advise` with `--ruleset test-a` unless `words` name another.
  Finished advise(std::vector<std::string> words, std::string_view input = {}) const {
    bool names_one = false;
    for (const std::string& word : words) names_one = names_one || word == "--ruleset";
    words.insert(words.begin(), "advise");
    if (!names_one) words.insert(words.end(), {"--ruleset", "test-a"});
    words.insert(words.end(), {"--rulesets", rulesets, "--today", today});
    return run_program(words, input);
  }

  /// A command of the ledger that gives advice: `record`, `result`, `serve`.
  Finished receive(std::vector<std::string> words, std::string_view input = {}) const {
    words.insert(words.end(),
                 {"--ledger", ledger, "--rulesets", rulesets, "--ruleset", "test-a", "--today", today});
    return run_program(words, input);
  }

  /// Any other command of the ledger.
  Finished run(std::vector<std::string> words) const {
    words.insert(words.end(), {"--ledger", ledger});
    return run_program(words);
  }
  Finished run_today(std::vector<std::string> words) const {
    words.insert(words.end(), {"--today", today});
    return run(std::move(words));
  }
};

}  // namespace support
