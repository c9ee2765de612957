#include "rulesets/proofs.h"

#include <algorithm>
#include <map>
#include <sstream>

#include "engine/advice.h"
#include "engine/laws.h"
#include "engine/representative.h"
#include "engine/table_proof.h"

namespace cli {

namespace {

using engine::Error;

Error placed(std::string code, std::string message, std::string help, const std::string& source, const std::string& place) {
  Error error{std::move(code), std::move(message), {}, std::move(help)};
  error.place.source = source;
  error.place.path = place;
  return error;
}

/// The plainest made record that shows something of a table.
class Witnesses {
 public:
  explicit Witnesses(const std::shared_ptr<const engine::Ruleset>& ruleset) {
    engine::Adviser adviser(ruleset);
    const auto keep = [&](const std::string& key, const engine::RepresentativeRecord& made) {
      const auto [at, is_new] = plainest_.try_emplace(key, made.complexity, "");
      if (!is_new && !(made.complexity < at->second.first)) return;
      at->second = {made.complexity, engine::json_of(made.record)};
    };
    engine::each_representative_record(
        engine::numeric_literals(*ruleset->model), [&](const engine::RepresentativeRecord& made) {
          ++tried_;
          const engine::Advice advice = adviser.advise(made.record, engine::representative_day());
          for (const Error& error : advice.errors) keep(error.code + " " + error.place.path, made);
          for (const std::string& row : advice.fired) keep("row " + row, made);
        });
  }

  /// Empty when no record shows it.
  std::string of_error(const std::string& code, const std::string& table) const {
    for (const auto& [key, witness] : plainest_) {
      if (key.rfind(code + " ", 0) == 0 && key.find(table) != std::string::npos) return witness.second;
    }
    return {};
  }
  std::string of_row(const std::string& row) const {
    const auto at = plainest_.find("row " + row);
    return row.empty() || at == plainest_.end() ? "" : at->second.second;
  }
  std::size_t tried() const { return tried_; }

 private:
  std::map<std::string, std::pair<engine::Complexity, std::string>> plainest_;
  std::size_t tried_ = 0;
};

std::string row_id(const engine::TableView& table, std::uint32_t rule) {
  const auto column = std::find(table.annotations.begin(), table.annotations.end(), "row");
  if (column == table.annotations.end()) return {};
  return table.rules[rule].annotations[static_cast<std::size_t>(column - table.annotations.begin())];
}

std::string rules_in_words(const engine::TableView& table, const std::vector<std::uint32_t>& rules) {
  std::string text;
  for (const std::uint32_t rule : rules) {
    const std::string row = row_id(table, rule);
    text += (text.empty() ? "" : " and ") + std::to_string(rule + 1) + (row.empty() ? "" : " (`" + row + "`)");
  }
  return (rules.size() == 1 ? "rule " : "rules ") + text;
}

/// A finding of a table as a fault, with its record; nothing when no record reaches it.
class TableFaults {
 public:
  TableFaults(const engine::Ruleset& ruleset, const Witnesses& witnesses, const std::string& source)
      : ruleset_(ruleset), witnesses_(witnesses), source_(source) {}

  void add(const engine::TableProof& proof) {
    const engine::TableView& table = ruleset_.model->tables()[proof.table];
    if (!proof.stopped_by.empty()) {
      if (!collects(table)) not_shown.push_back("table `" + table.decision + "`: stopped by `" + proof.stopped_by + "`");
      return;
    }
    for (const engine::TableFinding& finding : proof.findings) add(table, finding);
  }

  engine::Errors faults;
  std::vector<std::string> not_shown;

 private:
  static bool collects(const engine::TableView& table) { return table.hit_policy.rfind("COLLECT", 0) == 0; }

