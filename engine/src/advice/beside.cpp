#include "advice/beside.h"

#include <algorithm>
#include <charconv>

#include "advice/next_step.h"
#include "advice/words.h"

namespace engine {

namespace {

/// The search saw every completion, and each had an answer.
bool is_complete(const Search& search) {
  return !search.exhausted && std::none_of(search.leaves.begin(), search.leaves.end(),
                                           [](const Leaf& leaf) { return leaf.outcome == Leaf::unknown; });
}

struct SeenFlag {
  Flag flag;
  std::uint32_t runs = 0;      ///< In how many runs it was raised.
  std::uint32_t last_run = 0;  ///< From 1.
};

void add_flags(std::vector<SeenFlag>& seen, std::vector<Flag> flags, std::uint32_t run) {
  for (Flag& flag : flags) {
    const auto at = std::find_if(seen.begin(), seen.end(), [&](const SeenFlag& other) {
      return other.flag.flag == flag.flag && other.flag.rule == flag.rule;
    });
    if (at == seen.end()) {
      seen.push_back({std::move(flag), 1, run});
    } else if (at->last_run != run) {
      ++at->runs;
      at->last_run = run;
    }
  }
}

void look_at_flags(Consultation& consultation, std::uint32_t budget, bool with_possible_flags,
                   Beside& beside) {
  std::vector<SeenFlag> seen;
  std::uint32_t runs = 0;
  const Search search = consultation.each_way(
      *consultation.ruleset().flags, budget, [&](const Value& value) -> std::optional<std::uint32_t> {
        ++runs;
        add_flags(seen, read_flags(value, consultation.ruleset(), consultation.errors()), runs);
        if (!consultation.errors().empty()) return std::nullopt;
        return 0;
      });
  beside.flags_are_complete = is_complete(search);
  for (const SeenFlag& flag : seen) {
    if (flag.runs == runs && beside.flags_are_complete) beside.flags.push_back(flag.flag);
  }
  if (!with_possible_flags) return;
  for (SeenFlag& flag : seen) {
    if (flag.runs == runs && beside.flags_are_complete) continue;
    flag.flag.because = "may apply, depending on what is not known: " + flag.flag.because;
    beside.flags.push_back(std::move(flag.flag));
  }
}

struct SeenFact {
  std::string name;
  std::vector<std::string> texts;  ///< Distinct FEEL literals.
};

std::optional<std::int64_t> whole_number(const std::string& text) {
  std::int64_t whole = 0;
  const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), whole);
  if (fault != std::errc() || end != text.data() + text.size()) return std::nullopt;
  return whole;
}

/// `3`, `1 to 3`, `true or false`; what has too many values is not known.
std::string text_of(const std::vector<std::string>& texts) {
  constexpr std::size_t most = 4;
  if (texts.size() == 1) return texts.front();
  std::optional<std::int64_t> least, greatest;
  for (const std::string& text : texts) {
    const auto whole = whole_number(text);
    if (!whole) return texts.size() > most ? "not known" : listed(texts, " or ");
    least = std::min(least.value_or(*whole), *whole);
    greatest = std::max(greatest.value_or(*whole), *whole);
  }
  return std::to_string(*least) + " to " + std::to_string(*greatest);
}

bool add_facts(std::vector<SeenFact>& seen, const Value& value, Errors& errors) {
  if (!value.is(Kind::context)) {
    Error error;
    error.code = "wrong_type";
    error.message = "`Facts` is `" + literal_of(value) + "`, expected a context";
    error.place.path = "Facts";
    errors.push_back(std::move(error));
    return false;
  }
  const Context& facts = value.context();
  for (std::uint32_t i = 0; i < facts.size; ++i) {
    auto at = std::find_if(seen.begin(), seen.end(),
                           [&](const SeenFact& fact) { return fact.name == facts.keys[i]; });
    if (at == seen.end()) at = seen.insert(seen.end(), {std::string(facts.keys[i]), {}});
    std::string text = literal_of(facts.values[i]);
    if (std::find(at->texts.begin(), at->texts.end(), text) == at->texts.end())
      at->texts.push_back(std::move(text));
  }
  return true;
}

void look_at_facts(Consultation& consultation, std::uint32_t budget, Beside& beside) {
  std::vector<SeenFact> seen;
  const Search search = consultation.each_way(*consultation.ruleset().facts, budget,
                                              [&](const Value& value) -> std::optional<std::uint32_t> {
                                                if (!add_facts(seen, value, consultation.errors()))
                                                  return std::nullopt;
                                                return 0;
                                              });
  beside.facts_are_complete = is_complete(search);
  if (!beside.facts_are_complete) return;
  for (const SeenFact& fact : seen) beside.facts.emplace_back(fact.name, text_of(fact.texts));
}

}  // namespace

Beside look_beside(Consultation& consultation, std::uint32_t budget, bool with_possible_flags) {
  Beside beside;
  if (consultation.ruleset().flags) look_at_flags(consultation, budget, with_possible_flags, beside);
  if (consultation.ruleset().facts && consultation.errors().empty())
    look_at_facts(consultation, budget, beside);
  return beside;
}

}  // namespace engine
