#include "rulesets/check.h"

#include <algorithm>
#include <map>
#include <regex>

#include "engine/advice.h"
#include "engine/representative.h"
#include "rulesets_folder.h"
#include "system/files.h"

namespace cli {

namespace fs = std::filesystem;
using engine::Error;
using engine::Errors;

namespace {

constexpr std::string_view actions[] = {
    "surveillance colonoscopy", "site check", "repeat examination", "no surveillance",
    "return to screening",      "refer",      "individualise"};

Error placed(std::string code, std::string message, std::string help, const std::string& source,
             const std::string& place) {
  Error error{std::move(code), std::move(message), {}, std::move(help)};
  error.place.source = source;
  error.place.path = place;
  return error;
}

std::string listed(const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& word : words) text += (text.empty() ? "`" : ", `") + word + "`";
  return text;
}

class Words {
 public:
  Words(const std::vector<std::string>& known, const std::string& source) : known_(known), source_(source) {}

  void read(const engine::TableView& table) {
    for (std::size_t column = 0; column < table.outputs.size(); ++column) {
      const std::string& name = table.outputs[column];
      for (std::size_t i = 0; i < table.rules.size(); ++i) {
        const std::string& cell = table.rules[i].outputs[column];
        if (cell.size() < 2 || cell.front() != '"' || cell.find('"', 1) != cell.size() - 1) continue;
        const std::string word = cell.substr(1, cell.size() - 2);
        const std::string place = "table `" + table.decision + "`, rule " + std::to_string(i + 1);
        if (name == "action") check_action(word, place);
        if (name == "ask" || name == "ask instead") check_ask(word, place);
      }
    }
  }

  void read(const engine::ElementView& element) {
    static const std::regex action("\\baction\"?: *\"([^\"]*)\""), ask("\\bask instead\"?: *\"([^\"]*)\"");
    for (const std::string& word : all_in(element.text, action)) check_action(word, "`" + element.name + "`");
    for (const std::string& word : all_in(element.text, ask)) check_ask(word, "`" + element.name + "`");
  }

  Errors errors;

 private:
  static std::vector<std::string> all_in(const std::string& text, const std::regex& pattern) {
    std::vector<std::string> found;
    for (std::sregex_iterator match(text.begin(), text.end(), pattern), end; match != end; ++match)
      found.push_back((*match)[1]);
    return found;
  }

  void check_action(const std::string& word, const std::string& place) {
    if (std::find(std::begin(actions), std::end(actions), word) != std::end(actions)) return;
    const std::string near = engine::nearest(word, {std::begin(actions), std::end(actions)});
    errors.push_back(placed("unknown_action", place + ": `" + word + "` is no action",
                            near.empty()
                                ? "the actions are " + listed({std::begin(actions), std::end(actions)})
                                : "did you mean `" + near + "`?",
                            source_, place));
  }

  void check_ask(const std::string& word, const std::string& place) {
    if (std::find(known_.begin(), known_.end(), word) == known_.end())
      errors.push_back(unknown_ask_instead(word, known_, source_, place));
  }

  const std::vector<std::string>& known_;
  const std::string& source_;
};

// Without loading: a file that cannot be loaded may still claim another's id.
std::string claimed_id(const fs::path& file) {
  static const std::regex id("<decision [^>]*name=\"About\"[\\s\\S]*?\\bid: *\"([a-z0-9-]+)\"");
  const auto text = read_file(file.string());
  std::smatch match;
  return text && std::regex_search(*text, match, id) ? match[1].str() : "";
}

}  // namespace

Errors duplicate_ids(const fs::path& folder) {
  std::map<std::string, std::string> first;
  Errors errors;
  for (const std::string& name : ruleset_ids(folder)) {
    const std::string file = (folder / name / "ruleset.dmn").string();
    const std::string id = claimed_id(file);
    if (id.empty()) continue;
    const auto [earlier, is_new] = first.emplace(id, file);
    if (is_new) continue;
    errors.push_back(placed(
        "duplicate_ruleset", "`" + file + "` and `" + earlier->second + "` both call themselves `" + id + "`",
        "another edition of a guideline is another id, and the folder is named after it", file, ""));
  }
  return errors;
}

Errors faulty_words(const engine::Ruleset& ruleset, const std::vector<std::string>& known,
                    const std::string& source) {
  Words words(known, source);
  for (const engine::TableView& table : ruleset.model->tables()) words.read(table);
  for (const engine::ElementView& element : ruleset.model->elements()) words.read(element);
  return words.errors;
}

Trial try_records(const std::shared_ptr<const engine::Ruleset>& ruleset, const std::string& source) {
  struct Witness {
    engine::Complexity complexity;
    std::string words;
  };
  std::map<std::string, Witness> witnesses;  // by what was wrong
  Trial trial;
  engine::Adviser adviser(ruleset);
  engine::each_representative_record(
      engine::numeric_literals(*ruleset->model), [&](const engine::RepresentativeRecord& made) {
        ++trial.records;
        const engine::Advice advice = adviser.advise(made.record, engine::representative_day());
        if (advice.state != engine::AdviceState::refused) return;
        const std::string fault = advice.errors.empty() ? "no reason given" : advice.errors.front().message;
        const auto [witness, is_new] = witnesses.try_emplace(fault);
        if (!is_new && witness->second.complexity <= made.complexity) return;
        witness->second = {made.complexity, engine::in_plain_words(made.record)};
      });
  for (const auto& [fault, witness] : witnesses) {
    trial.refused.push_back(placed(
        "refused_record", "`" + witness.words + "` gets no answer: " + fault,
        "every record gets an answer: add the rule that is missing, or mend the one that fails", source, ""));
  }
  return trial;
}

Error unknown_ask_instead(const std::string& id, const std::vector<std::string>& known,
                          const std::string& source, const std::string& place) {
  const std::string near = engine::nearest(id, {known.begin(), known.end()});
  return placed("unknown_ask_instead",
                place + ": patients are sent to the ruleset `" + id + "`, which is not there",
                near.empty() ? "name one of " + listed(known) + ", or null where none covers them"
                             : "did you mean `" + near + "`?",
                source, place);
}

}  // namespace cli