  void add(const engine::TableView& table, const engine::TableFinding& finding) {
    using Kind = engine::TableFinding::Kind;
    const std::string where = finding.when.empty() ? "" : " when " + finding.when;
    switch (finding.kind) {
      case Kind::gap:
        return reached("table_gap", "no rule of the table matches" + where, witness("no_rule_matched", table), table);
      case Kind::overlap:
        return reached("table_overlap", rules_in_words(table, finding.rules) + " match together" + where,
                       witness("hit_policy_violated", table), table);
      case Kind::dead:
        return fault("dead_rule", rules_in_words(table, finding.rules) + " matches no values of its inputs", "", table);
      case Kind::masked:
        return fault("masked_rule", rules_in_words(table, finding.rules) + " never answers: a rule before it does wherever it matches",
                     first_row_of(table, finding.rules.front()), table);
    }
  }

  std::string witness(const std::string& code, const engine::TableView& table) const {
    return witnesses_.of_error(code, table.decision);
  }

  // A record that an earlier rule answers where the masked one would.
  std::string first_row_of(const engine::TableView& table, std::uint32_t masked) const {
    for (std::uint32_t rule = 0; rule < masked; ++rule) {
      const std::string record = witnesses_.of_row(row_id(table, rule));
      if (!record.empty()) return record;
    }
    return {};
  }

  void reached(const std::string& code, const std::string& what, const std::string& record, const engine::TableView& table) {
    if (!record.empty()) return fault(code, what, record, table);
    not_shown.push_back("table `" + table.decision + "`: " + what + "; none of " + std::to_string(witnesses_.tried()) +
                        " made records gets there");
  }

  void fault(const std::string& code, const std::string& what, const std::string& record, const engine::TableView& table) {
    faults.push_back(placed(code, "table `" + table.decision + "`: " + what,
                            record.empty() ? "take the rule away, or put its cells right" : "shown by the record " + record,
                            source_, "table `" + table.decision + "`"));
  }

  const engine::Ruleset& ruleset_;
  const Witnesses& witnesses_;
  const std::string& source_;
};

/// Whether SOURCES.md says that the guideline itself breaks the law there.
bool is_excused(const engine::LawBreak& broken, const std::string& sources) {
  std::istringstream lines(sources);
  bool in_section = false;
  for (std::string line; std::getline(lines, line);) {
    if (line.rfind("## ", 0) == 0) in_section = line == "## Where more is not sooner";
    const auto names = [&](const std::string& row) { return row.empty() || line.find(row) != std::string::npos; };
    if (in_section && !broken.rule.empty() && names(broken.rule) && names(broken.worse_rule)) return true;
  }
  return false;
}

std::string in_words(const engine::LawReport& law, const engine::LawBreak& broken) {
  std::string text = "`" + law.law + "` does not hold for " + law.shape + ": " + broken.answer + " (" + broken.rule + ")";
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
  const Witnesses witnesses(ruleset);
  TableFaults tables(*ruleset, witnesses, source);
  const auto table_proofs = engine::prove_tables(*ruleset->model);
  for (const engine::TableProof& proof : table_proofs) tables.add(proof);
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
      proofs.faults.push_back(placed("law_broken", in_words(law, broken),
                                     "shown by the record " + broken.record +
                                         (broken.worse_record.empty() ? "" : " and the record " + broken.worse_record) +
                                         "; when the guideline says so, name both rows in SOURCES.md under "
                                         "`## Where more is not sooner`",
                                     source, ""));
    }
  }
  proofs.text = plural(table_proofs.size(), "table") + " without gap or overlap";
  if (!tables.not_shown.empty() || !proofs.faults.empty()) proofs.text = plural(table_proofs.size(), "table") + " looked at";
  proofs.text += "; " + plural(laws, "law") + " tried over " + plural(runs, "way");
  if (excused > 0) proofs.text += ", " + std::to_string(excused) + " broken where the guideline says so";
  if (incomplete > 0) proofs.text += ", " + std::to_string(incomplete) + " not to the end (`--budget`)";
  for (const std::string& open : tables.not_shown) proofs.text += "\n  not shown: " + open;
  return proofs;
}

}  // namespace cli
