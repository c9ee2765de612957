#include "rulesets/table_faults.h"

#include <algorithm>
#include <map>
#include <optional>

#include "engine/advice.h"
#include "engine/representative.h"
#include "engine/table_proof.h"

namespace cli {

namespace {

using engine::Error;

Error placed(std::string code, std::string message, std::string help, const std::string& source,
             const std::string& place) {
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
    text +=
        (text.empty() ? "" : " and ") + std::to_string(rule + 1) + (row.empty() ? "" : " (`" + row + "`)");
  }
  return (rules.size() == 1 ? "rule " : "rules ") + text;
}

/// A finding of a table as a fault, with its record; nothing when no record reaches it.
class TableFaults {
 public:
  TableFaults(const std::shared_ptr<const engine::Ruleset>& ruleset, const std::string& source)
      : ruleset_(ruleset), source_(source) {}

  void add(const engine::TableProof& proof) {
    const engine::TableView& table = ruleset_->model->tables()[proof.table];
    if (!proof.stopped_by.empty()) {
      if (!collects(table))
        not_shown.push_back("table `" + table.decision + "`: stopped by `" + proof.stopped_by + "`");
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
        return reached("table_gap", "no rule of the table matches" + where, witness("no_rule_matched", table),
                       table);
      case Kind::overlap:
        return reached("table_overlap", rules_in_words(table, finding.rules) + " match together" + where,
                       witness("hit_policy_violated", table), table);
      case Kind::dead:
        return fault("dead_rule", rules_in_words(table, finding.rules) + " matches no values of its inputs",
                     "", table);
      case Kind::masked:
        return fault("masked_rule",
                     rules_in_words(table, finding.rules) +
                         " never answers: a rule before it does wherever it matches",
                     first_row_of(table, finding.rules.front()), table);
    }
  }

  std::string witness(const std::string& code, const engine::TableView& table) {
    return witnesses().of_error(code, table.decision);
  }

  // A record that an earlier rule answers where the masked one would.
  std::string first_row_of(const engine::TableView& table, std::uint32_t masked) {
    for (std::uint32_t rule = 0; rule < masked; ++rule) {
      const std::string record = witnesses().of_row(row_id(table, rule));
      if (!record.empty()) return record;
    }
    return {};
  }

  void reached(const std::string& code, const std::string& what, const std::string& record,
               const engine::TableView& table) {
    if (!record.empty()) return fault(code, what, record, table);
    not_shown.push_back("table `" + table.decision + "`: " + what + "; none of " +
                        std::to_string(witnesses().tried()) + " made records gets there");
  }

  void fault(const std::string& code, const std::string& what, const std::string& record,
             const engine::TableView& table) {
    faults.push_back(placed(
        code, "table `" + table.decision + "`: " + what,
        record.empty() ? "take the rule away, or put its cells right" : "shown by the record " + record,
        source_, "table `" + table.decision + "`"));
  }

  // Made records are asked only when a finding wants one.
  const Witnesses& witnesses() {
    if (!witnesses_) witnesses_.emplace(ruleset_);
    return *witnesses_;
  }

  const std::shared_ptr<const engine::Ruleset>& ruleset_;
  std::optional<Witnesses> witnesses_;
  const std::string& source_;
};

}  // namespace

TablesLookedAt look_at_tables(const std::shared_ptr<const engine::Ruleset>& ruleset,
                              const std::string& source) {
  TableFaults found(ruleset, source);
  TablesLookedAt looked;
  for (const engine::TableProof& proof : engine::prove_tables(*ruleset->model)) {
    found.add(proof);
    ++looked.tables;
  }
  looked.faults = std::move(found.faults);
  looked.not_shown = std::move(found.not_shown);
  return looked;
}

}  // namespace cli
