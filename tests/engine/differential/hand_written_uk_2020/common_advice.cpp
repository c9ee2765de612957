#include "engine/differential/hand_written_uk_2020/common_advice.h"

#include <algorithm>

#include "engine/differential/hand_written_uk_2020/sentences.h"

namespace testing::by_hand {

namespace {

bool same_for_the_patient(const Advice& a, const Advice& b) {
  const auto same_step = [](const LaterStep& x, const LaterStep& y) {
    return x.action == y.action && x.interval == y.interval && x.counted_from == y.counted_from;
  };
  return a.action == b.action && a.interval == b.interval && a.counted_from == b.counted_from &&
         a.counted_from_date == b.counted_from_date && a.ask_instead == b.ask_instead &&
         std::equal(a.then.begin(), a.then.end(), b.then.begin(), b.then.end(), same_step);
}

template <class Item>
bool holds(const std::vector<Item>& items, const Item& wanted) {
  return std::find(items.begin(), items.end(), wanted) != items.end();
}

/// `1 to 3`, `true or false`.
std::string text_of_fact(const std::vector<std::string>& texts) {
  if (texts.size() == 1) return texts.front();
  if (texts.front() == "true" || texts.front() == "false") return texts[0] + " or " + texts[1];
  const auto less = [](const std::string& a, const std::string& b) { return std::stoi(a) < std::stoi(b); };
  const auto [least, most] = std::minmax_element(texts.begin(), texts.end(), less);
  return *least + " to " + *most;
}

}  // namespace

bool CommonAdvice::add(Advice advice) {
  if (times_ > 0 && !same_for_the_patient(first_, advice)) return false;
  add_reasons(advice.reasons);
  add_flags(advice.flags);
  add_facts(advice);
  for (const std::string& text : advice.assumed) {
    if (!holds(assumed_, text)) assumed_.push_back(text);
  }
  if (times_++ == 0) first_ = std::move(advice);
  return true;
}

void CommonAdvice::add_reasons(const std::vector<Reason>& reasons) {
  auto decided = std::find_if(decided_.begin(), decided_.end(), [&](const Decided& other) {
    return other.reasons.front().reason.rule == reasons.front().rule;
  });
  if (decided == decided_.end()) decided = decided_.insert(decided_.end(), Decided{});
  for (const Reason& reason : reasons) {
    const auto at = std::find_if(decided->reasons.begin(), decided->reasons.end(),
                                 [&](const SeenReason& seen) { return seen.reason.rule == reason.rule; });
    if (at == decided->reasons.end()) {
      decided->reasons.push_back({reason, 1, false});
    } else {
      ++at->times;
      at->reworded = at->reworded || at->reason.because != reason.because;
    }
  }
}

void CommonAdvice::add_flags(const std::vector<Flag>& flags) {
  for (const Flag& flag : flags) {
    const auto at = std::find_if(flags_.begin(), flags_.end(),
                                 [&](const SeenFlag& seen) { return seen.flag.rule == flag.rule; });
    if (at == flags_.end()) {
      flags_.push_back({flag, 1});
    } else {
      ++at->times;
    }
  }
}

void CommonAdvice::add_facts(const Advice& advice) {
  facts_.resize(advice.facts.size());
  for (std::size_t i = 0; i < facts_.size(); ++i) {
    if (!holds(facts_[i], advice.facts[i].second)) facts_[i].push_back(advice.facts[i].second);
  }
}

Advice CommonAdvice::take(const Texts& texts) {
  Advice advice = std::move(first_);
  advice.reasons = reasons();
  advice.flags = flags();
  for (std::size_t i = 0; i < facts_.size(); ++i) advice.facts[i].second = text_of_fact(facts_[i]);
  std::sort(assumed_.begin(), assumed_.end());  // the order of the record is that of the alphabet
  advice.assumed = std::move(assumed_);
  texts.write_cautions(advice);
  return advice;
}

std::vector<Reason> CommonAdvice::reasons() const {
  std::vector<SeenReason> rows;
  for (const Decided& decided : decided_) {
    for (const SeenReason& seen : decided.reasons) {
      const auto at = std::find_if(rows.begin(), rows.end(), [&](const SeenReason& other) {
        return other.reason.rule == seen.reason.rule;
      });
      if (at == rows.end()) {
        rows.push_back(seen);
      } else {
        at->times += seen.times;
        at->reworded = at->reworded || seen.reworded || at->reason.because != seen.reason.because;
      }
    }
  }
  std::vector<Reason> reasons;
  for (auto& [reason, times, reworded] : rows) {
    if (times < times_ || reworded)
      reason.because = "depending on what is not known, for instance: " + reason.because;
    reasons.push_back(std::move(reason));
  }
  return reasons;
}

std::vector<Flag> CommonAdvice::flags() const {
  std::vector<Flag> flags;
  for (const SeenFlag& seen : flags_) {
    if (seen.times == times_) flags.push_back(seen.flag);
  }
  for (const SeenFlag& seen : flags_) {
    if (seen.times == times_) continue;
    flags.push_back(seen.flag);
    flags.back().because = "may apply, depending on what is not known: " + seen.flag.because;
  }
  return flags;
}

}  // namespace testing::by_hand
