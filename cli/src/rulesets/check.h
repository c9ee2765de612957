// What can be said against a ruleset without a patient, beyond what loading refuses.

#pragma once

#include <filesystem>
#include <memory>
#include <string>
#include <vector>

#include "engine/ruleset.h"

namespace cli {

/// Folders whose rulesets call themselves by one id: `duplicate_ruleset`, each pair named.
engine::Errors duplicate_ids(const std::filesystem::path& folder);

/// Answers that the engine would refuse or nobody could follow, as far as the text shows them:
/// `unknown_action` and `unknown_ask_instead`. `known` are the rulesets of the folder. Table and rule are
/// named.
engine::Errors faulty_words(const engine::Ruleset& ruleset, const std::vector<std::string>& known,
                            const std::string& source);

struct Trial {
  std::size_t records = 0;  ///< Tried: engine/representative.h.
  engine::Errors refused;   ///< `refused_record`: for each fault the plainest record that meets it.
};

/// Whether every representative record gets an answer: a gap, an overlap or an error in the rules is a
/// refusal.
Trial try_records(const std::shared_ptr<const engine::Ruleset>& ruleset, const std::string& source);

/// `unknown_ask_instead` for an id that an answer names and the folder has not.
engine::Error unknown_ask_instead(const std::string& id, const std::vector<std::string>& known,
                                  const std::string& source, const std::string& place);

}  // namespace cli
