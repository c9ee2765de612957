// One completion of the open facts, chosen as the evaluation goes along: what each fact is taken to be, and
// what the evaluation has learnt to tell apart.
//
// Each variable starts with a set of candidates, of which the first is taken. When the evaluation reads a
// fact, the set shrinks to that one value; when it only tests the fact (`type = "tubular adenoma"`), the set
// shrinks to the candidates that pass or fail alike. When the evaluation is over, every choice out of the
// sets that are left would have gone the same way: one run answers for all of them.

#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <unordered_map>
#include <vector>

#include "advice/box.h"
#include "advice/open_variables.h"
#include "engine/model.h"
#include "engine/value.h"

namespace engine {

class TakenFacts final : public FactSource {
 public:
  /// The set of `variable` shrank from `before` to `after`.
  struct Step {
    std::uint32_t variable = 0;
    CandidateSet before, after;
  };

  /// Keeps references to its arguments.
  TakenFacts(std::span<const OpenFact> facts, const OpenVariables& variables);

  /// Begins a run in which only completions in `box` are looked at.
  void start(const Box& box);

  /// The value that `fact` is taken to be; Kind::open_fact when there is nothing to choose from.
  Value read(std::uint32_t fact) override;
  /// The result of `passes` for the value taken. `passes` is pure and gives true, false or null.
  Value test(std::uint32_t fact, Passes passes, const void* data) override;

  std::optional<Value> together(Run run, void* data, const void* site, const Key* key) override;
  void calculated() override { calculated_ = true; }
  bool has_choices() const override { return !full_.empty(); }

  /// What every fact is taken to be in this run, by fact id.
  std::span<const Value> values() const { return values_; }
  std::span<const Step> steps() const { return steps_; }
  /// The completions that this run answers for.
  Box box() const;
  /// By fact id, not 0 when it was read or tested in any run.
  std::span<const std::uint8_t> touched() const { return touched_; }
  /// A fact with nothing to choose from was read in this run.
  bool met_unknown() const { return met_unknown_; }
  /// In some run a rule calculated with a value that stands for others: not every completion was looked at.
  bool has_calculated() const { return calculated_; }

 private:
  /// What a run turned on, and the value that each candidate gives it.
  struct Remembered {
    std::uint32_t variable = OpenVariables::none;  ///< `none`: nothing that is open, and one value.
    std::vector<Value> values;
    std::vector<CandidateSet>
        alike;  ///< By candidate: those with the same value; empty where it is no such test.
  };
  struct KeyHash {
    std::size_t operator()(const Key& key) const;
  };

  /// How often a place of the model was tried as one test, and how often it was none.
  struct Tries {
    std::uint32_t all = 0, failed = 0;
  };

  const Remembered* remembered(const Key& key) const;
  Value recall(const Remembered& run);
  void remember(const Key& key, const Trial& first, std::uint32_t variable, Run run, void* data);
  Value kept(const Value& value);
  Value read_on_trial(std::uint32_t fact);
  void shrink(std::uint32_t variable, const CandidateSet& kept);
  void take(std::uint32_t variable, std::uint32_t candidate);
  template <class Alike>
  void keep(std::uint32_t fact, Alike&& alike);

  std::unordered_map<Key, Remembered, KeyHash> remembered_;
  Arena arena_;  // of the values in it
  std::unordered_map<const void*, Tries> tries_;
  std::span<const OpenFact> facts_;
  const OpenVariables& variables_;
  std::vector<CandidateSet> full_, left_;  // by variable
  std::vector<std::uint32_t> taken_;       // by variable
  std::vector<Value> values_;
  std::vector<Step> steps_;
  std::vector<std::uint8_t> touched_;
  bool met_unknown_ = false;
  bool calculated_ = false;
  bool on_trial_ = false;      // within together(): facts are read without shrinking anything
  bool trial_failed_ = false;  // it turned on more than one variable
  std::uint32_t on_trial_variable_ = OpenVariables::none;
};

/// The same boolean, number, string or null.
bool is_same(const Value& a, const Value& b);

}  // namespace engine
