// No letter says anything else than what a clinician signed: every worked case of every ruleset is signed,
// then decided otherwise, and every letter about it is read back.

#include <catch2/catch.hpp>
#include <fstream>
#include <map>
#include <regex>
#include <set>

#include "ledger/recalls.h"
#include "ledger/signing.h"
#include "letters/plain_page.h"
#include "letters/words.h"
#include "report/caution.h"
#include "report/layout.h"
#include "support/letters.h"
#include "support/on_one_line.h"
#include "support/shipped_rulesets.h"
#include "support/verified.h"

using namespace support;
using engine::Action;
using nlohmann::json;

namespace {

constexpr const char* family = "<i>O'Example & \"Sons\"</i>";

/// By which words an action is known, in a letter to a patient or to a doctor, and no other action.
const std::map<Action, std::regex> names = {
    {Action::surveillance_colonoscopy, std::regex("surveillance colonoscopy")},
    {Action::site_check, std::regex("site check")},
    {Action::repeat_examination, std::regex("repeat examination")},
    {Action::no_surveillance, std::regex("no surveillance")},
    {Action::return_to_screening, std::regex("return to screening")},
    {Action::refer, std::regex(R"(\brefer(ral|red)?\b)")}};

json body_of(const TemporaryLedger& unit, std::uint64_t entry) {
  json body;
  value_of(unit.ledger.each_entry(entry, [&](const ledger::Entry& each) {
    if (each.sequence == entry) body = json::parse(each.body);
  }));
  return body;
}

std::string in_words(const std::string& day) {
  static const char* const months[] = {"January", "February", "March",     "April",   "May",      "June",
                                       "July",    "August",   "September", "October", "November", "December"};
  return std::to_string(std::stoi(day.substr(8))) + " " + months[std::stoi(day.substr(5, 2)) - 1] + " " +
         day.substr(0, 4);
}

std::set<std::string> days_in(const std::string& text) {
  static const std::regex day(
      "\\d{1,2} (?:January|February|March|April|May|June|July|August|September|October|November|December) "
      "\\d{4}");
  std::set<std::string> days;
  for (std::sregex_iterator at(text.begin(), text.end(), day), end; at != end; ++at) days.insert(at->str());
  return days;
}

/// Months `from` and `to` of each interval that the text names.
std::set<std::pair<int, int>> intervals_in(const std::string& text) {
  static const std::regex interval(R"((\d+)(?: to (\d+))? (year|month)s?)");
  std::set<std::pair<int, int>> found;
  for (std::sregex_iterator at(text.begin(), text.end(), interval), end; at != end; ++at) {
    const int unit = (*at)[3] == "year" ? 12 : 1, from = std::stoi((*at)[1]);
    found.insert({from * unit, ((*at)[2].matched ? std::stoi((*at)[2]) : from) * unit});
  }
  return found;
}

int months_of(const std::string& duration) {
  return static_cast<int>(std::get<engine::Months>(engine::parse_duration(duration).value()).count);
}

/// What was signed, read from the entry itself.
struct Signed {
  Action action{};
  std::set<std::string> due;                ///< In words.
  std::set<std::pair<int, int>> intervals;  ///< At most one.
  std::string clinician;
};

Signed signed_in(const json& signature, const json& advice) {
  Signed told;
  told.action = engine::action_of(signature["action"].get<std::string>()).value();
  told.clinician = signature["clinician"];
  if (signature["due"].is_object())
    told.due = {in_words(signature["due"]["from"]), in_words(signature["due"]["to"])};
  const json& answer = advice["answers"][advice["chosen"].get<std::size_t>()];
  if (signature.contains("computed") || !answer["interval"].is_object()) return told;
  const std::pair months{months_of(answer["interval"]["from"]), months_of(answer["interval"]["to"])};
  if (months.second != 0) told.intervals.insert(months);
  return told;
}

/// The letter without what it quotes: sentences of the ruleset and of the clinician may name anything.
std::string own_words(std::string letter, const json& fields) {
  const auto take_out = [&](const json& quoted) {
    if (!quoted.is_string()) return;
    const std::string words = on_one_line(quoted.get<std::string>());
    for (std::size_t at = 0; (at = letter.find(words, at)) != std::string::npos;)
      letter.replace(at, words.size(), "~");
  };
  for (const char* list : {"rules", "later", "flags", "notes"}) {
    for (const json& quoted : fields.value(list, json::array())) take_out(quoted);
  }
  for (const char* one : {"guideline", "decision", "moved"}) take_out(fields.value(one, json()));
  return letter;
}

void check_words(const std::string& letter, const ledger::LetterFacts& facts, const Signed& told,
                 const json& fields) {
  std::string words = own_words(letter, fields);
  // What the time counts from is no step of its own: `1 year after the site check of 15 January 2024`.
  const std::string anchor = "after the " + facts.counted_from + " of ";
  if (const std::size_t at = words.find(anchor); at != std::string::npos && !facts.counted_from.empty())
    words.replace(at, anchor.size(), "after ~ of ");
  INFO(words);
  for (const auto& [action, name] : names) {
    INFO(engine::text_of(action));
    CHECK(std::regex_search(words, name) == (action == told.action));
  }
  std::set<std::string> allowed = told.due, missing = told.due;
  for (const std::string& day :
       {std::string("2026-03-20"), facts.examination.date, facts.person.birth_date, facts.signed_on})
    if (!day.empty()) allowed.insert(in_words(day));
  if (facts.counted_from_date) allowed.insert(in_words(engine::text_of(*facts.counted_from_date)));
  for (const std::string& day : days_in(words)) {
    INFO(day);
    CHECK(allowed.contains(day));
    missing.erase(day);
  }
  CHECK(missing.empty());
  const bool is_about_attempt = facts.attempt > 0;
  CHECK(intervals_in(words) == (is_about_attempt ? std::set<std::pair<int, int>>{} : told.intervals));
  CHECK(words.find(told.clinician) != std::string::npos);
}

void check_guards(const std::string& letter, const ledger::LetterFacts& facts, const json& fields) {
  INFO(letter);
  const auto says = [&](const std::string& words) {
    return letter.find(on_one_line(words)) != std::string::npos;
  };
  CHECK(says("01632 960000"));
  CHECK(says(fields["sooner"]));
  CHECK(says(std::string(cli::caution)));
  CHECK(says(facts.name.given));
  CHECK(letter.find("{{") == std::string::npos);
  CHECK(letter.find("}}") == std::string::npos);
  if (facts.key.recipient == "patient" && facts.attempt > 0) {
    CHECK(says(fields["medicines"]));
    CHECK(says(fields["escort"]));
  }
  if (facts.key.recipient == "patient" && facts.attempt == 0)
    CHECK(says("up to two weeks") == facts.polyps_removed);
  if (facts.key.recipient == "patient") CHECK_FALSE(says("adenocarcinoma"));
  if (facts.key.recipient != "patient" && facts.attempt == 0 && !facts.is_overridden) {
    CHECK(says(facts.ruleset + ", edition " + facts.edition));
    for (const engine::Reason& reason : facts.reasons) CHECK(says(reason.rule));
  }
}

void check_page(const std::string& page) {
  CHECK(page.find("<i>") == std::string::npos);
  CHECK(page.find("<script") == std::string::npos);
  CHECK(page.find("<html lang=\"en-GB\">") != std::string::npos);
}

void check_lines(const std::string& text) {
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) CHECK(cli::width_of(line) <= cli::letter_width);
}

