// What one or several rulesets answered about one record.

#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "engine/advice.h"

namespace cli {

/// One answer: its own line. Several: the one that counts (ledger/choice.h) with all of them under `answers`.
/// Without line feed.
std::string json_of(const std::vector<engine::Advice>& answers);

/// For a person; ends with the caution. `source` names the record, for those that were refused.
std::string text_of(const std::vector<engine::Advice>& answers, const std::string& source);

/// `records.jsonl:12`, `standard input:12`.
std::string source_of(const std::string& path, std::uint64_t line);

}  // namespace cli
