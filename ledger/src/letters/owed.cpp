// The list of letters that are owed.

#include <algorithm>
#include <tuple>

#include "database/store.h"
#include "database/view.h"
#include "json_fields.h"
#include "ledger/letters.h"
#include "letters/obstacles.h"
#include "letters/standing.h"

namespace ledger {

using engine::Done;
using engine::Error;
using engine::Result;

namespace {

OwedLetter line_of(const OwingCase& owing) {
  OwedLetter line;
  line.key = {owing.about.examination.exam, "", owing.recipient};
  line.person = owing.about.person;
  line.examination = owing.about.examination;
  line.risk = owing.about.risk;
  return line;
}

std::string why_owed(Transaction& transaction, const LetterKey& key, const std::string& otherwise) {
  for (const char* letter : {"result", "discharge"}) {
    const auto known = find_letter(transaction, {key.exam, letter, key.recipient});
    if (known && !known->another_because.empty())
      return "the one of " + known->on + " is not right any more: " + known->another_because;
    if (known && !known->gone.empty())
      return "withheld on " + known->on + " after `" + known->gone + "` was noted: " + known->withheld;
  }
  return otherwise;
}

/// The list goes by the findings in a line; the letter itself looks into the record (facts.cpp).
bool tells_a_cancer(const OwedLetter& line) {
  return line.key.recipient == "patient" && line.examination.findings.find("cancer") != std::string::npos;
}

void set_obstacle(OwedLetter& line, const std::optional<Error>& first, const std::optional<Error>& second) {
  if (first) line.obstacle = first->message;
  if (!first && second) line.obstacle = second->message;
}

OwedLetter result_line(Transaction& transaction, const OwingCase& owing, const Disputes& disputes) {
  const Standing standing = standing_of_signature(transaction, owing.about);
  OwedLetter line = line_of(owing);
  line.key.letter = is_stop(standing.action) ? "discharge" : "result";
  line.since = text_at(standing.signed_body, "on");
  line.says = line_of(standing);
  line.because = why_owed(transaction, line.key,
                          "signed by " + text_at(standing.signed_body, "clinician") + ", no letter yet");
  std::optional<Error> second = obstacle_of_signature(owing.about);
  if (!second && tells_a_cancer(line)) second = person_first(line.key.exam);
  set_obstacle(line, obstacle_of(line.person, disputes), second);
  return line;
}

OwedLetter invitation_line(Transaction& transaction, const OwingCase& owing, const Disputes& disputes) {
  const CaseRecall& recall = *owing.about.recall;
  OwedLetter line = line_of(owing);
  line.key.letter = letter_of_attempt(recall);
  line.recall = recall.id();
  line.since = recall.last_attempt;
  line.says = line_of(standing_of_recall(transaction, owing.about));
  line.because = "attempt " + std::to_string(recall.attempts) + " (" + recall.means + "), no letter yet";
  set_obstacle(line, obstacle_of(line.person, disputes), obstacle_of(recall));
  return line;
}

std::vector<OwedLetter> part_of(std::vector<OwedLetter> lines, const Page& page) {
  const std::size_t first = std::min<std::size_t>(page.offset, lines.size());
  lines.erase(lines.begin(), lines.begin() + static_cast<std::ptrdiff_t>(first));
  if (page.limit != 0 && page.limit < lines.size()) lines.resize(page.limit);
  return lines;
}

}  // namespace

Result<std::vector<OwedLetter>> letters_owed(const Ledger& ledger, const Page& page) {
  std::vector<OwedLetter> lines;
  const auto done = ledger.store().read([&](Transaction& transaction) -> Result<Done> {
    const Disputes disputes = disputes_in(transaction);
    for (const OwingCase& owing : cases_owing_a_result(transaction))
      lines.push_back(result_line(transaction, owing, disputes));
    for (const OwingCase& owing : cases_owing_an_invitation(transaction))
      lines.push_back(invitation_line(transaction, owing, disputes));
    return Done{};
  });
  if (!done) return done.errors();
  std::sort(lines.begin(), lines.end(), [](const OwedLetter& a, const OwedLetter& b) {
    return std::tie(a.risk, a.since, a.key.exam, a.key.letter, b.key.recipient) <
           std::tie(b.risk, b.since, b.key.exam, b.key.letter, a.key.recipient);
  });
  return part_of(std::move(lines), page);
}

}  // namespace ledger
