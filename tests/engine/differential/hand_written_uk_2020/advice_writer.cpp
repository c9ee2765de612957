#include "engine/differential/hand_written_uk_2020/advice_writer.h"

#include <algorithm>
#include <stdexcept>

namespace testing::by_hand {

namespace {

constexpr std::string_view standing_caution =
    "this supports and does not replace the judgement of the responsible clinician; local policy decides";

}  // namespace

Texts::Texts(const Ruleset& source)
    : ruleset(source.about.id),
      edition(source.about.edition),
      digest(source.digest),
      title(source.about.title),
      state(source.about.state),
      cautions(source.about.cautions) {
  for (const auto& [row, id] : row_ids) {
    const RulesetRow* found = source.row(id);
    if (!found) throw std::runtime_error("no row " + std::string(id));
    OfRow& texts = rows[index_of(row)];
    texts.source = found->source;
    texts.evidence = found->evidence;
    if (found->evidence == "memory")
      texts.caution = "row " + found->id + " is from memory: read it in the paper before use";
  }
}

void Texts::write_cautions(Advice& advice) const {
  advice.cautions = cautions;
  const auto add = [&](const std::string& rule) {
    const auto at =
        std::find_if(row_ids.begin(), row_ids.end(), [&](const auto& row) { return row.second == rule; });
    const std::string& text = of(at->first).caution;
    const bool new_text =
        std::find(advice.cautions.begin(), advice.cautions.end(), text) == advice.cautions.end();
    if (!text.empty() && new_text) advice.cautions.push_back(text);
  };
  for (const Reason& reason : advice.reasons) add(reason.rule);
  for (const LaterStep& step : advice.then) add(step.rule);
  for (const Flag& flag : advice.flags) add(flag.rule);
  advice.cautions.emplace_back(standing_caution);
}

AdviceWriter::AdviceWriter(Advice& advice, const Texts& texts) : advice_(advice), texts_(texts) {
  advice.ruleset = texts.ruleset;
  advice.edition = texts.edition;
  advice.ruleset_digest = texts.digest;
  advice.ruleset_title = texts.title;
  advice.ruleset_state = texts.state;
  advice.cautions = texts.cautions;
}

void AdviceWriter::reason(Row row, std::string because) {
  if (has_reason(row)) return;
  reasons_.set(index_of(row));
  const Texts::OfRow& texts = texts_.of(row);
  advice_.reasons.push_back({std::string(id_of(row)), std::move(because), texts.source, texts.evidence});
  caution(row);
}

void AdviceWriter::later(const Step& step, std::string_view anchor, std::string because) {
  advice_.then.push_back({step.action, Interval{step.from, step.to}, std::string(anchor),
                          std::string(id_of(step.row)), std::move(because)});
  caution(step.row);
}

void AdviceWriter::flag(Row row, std::string_view name, std::string because) {
  advice_.flags.push_back({std::string(name), std::string(id_of(row)), std::move(because)});
  caution(row);
}

void AdviceWriter::fact(std::string_view name, std::string literal) {
  advice_.facts.emplace_back(name, std::move(literal));
}

void AdviceWriter::assumed(std::string_view fact, std::string_view taken_as) {
  std::string& text = advice_.assumed.emplace_back(fact);
  text += ": not stated, taken as ";
  text += taken_as;
}

void AdviceWriter::end() {
  advice_.cautions.emplace_back(standing_caution);
}

void AdviceWriter::caution(Row row) {
  const std::string& text = texts_.of(row).caution;
  if (text.empty() || cautioned_[index_of(row)]) return;
  cautioned_.set(index_of(row));
  advice_.cautions.push_back(text);
}

}  // namespace testing::by_hand
