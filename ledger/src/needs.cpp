// What is to be thought of before the examination, in one order on every list.

#include <algorithm>
#include <array>
#include <cctype>
#include <string_view>
#include <utility>

#include "ledger/particulars.h"
#include "measures/counting.h"

namespace ledger {

namespace {

using engine::Examination;

constexpr std::string_view poor_preparation = "poor preparation last time";
constexpr std::string_view incomplete = "incomplete last time";
constexpr std::string_view complication = "complication last time";

// Common practice of pre-assessment: what may have to be stopped or given otherwise first, then what decides
// where, when and how the person is examined.
constexpr auto known = std::to_array<std::string_view>(
    {"anticoagulant", "antiplatelet", "kidney disease", "diabetes", poor_preparation, incomplete,
     "difficult last time", complication, "pacemaker", "allergy", "sedation", "escort", "mobility",
     "interpreter", "language", "format"});

bool same_letter(char a, char b) {
  return std::tolower(static_cast<unsigned char>(a)) == std::tolower(static_cast<unsigned char>(b));
}

/// `allergy` and `Allergy: latex` are both of the kind `allergy`.
bool is_of(std::string_view flag, std::string_view word) {
  if (flag.size() < word.size() || !std::equal(word.begin(), word.end(), flag.begin(), same_letter))
    return false;
  return flag.size() == word.size() || std::isalnum(static_cast<unsigned char>(flag[word.size()])) == 0;
}

std::size_t rank_of(const NeedLine& need) {
  const auto at =
      std::find_if(known.begin(), known.end(), [&](std::string_view word) { return is_of(need.flag, word); });
  return static_cast<std::size_t>(at - known.begin());
}

/// The known word in its one spelling, and what the record adds to it.
void spell(NeedLine& need) {
  const std::size_t rank = rank_of(need);
  if (rank < known.size()) need.flag.replace(0, known[rank].size(), known[rank]);
}

std::string source_of(const Examination& last) {
  return (last.id.empty() ? "examination" : "examination " + last.id) + " on " + engine::text_of(last.date);
}

std::string complications_of(const Examination& last) {
  std::string text;
  for (const engine::Complication& one : *last.complications)
    text += (text.empty() ? ": " : ", ") + std::string(engine::text_of(one.kind));
  return text;
}

void add_last_time(std::vector<NeedLine>& needs, const Examination& last) {
  if (adequate_preparation(last) == false)
    needs.push_back({std::string(poor_preparation), "", source_of(last)});
  if (is_colonoscopy(last) && reached_the_end(last) == false)
    needs.push_back(
        {std::string(incomplete) + ": reached " + std::string(engine::text_of(last.reached.value)), "",
         source_of(last)});
  if (last.complications && !last.complications->empty())
    needs.push_back({std::string(complication) + complications_of(last), "", source_of(last)});
}

}  // namespace

std::vector<NeedLine> in_order(std::vector<NeedLine> needs, const std::optional<Examination>& last) {
  if (last) add_last_time(needs, *last);
  for (NeedLine& need : needs) spell(need);
  std::stable_sort(needs.begin(), needs.end(),
                   [](const NeedLine& a, const NeedLine& b) { return rank_of(a) < rank_of(b); });
  return needs;
}

}  // namespace ledger
