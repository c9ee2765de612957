#include "rulesets/proofs.h"

#include <algorithm>
#include <cctype>
#include <sstream>

#include "engine/laws.h"
#include "rulesets/table_faults.h"

namespace cli {

namespace {

using engine::Error;

/// Whether `line` names `row` as a word: `20-1` is not in `20-10`.
bool names(const std::string& line, const std::string& row) {
  const auto is_part = [](char c) { return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '-'; };
  for (std::size_t at = line.find(row); at != std::string::npos; at = line.find(row, at + 1)) {
    const std::size_t end = at + row.size();
    if ((at == 0 || !is_part(line[at - 1])) && (end == line.size() || !is_part(line[end]))) return true;
  }
  return false;
}

/// Whether SOURCES.md says that the guideline itself breaks the law there.
bool is_excused(const engine::LawBreak& broken, const std::string& sources) {
  std::istringstream lines(sources);
  bool in_section = false;
  for (std::string line; std::getline(lines, line);) {
    if (line.rfind("## ", 0) == 0) in_section = line == "## Where more is not sooner";
    if (!in_section || broken.rule.empty() || !names(line, broken.rule)) continue;
    if (broken.worse_rule.empty() || names(line, broken.worse_rule)) return true;
  }
  return false;
}

std::string in_words(const engine::LawReport& law, const engine::LawBreak& broken) {
  std::string text =
      "`" + law.law + "` does not hold for " + law.shape + ": " + broken.answer + " (" + broken.rule + ")";
  if (!broken.worse_rule.empty()) text += ", but " + broken.worse_answer + " (" + broken.worse_rule + ")";
  return text;
}

std::string plural(std::size_t count, const std::string& noun) {
  return std::to_string(count) + " " + noun + (count == 1 ? "" : "s");
}

}  // namespace

Proofs prove(const std::shared_ptr<const engine::Ruleset>& ruleset, const std::string& source,
             const std::string& sources_text, std::uint32_t budget) {
  Proofs proofs;
  TablesLookedAt tables = look_at_tables(ruleset, source);
  proofs.faults = std::move(tables.faults);

  std::size_t laws = 0, incomplete = 0, excused = 0;
  std::uint64_t runs = 0;
  for (const engine::LawReport& law : engine::prove_laws(ruleset, budget)) {
    ++laws;
    runs += law.runs;
    if (!law.complete) ++incomplete;
    for (const engine::LawBreak& broken : law.breaks) {
      if (is_excused(broken, sources_text)) {
        ++excused;
        continue;
      }
      Error error{"law_broken",
                  in_words(law, broken),
                  {},
                  "shown by the record " + broken.record +
                      (broken.worse_record.empty() ? "" : " and the record " + broken.worse_record) +
                      "; when the guideline says so, name both rows in SOURCES.md under "
                      "`## Where more is not sooner`"};
      error.place.source = source;
      proofs.faults.push_back(std::move(error));
    }
  }
  proofs.text = plural(tables.tables, "table") + " without gap or overlap";
  if (!tables.not_shown.empty() || !proofs.faults.empty())
    proofs.text = plural(tables.tables, "table") + " looked at";
  proofs.text += "; " + plural(laws, "law") + " tried over " + plural(runs, "way");
  if (excused > 0) proofs.text += ", " + std::to_string(excused) + " broken where the guideline says so";
  if (incomplete > 0) proofs.text += ", " + std::to_string(incomplete) + " not to the end (`--budget`)";
  for (const std::string& open : tables.not_shown) proofs.text += "\n  not shown: " + open;
  return proofs;
}

}  // namespace cli