class Reading {
 public:
  explicit Reading(const std::string& id) {
    unit_.protocol = {{value_of(load_shipped(id)), bytes_of_file(rulesets_folder / id / "ruleset.dmn")}};
  }

  void read_case(const json& given, int number) {
    const std::string exam = "E" + std::to_string(number);
    unit_.record(record_of(given, exam, number));
    if (ledger::sign(unit_.ledger, unit_.author, exam, "Dr Rao", 0)) read_letters(exam);
    decide(exam, number);
    read_letters(exam);
  }

  std::set<Action> signed_actions, decided_actions;
  std::set<std::string> letters;  ///< Slugs of those that were read.

 private:
  static json record_of(json record, const std::string& exam, int number) {
    record["patient"]["identifiers"] = {
        {{"system", "hospital-number"}, {"value", "H" + std::to_string(number)}}};
    record["patient"]["name"] = {{"family", family}, {"given", "Ada"}};
    record["exam"]["id"] = exam;
    record["exam"]["place"] = "Room <script>1</script>";
    return record;
  }

  /// Each of the six actions in turn, whatever the guideline says.
  void decide(const std::string& exam, int number) {
    const auto action = std::next(names.begin(), number % static_cast<int>(names.size()))->first;
    const bool needs_day = action == Action::surveillance_colonoscopy || action == Action::site_check ||
                           action == Action::repeat_examination;
    std::optional<engine::Window> due;
    if (needs_day) due = engine::Window{day("2027-11-05"), day("2028-02-29")};
    value_of(
        ledger::override_advice(unit_.ledger, unit_.author, exam, "Dr Lee", {action, due, "as agreed"}, 0));
  }

