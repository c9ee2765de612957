#include "ledger/kind.h"

#include <array>
#include <cstddef>

namespace ledger {

namespace {

// In the order of the enumeration.
constexpr std::array<std::string_view, 32> texts = {
    "person registered",     "person amended",      "person died",        "person moved away",
    "examination recorded",  "examination amended", "specimen sent",      "histology entered",
    "histology amended",     "advice given",        "advice signed",      "advice overridden",
    "advice superseded",     "recall opened",       "recall vetted",      "recall redated",
    "recall not ready",      "recall invited",      "recall booked",      "recall cancelled",
    "recall did not attend", "recall attended",     "recall handed over", "recall taken back",
    "recall answered",       "recall closed",       "recall reopened",    "ruleset installed",
    "input refused",         "input unmatched",     "input settled",      "checkpoint"};
static_assert(texts.size() == static_cast<std::size_t>(Kind::checkpoint) + 1);

}  // namespace

std::string_view text_of(Kind kind) {
  return texts.at(static_cast<std::size_t>(kind));
}

std::optional<Kind> kind_of(std::string_view text) {
  for (std::size_t i = 0; i < texts.size(); ++i) {
    if (texts[i] == text) return static_cast<Kind>(i);
  }
  return std::nullopt;
}

}  // namespace ledger
