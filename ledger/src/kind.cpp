#include "ledger/kind.h"

#include <array>
#include <cstddef>

namespace ledger {

namespace {

struct Row {
  Kind kind;
  std::string_view text;
  Topic topic;
};

using enum Kind;

// In the order of the enumeration.
constexpr std::array<Row, 44> rows = {{
    {person_registered, "person registered", Topic::person},
    {person_amended, "person amended", Topic::person},
    {person_died, "person died", Topic::person},
    {person_death_reversed, "person death reversed", Topic::person},
    {person_moved_away, "person moved away", Topic::person},
    {person_moved_back, "person moved back", Topic::person},
    {person_merged, "person merged", Topic::person},
    {person_merge_reversed, "person merge reversed", Topic::person},
    {person_told_apart, "person told apart", Topic::person},
    {examination_recorded, "examination recorded", Topic::examination},
    {examination_amended, "examination amended", Topic::examination},
    {specimen_sent, "specimen sent", Topic::examination},
    {histology_entered, "histology entered", Topic::examination},
    {histology_amended, "histology amended", Topic::examination},
    {histology_withdrawn, "histology withdrawn", Topic::examination},
    {advice_given, "advice given", Topic::advice},
    {advice_signed, "advice signed", Topic::advice},
    {advice_overridden, "advice overridden", Topic::advice},
    {advice_superseded, "advice superseded", Topic::advice},
    {recall_opened, "recall opened", Topic::recall},
    {recall_vetted, "recall vetted", Topic::recall},
    {recall_redated, "recall redated", Topic::recall},
    {recall_not_ready, "recall not ready", Topic::recall},
    {recall_invited, "recall invited", Topic::recall},
    {recall_booked, "recall booked", Topic::recall},
    {recall_cancelled, "recall cancelled", Topic::recall},
    {recall_did_not_attend, "recall did not attend", Topic::recall},
    {recall_attended, "recall attended", Topic::recall},
    {recall_handed_over, "recall handed over", Topic::recall},
    {recall_taken_back, "recall taken back", Topic::recall},
    {recall_answered, "recall answered", Topic::recall},
    {recall_closed, "recall closed", Topic::recall},
    {recall_reopened, "recall reopened", Topic::recall},
    {letter_issued, "letter issued", Topic::letter},
    {ruleset_installed, "ruleset installed", Topic::governance},
    {protocol_adopted, "protocol adopted", Topic::governance},
    {account_named, "account named", Topic::governance},
    {account_withdrawn, "account withdrawn", Topic::governance},
    {input_refused, "input refused", Topic::input},
    {input_unmatched, "input unmatched", Topic::input},
    {input_settled, "input settled", Topic::input},
    {backup, "backup", Topic::governance},
    {checkpoint, "checkpoint", Topic::governance},
    {letter_withheld, "letter withheld", Topic::letter},
}};

constexpr bool in_order() {
  for (std::size_t i = 0; i < rows.size(); ++i) {
    if (rows[i].kind != static_cast<Kind>(i)) return false;
  }
  return rows.size() == static_cast<std::size_t>(letter_withheld) + 1;
}
static_assert(in_order());

}  // namespace

std::string_view text_of(Kind kind) {
  return rows.at(static_cast<std::size_t>(kind)).text;
}

Topic topic_of(Kind kind) {
  return rows.at(static_cast<std::size_t>(kind)).topic;
}

std::optional<Kind> kind_of(std::string_view text) {
  for (const Row& row : rows) {
    if (row.text == text) return row.kind;
  }
  return std::nullopt;
}

}  // namespace ledger