  void read_letters(const std::string& exam) {
    const auto facts = facts_of(exam);
    if (facts.empty()) return;
    const json signature = body_of(unit_, facts.front().tells);
    const Signed told = signed_in(signature, body_of(unit_, facts.front().advice));
    (signature.contains("computed") ? decided_actions : signed_actions).insert(told.action);
    CHECK(facts.size() == 2);  // one to each, a result or a discharge
    for (const ledger::LetterFacts& one : facts) {
      CHECK((one.key.letter == "discharge") ==
            (told.action == Action::no_surveillance || told.action == Action::return_to_screening));
      read(one, told);
    }
    read_attempts(exam, told);
  }

  /// The letters that may be made about what is signed.
  std::vector<ledger::LetterFacts> facts_of(const std::string& exam) {
    std::vector<ledger::LetterFacts> found;
    for (const ledger::LetterKey& kind : cli::letter_kinds()) {
      auto facts = ledger::letter_facts(unit_.ledger, {exam, kind.letter, kind.recipient}, {"", "Dr Rao"});
      if (facts && facts->attempt == 0) found.push_back(std::move(*facts));
    }
    return found;
  }

  void read_attempts(const std::string& exam, const Signed& told) {
    const auto range = ledger::DueRange{engine::Date{1900, 1, 1}, engine::Date{2200, 1, 1}};
    for (const ledger::RecallLine& line :
         value_of(ledger::due(unit_.ledger, range, unit_.clock.today(), {}))) {
      if (line.examination.exam != exam) continue;
      const auto invite = [&] {
        return ledger::move_recall(unit_.ledger, unit_.author, line.recall, ledger::Move::invite,
                                   {"", "", "", {}, {}, {}, {}, "Dr Rao"});
      };
      while (invite()) {
        for (const ledger::LetterKey& kind : cli::letter_kinds()) {
          const auto facts =
              ledger::letter_facts(unit_.ledger, {exam, kind.letter, kind.recipient}, {"", "Dr Rao"});
          if (facts && facts->attempt > 0) read(*facts, told);
        }
      }
    }
  }

  void read(const ledger::LetterFacts& facts, const Signed& told) {
    INFO(facts.key.exam << " " << facts.key.letter << " to " << facts.key.recipient);
    const std::string title = facts.ruleset_digest.empty()
                                  ? ""
                                  : value_of(ledger::ruleset_title(unit_.ledger, facts.ruleset_digest));
    const json fields = cli::letter_fields(facts, {a_unit(), unit_.clock.today(), title});
    const std::string slug = cli::letter_slug(facts.key.letter, facts.key.recipient);
    letters.insert(slug);
    const std::string page = pages_.at(slug).render(fields), text = texts_.at(slug).render(fields);
    check_page(page);
    check_lines(text);
    for (const std::string& letter : {on_one_line(text_of_page(page)), on_one_line(text)}) {
      check_words(letter, facts, told, fields);
      check_guards(letter, facts, fields);
    }
  }

  TemporaryLedger unit_;
  cli::LetterTemplates pages_ = shipped_templates("html"), texts_ = shipped_templates("txt");
};

}  // namespace

TEST_CASE("every letter says just what was signed, for every worked case of every ruleset",
          "[cli][letter][slow]") {
  std::set<Action> signed_actions, decided_actions;
  std::set<std::string> letters;
  for (const std::string& id : shipped_ruleset_ids()) {
    INFO(id);
    Reading reading(id);
    std::ifstream cases(rulesets_folder / id / "guideline.cases.jsonl");
    int number = 0;
    for (std::string line; std::getline(cases, line);)
      reading.read_case(json::parse(line).at("given"), ++number);
    CHECK(number > 20);
    signed_actions.merge(reading.signed_actions);
    decided_actions.merge(reading.decided_actions);
    letters.merge(reading.letters);
  }
  CHECK(signed_actions.size() == names.size());
  CHECK(decided_actions.size() == names.size());
  CHECK(letters.size() == cli::letter_kinds().size());
}
