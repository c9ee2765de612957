// Advice as a consultant reads it in ten seconds: the answer on the first line, then the window, why, the row
// and its source, what would change the answer, cautions.

#include <algorithm>

#include "engine/lesion_names.h"
#include "advice/paragraphs.h"
#include "advice/possibility.h"
#include "advice/words.h"
#include "engine/advice.h"

namespace engine {

namespace {

std::string capitalised(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text;
}

std::string answer(const Advice& advice) {
  std::string text = capitalised(in_words(*advice.action, advice.interval));
  if (advice.due) text += ": due " + in_words(*advice.due);
  return text;
}

std::string headline(const Advice& advice) {
  switch (advice.state) {
    case AdviceState::settled:
      return answer(advice);
    case AdviceState::awaiting_pathology:
      return "Await pathology: no next step is fixed yet";
    case AdviceState::depends:
      return "No answer yet: it depends on what is not known";
    case AdviceState::outside:
      return "Refer: this patient is outside `" + advice.ruleset + "`, ask `" + advice.ask_instead + "`";
    case AdviceState::refused:
      return "Refused: no answer is given";
  }
  return {};
}

std::string_view evidence_in_words(std::string_view evidence) {
  if (evidence == "guideline") return "read in the guideline itself";
  if (evidence == "secondary")
    return "read in a publication that restates the guideline, not in the guideline";
  if (evidence == "memory") return "FROM MEMORY: not read in the guideline or a publication";
  if (evidence == "engine") return "a rule of this program, not of the guideline";
  return evidence;
}

void add_reasons(const Advice& advice, Paragraphs& page) {
  for (const Reason& reason : advice.reasons) page.add("why", reason.because);
  for (const Reason& reason : advice.reasons) {
    page.add("rule", reason.rule + ": " + reason.source);
    page.add_below(evidence_in_words(reason.evidence), 2);
  }
  if (advice.ruleset.empty()) return;
  std::string text = advice.ruleset_title + " (`" + advice.ruleset + "`, edition " + advice.edition;
  if (advice.ruleset_state != "current") text += ", " + advice.ruleset_state;
  page.add("ruleset", text + ")");
}

void add_facts(const Advice& advice, Paragraphs& page) {
  std::string line;
  for (const auto& [name, literal] : advice.facts) {
    const bool quoted = literal.size() >= 2 && literal.front() == '"' && literal.back() == '"';
    line +=
        (line.empty() ? "" : "; ") + name + " " + (quoted ? literal.substr(1, literal.size() - 2) : literal);
  }
  if (!line.empty()) page.add("findings", line);
}

void add_later_steps(const Advice& advice, Paragraphs& page) {
  for (const LaterStep& step : advice.then) {
    std::string line = in_words(step.action, step.interval);
    if (!step.counted_from.empty() && step.interval) line += " from the " + step.counted_from;
    page.add("then", line + " (" + step.rule + "): " + step.because);
  }
  for (const Flag& flag : advice.flags) page.add("flag", flag.flag + " (" + flag.rule + "): " + flag.because);
}

/// At most two ways, and only such as are read at a glance: the JSON form lists the others.
void add_ways(std::vector<std::string> ways, const std::vector<std::string>& lesions, Paragraphs& page) {
  constexpr std::size_t most_ways = 2;
  constexpr std::size_t most_characters = 160;
  const bool more = std::erase(ways, other_ways) > 0;
  std::size_t told = 0;
  for (const std::string& path : ways) {
    const std::string way = with_lesion_names(path, lesions);
    if (told == most_ways || way.size() > most_characters) break;
    page.add_below((told == 0 ? "when " : "or   ") + way, 2);
    ++told;
  }
  if (told > 0 && (more || told < ways.size())) page.add_below("or in other ways", 2);
}

/// Facts that are asked for the same reason stand together.
void add_questions(const Advice& advice, Paragraphs& page) {
  const std::vector<Question>& questions = advice.questions;
  std::vector<std::string> facts;
  for (std::size_t i = 0; i < questions.size(); ++i) {
    facts.push_back(questions[i].fact);
    if (i + 1 < questions.size() && questions[i + 1].why == questions[i].why) continue;
    page.add("to ask", with_lesion_names(paths_in_words(facts), advice.lesions) + ": " + questions[i].why);
    facts.clear();
  }
}

/// Answers that differ in their rule alone stand together, in the order of the first.
std::vector<std::vector<const Possibility*>> alike(const std::vector<Possibility>& possible) {
  std::vector<std::vector<const Possibility*>> groups;
  for (const Possibility& one : possible) {
    const auto same = [&](const std::vector<const Possibility*>& group) {
      const Possibility& other = *group.front();
      return other.action == one.action && other.interval == one.interval && other.due == one.due;
    };
    const auto at = std::find_if(groups.begin(), groups.end(), same);
    if (at == groups.end()) {
      groups.push_back({&one});
    } else {
      (*at).push_back(&one);
    }
  }
  return groups;
}

void add_possibilities(const Advice& advice, Paragraphs& page) {
  for (const auto& group : alike(advice.possible)) {
    const Possibility& possible = *group.front();
    std::string line = in_words(possible.action, possible.interval);
    if (possible.due) line += ": due " + in_words(*possible.due);
    std::string rules;
    std::vector<std::string> ways;
    for (const Possibility* one : group) {
      rules += (rules.empty() ? "" : ", ") + one->rule;
      ways.insert(ways.end(), one->when.begin(), one->when.end());
    }
    page.add("possible", line + " (" + rules + ")");
    if (group.size() > 1) {
      std::stable_sort(ways.begin(), ways.end(),
                       [](const std::string& a, const std::string& b) { return a.size() < b.size(); });
    }
    add_ways(std::move(ways), advice.lesions, page);
  }
}

void add_what_decides(const Advice& advice, Paragraphs& page) {
  add_questions(advice, page);
  add_possibilities(advice, page);
  const auto first = std::find_if(advice.possible.begin(), advice.possible.end(),
                                  [](const Possibility& possible) { return possible.due.has_value(); });
  if (first != advice.possible.end()) page.add("earliest", in_words(first->due->from));
}

/// A settled answer that nothing near would change says so by its silence; the JSON form lists all.
void add_changes(const Advice& advice, Paragraphs& page) {
  constexpr std::size_t most = 6;
  for (std::size_t i = 0; i < std::min(most, advice.changes.size()); ++i) {
    const Possibility& change = advice.changes[i];
    std::string line = in_words(change.action, change.interval);
    if (change.due) line += ": due " + in_words(*change.due);
    page.add("would be", line + " (" + change.rule + ")");
    for (const std::string& way : change.when)
      page.add_below("if " + with_lesion_names(way, advice.lesions), 2);
  }
  if (advice.changes.size() > most) page.add_below("and other changes", 2);
}

void add_errors(const Advice& advice, Paragraphs& page) {
  for (const Error& error : advice.errors) {
    const bool place_is_said =
        error.place.path.empty() || error.message.find(error.place.path) != std::string::npos;
    page.add("error", place_is_said ? error.message : error.place.path + ": " + error.message);
    if (!error.help.empty()) page.add_below("help: " + error.help, 2);
  }
}

}  // namespace

std::string text_of(const Advice& advice) {
  Paragraphs page;
  page.headline(headline(advice));
  if (advice.counted_from_date) {
    page.add("counted", "from the " + advice.counted_from + " on " + in_words(*advice.counted_from_date));
  }
  add_errors(advice, page);
  add_reasons(advice, page);
  add_facts(advice, page);
  add_later_steps(advice, page);
  add_what_decides(advice, page);
  add_changes(advice, page);
  for (const std::string& assumed : advice.assumed) page.add("assumed", assumed);
  for (const std::string& caution : advice.cautions) page.add("caution", caution);
  return std::move(page).text();
}

}  // namespace engine
