#include "engine/table_proof.h"

#include <algorithm>
#include <bit>

#include "model/body.h"
#include "proof/column_classes.h"

namespace engine {

namespace {

using Mask = std::vector<std::uint64_t>;

constexpr std::uint64_t most_combinations = 20'000'000;
constexpr std::size_t most_findings_of_a_kind = 20;

std::vector<std::uint32_t> rules_in(const Mask& mask) {
  std::vector<std::uint32_t> rules;
  for (std::uint32_t word = 0; word < mask.size(); ++word) {
    for (std::uint64_t left = mask[word]; left != 0; left &= left - 1) {
      rules.push_back(word * 64 + static_cast<std::uint32_t>(std::countr_zero(left)));
    }
  }
  return rules;
}

/// Every combination of classes, column by column; a branch ends where no rule is left.
class Prover {
 public:
  Prover(const TableCells& cells, const TableView& view, TableProof& proof)
      : cells_(cells), view_(view), proof_(proof) {}

  void prove() {
    for (std::size_t i = 0; i < cells_.columns.size(); ++i) {
      auto classes = classes_of(cells_.columns[i]);
      if (!classes) {
        proof_.stopped_by = view_.inputs[i];
        return;
      }
      columns_.push_back(std::move(*classes));
    }
    fires_.assign((cells_.rules + 63) / 64, 0);
    comes_first_ = fires_;
    Mask all(fires_.size(), ~std::uint64_t{0});
    if (cells_.rules % 64 != 0) all.back() = (std::uint64_t{1} << (cells_.rules % 64)) - 1;
    if (cells_.rules > 0) go_on(0, all);
    if (proof_.stopped_by.empty()) add_rules_that_never_fire(all);
  }

 private:
  void go_on(std::size_t column, const Mask& left) {
    if (++proof_.combinations > most_combinations) {
      proof_.stopped_by = "too many combinations";
      return;
    }
    if (std::all_of(left.begin(), left.end(), [](std::uint64_t word) { return word == 0; }))
      return gap(column);
    if (column == columns_.size()) return whole(left);
    for (const ColumnClass& values : columns_[column]) {
      Mask rest = left;
      for (std::size_t w = 0; w < rest.size(); ++w) rest[w] &= values.accepted_by[w];
      chosen_.push_back(&values);
      go_on(column + 1, rest);
      chosen_.pop_back();
      if (!proof_.stopped_by.empty()) return;
    }
  }

  void whole(const Mask& left) {
    for (std::size_t w = 0; w < left.size(); ++w) fires_[w] |= left[w];
    const std::vector<std::uint32_t> rules = rules_in(left);
    comes_first_[rules.front() / 64] |= std::uint64_t{1} << (rules.front() % 64);
    if (cells_.policy == HitPolicy::unique && rules.size() > 1)
      add({TableFinding::Kind::overlap, rules, where()});
  }

  void gap(std::size_t column) {
    if (cells_.has_default || lists_results()) return;
    chosen_.resize(column);
    add({TableFinding::Kind::gap, {}, where()});
  }

  bool lists_results() const {
    return cells_.policy == HitPolicy::collect || cells_.policy == HitPolicy::rule_order ||
           cells_.policy == HitPolicy::output_order;
  }

  void add_rules_that_never_fire(const Mask& all) {
    for (const std::uint32_t rule : rules_in(all)) {
      const auto has = [&](const Mask& mask) { return (mask[rule / 64] >> (rule % 64) & 1) != 0; };
      if (!has(fires_)) {
        add({TableFinding::Kind::dead, {rule}, {}});
      } else if (cells_.policy == HitPolicy::first && !has(comes_first_)) {
        add({TableFinding::Kind::masked, {rule}, {}});
      }
    }
  }

  std::string where() const {
    std::string text;
    for (std::size_t i = 0; i < chosen_.size(); ++i) {
      if (columns_[i].size() < 2) continue;  // says nothing
      text += (text.empty() ? "`" : "; `") + view_.inputs[i] + "` " + chosen_[i]->text;
    }
    return text;
  }

  void add(TableFinding finding) {
    const auto same_kind =
        std::count_if(proof_.findings.begin(), proof_.findings.end(),
                      [&](const TableFinding& other) { return other.kind == finding.kind; });
    if (static_cast<std::size_t>(same_kind) < most_findings_of_a_kind)
      proof_.findings.push_back(std::move(finding));
  }

  const TableCells& cells_;
  const TableView& view_;
  TableProof& proof_;
  std::vector<std::vector<ColumnClass>> columns_;
  std::vector<const ColumnClass*> chosen_;
  Mask fires_, comes_first_;
};

}  // namespace

std::string_view text_of(TableFinding::Kind kind) {
  switch (kind) {
    case TableFinding::Kind::gap:
      return "gap";
    case TableFinding::Kind::overlap:
      return "overlap";
    case TableFinding::Kind::dead:
      return "dead rule";
    case TableFinding::Kind::masked:
      return "masked rule";
  }
  return {};
}

std::vector<TableProof> prove_tables(const Model& model) {
  std::vector<TableProof> proofs;
  const std::vector<TableView>& views = model.tables();
  for (const TableCells& cells : model.body().codes.tables) {
    TableProof& proof = proofs.emplace_back();
    proof.table = cells.number;
    Prover(cells, views[cells.number], proof).prove();
  }
  std::sort(proofs.begin(), proofs.end(),
            [](const TableProof& a, const TableProof& b) { return a.table < b.table; });
  return proofs;
}

}  // namespace engine
