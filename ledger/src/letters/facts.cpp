#include "letters/facts.h"

#include <algorithm>

#include "database/examinations.h"
#include "database/people.h"
#include "database/store.h"
#include "engine/canonical.h"
#include "json_fields.h"
#include "letters/obstacles.h"
#include "letters/standing.h"

namespace ledger {

using engine::Done;
using engine::Error;
using engine::Result;
using nlohmann::json;

namespace {

Error fault(std::string code, std::string message, std::string help) {
  return {std::move(code), std::move(message), {}, std::move(help)};
}

bool is_of_recall(const LetterKey& key) {
  return key.letter == "invitation" || key.letter == "reminder";
}

std::string listed(std::span<const std::string_view> words) {
  std::string text;
  for (const std::string_view word : words) text += (text.empty() ? "`" : ", `") + std::string(word) + "`";
  return text;
}

/// Whether the letter went out, or was withheld, about just what it would tell now. Withheld from someone who
/// was gone, it is wanted as soon as that is taken back.
Result<Done> check_known(Transaction& transaction, const LetterKey& key, const LetterFacts& facts,
                         const Permission& permission) {
  const auto known = find_letter(transaction, key);
  if (!known || !known->another_because.empty() || !known->gone.empty() || !permission.again.empty())
    return Done{};
  if (is_of_recall(key) && known->tells != facts.tells) return Done{};
  const std::string what =
      "the " + key.letter + " letter to the " + key.recipient + " about `" + key.exam + "`";
  if (!known->withheld.empty()) {
    return fault("letter_withheld", what + " was withheld on " + known->on + ": " + known->withheld,
                 "say why it is made all the same: `--again REASON`");
  }
  return fault(
      "letter_issued", what + " went out on " + known->on + ", entry " + std::to_string(known->entry),
      "`letter show " + std::to_string(known->entry) + "` prints it; `--again REASON` makes it anew");
}

Error not_signed(Transaction& transaction, const LetterCase& about) {
  const std::string& exam = about.examination.exam;
  if (was_signed(transaction, about)) {
    return fault("advice_superseded",
                 "the advice that was signed for examination `" + exam + "` was superseded",
                 "a clinician signs the new answer first");
  }
  return fault("not_signed", "no next step is signed for examination `" + exam + "`",
               "a letter tells nothing that no clinician has signed");
}

Error another_letter(const LetterKey& key, const Standing& standing) {
  return fault("another_letter",
               "`" + std::string(engine::text_of(standing.action)) + "` is signed for examination `" +
                   key.exam + "`: no " + key.letter + " letter tells that",
               is_stop(standing.action) ? "make the `discharge`" : "make the `result`");
}

// --- the person

json object_in(const json& known, const char* key) {
  const auto found = known.find(key);
  return found != known.end() && found->is_object() ? *found : json::object();
}

std::vector<std::string> address_in(const json& object) {
  std::vector<std::string> lines;
  for (const json& line : object.value("address", json::array())) lines.push_back(line.get<std::string>());
  return lines;
}

void read_address(const json& known, LetterFacts& facts) {
  const json doctor = object_in(known, "family_doctor");
  facts.doctor = text_at(doctor, "name");
  if (facts.key.recipient == "patient") {
    facts.address = address_in(object_in(known, "contact"));
    return;
  }
  if (const std::string practice = text_at(doctor, "practice"); !practice.empty()) facts.address = {practice};
  for (std::string& line : address_in(doctor)) facts.address.push_back(std::move(line));
}

void describe(Transaction& transaction, LetterFacts& facts) {
  const json known = description_of(transaction, facts.person.person);
  if (const auto name = known.find("name"); name != known.end() && name->is_object())
    facts.name = {text_at(*name, "family"), text_at(*name, "given"), text_at(*name, "prefix")};
  read_address(known, facts);
  const auto needs = known.find("needs");
  if (needs == known.end() || !needs->is_array()) return;
  for (const json& need : *needs)
    facts.needs.push_back({text_at(need, "flag"), text_at(need, "since"), text_at(need, "source")});
}

// --- what was found

bool may_be_cancer(const engine::Lesion& lesion) {
  constexpr auto cancer = engine::LesionType::adenocarcinoma;
  if (!lesion.histology) return false;
  const auto& type = lesion.histology->type;
  return type.is_known() ? type.value == cancer
                         : std::find(type.options.begin(), type.options.end(), cancer) != type.options.end();
}

bool may_be_cut(const engine::Lesion& lesion) {
  return !lesion.removal.is_known() || lesion.removal.value != engine::Removal::not_removed;
}

/// A record that contradicts itself as a whole tells nothing: what guards the patient is then taken as given.
void read_findings(const json& record, LetterFacts& facts) {
  facts.procedure = record.at("exam").value("procedure", json()).is_string()
                        ? text_at(record.at("exam"), "procedure")
                        : std::string();
  const auto read = engine::read_record(engine::canonical_json(record), facts.key.exam);
  if (!read || !read->exam.lesions_stated) {
    facts.polyps_removed = facts.has_cancer = true;
    return;
  }
  facts.polyps = PolypCount{};
  for (const engine::Lesion& lesion : read->exam.lesions) {
    facts.polyps->least += lesion.number.value;
    facts.polyps->most += lesion.number.most;
    facts.polyps_removed = facts.polyps_removed || may_be_cut(lesion);
    facts.has_cancer = facts.has_cancer || may_be_cancer(lesion);
  }
}

// --- what was signed

std::optional<engine::Interval> interval_in(const json& object) {
  const auto interval = object.find("interval");
  if (interval == object.end() || !interval->is_object()) return std::nullopt;
  const auto months = [&](const char* end) {
    return std::get<engine::Months>(engine::parse_duration(text_at(*interval, end)).value());
  };
  return engine::Interval{months("from"), months("to")};
}

/// A date that a clinician has set stands by itself, without the guideline's interval.
void read_interval(const json& answer, LetterFacts& facts) {
  if (facts.moved) return;
  facts.interval = interval_in(answer);
  const auto counted = answer.find("counted_from");
  if (!facts.interval || counted == answer.end() || !counted->is_object()) return;
  facts.counted_from = text_at(*counted, "what");
  facts.counted_from_date = engine::parse_date(text_at(*counted, "date"));
}

void read_answer(const json& answer, LetterFacts& facts) {
  read_interval(answer, facts);
  const json& ruleset = answer.at("ruleset");
  facts.ruleset = text_at(ruleset, "id");
  facts.edition = text_at(ruleset, "edition");
  facts.ruleset_digest = text_at(ruleset, "digest");
  for (const json& reason : answer.at("reasons")) {
    facts.reasons.push_back({text_at(reason, "rule"), text_at(reason, "because"), text_at(reason, "source"),
                             text_at(reason, "evidence")});
  }
  for (const json& flag : answer.at("flags"))
    facts.flags.push_back({text_at(flag, "flag"), text_at(flag, "rule"), text_at(flag, "because")});
  for (const json& step : answer.at("then")) {
    facts.then.push_back({engine::action_of(text_at(step, "action")).value(), interval_in(step),
                          text_at(step, "counted_from"), text_at(step, "rule"), text_at(step, "because")});
  }
  for (const json& caution : answer.at("cautions")) facts.cautions.push_back(caution.get<std::string>());
}

void read_signature(const Standing& standing, const json& advice, LetterFacts& facts) {
  facts.clinician = text_at(standing.signed_body, "clinician");
  facts.signed_on = text_at(standing.signed_body, "on");
  facts.is_overridden = standing.signed_body.contains("computed");
  facts.reason = facts.is_overridden ? text_at(standing.signed_body, "reason") : std::string();
  if (!facts.is_overridden)
    read_answer(advice.at("answers").at(advice.at("chosen").get<std::size_t>()), facts);
}

void read_standing(Transaction& transaction, const Standing& standing, LetterFacts& facts) {
  facts.tells = standing.tells;
  facts.advice = standing.advice;
  facts.action = standing.action;
  facts.due = standing.due;
  facts.moved = standing.moved;
  const json advice = transaction.body(standing.advice);
  if (!standing.signed_body.is_null()) read_signature(standing, advice, facts);
}

void read_examination(Transaction& transaction, LetterFacts& facts) {
  const auto examination = find_examination(transaction, facts.key.exam);
  const std::uint64_t source = examination->advice.value_or(examination->recorded);
  read_findings(transaction.body(source).at("record"), facts);
}

// --- the two ways to a letter

Result<Done> read_for_signature(Transaction& transaction, const LetterCase& about, LetterFacts& facts) {
  if (!about.signature) return not_signed(transaction, about);
  if (auto error = obstacle_of_signature(about)) return *error;
  const Standing standing = standing_of_signature(transaction, about);
  if (is_stop(standing.action) != (facts.key.letter == "discharge"))
    return another_letter(facts.key, standing);
  read_standing(transaction, standing, facts);
  facts.is_handed_over = about.recall && about.recall->signature == about.signature &&
                         about.recall->state == RecallState::handed_over;
  return Done{};
}

Error not_invited(const LetterCase& about, const LetterKey& key) {
  return fault("not_invited",
               "no attempt to reach the person by a letter of `" + key.letter + "` to the " + key.recipient +
                   " stands for examination `" + about.examination.exam + "`",
               "`recall invite` notes the attempt first");
}

void leave_out_the_answer(LetterFacts& facts) {
  facts.interval.reset();
  facts.counted_from.clear();
  facts.counted_from_date.reset();
  facts.ruleset.clear();
  facts.edition.clear();
  facts.ruleset_digest.clear();
  facts.reasons.clear();
  facts.flags.clear();
  facts.then.clear();
  facts.cautions.clear();
}

/// The step is the recall's, as it stands; the letter is about the attempt.
Result<Done> read_for_recall(Transaction& transaction, const LetterCase& about, LetterFacts& facts) {
  if (!about.recall) return not_invited(about, facts.key);
  if (auto error = obstacle_of(*about.recall)) return *error;
  const CaseRecall& recall = *about.recall;
  const bool waits_for_reply = recall.state == RecallState::invited || recall.state == RecallState::no_reply;
  if (!waits_for_reply || !recall.invited || letter_of_attempt(recall) != facts.key.letter ||
      recipient_of_attempt(recall) != facts.key.recipient) {
    return not_invited(about, facts.key);
  }
  const Standing standing = standing_of_recall(transaction, about);
  read_standing(transaction, standing, facts);
  leave_out_the_answer(facts);  // of a plan's first step, perhaps
  facts.clinician = standing.clinician;
  facts.tells = *recall.invited;
  facts.recall = recall.id();
  facts.attempt = recall.attempts;
  facts.is_last_attempt = recall.state == RecallState::no_reply;
  return Done{};
}

}  // namespace

Result<Done> check_key(const LetterKey& key) {
  const auto is_among = [](std::span<const std::string_view> words, const std::string& word) {
    return std::find(words.begin(), words.end(), word) != words.end();
  };
  if (!is_among(letter_names, key.letter))
    return fault("unknown_letter", "there is no letter `" + key.letter + "`",
                 "there are " + listed(letter_names));
  if (!is_among(recipients, key.recipient))
    return fault("unknown_letter", "no letter goes to `" + key.recipient + "`",
                 "they go to " + listed(recipients));
  return Done{};
}

bool is_stop(engine::Action action) {
  return action == engine::Action::no_surveillance || action == engine::Action::return_to_screening;
}

Result<LetterFacts> facts_in(Transaction& transaction, const LetterKey& key, const Permission& permission) {
  if (auto known = check_key(key); !known) return known.errors();
  const auto about = find_letter_case(transaction, key.exam);
  if (!about)
    return fault("unknown_exam", "no examination `" + key.exam + "` is on the ledger",
                 "`letters` lists what is owed");
  if (auto error = obstacle_of(about->person, disputes_in(transaction))) return *error;
  LetterFacts facts;
  facts.key = key;
  facts.person = about->person;
  facts.examination = about->examination;
  auto read = is_of_recall(key) ? read_for_recall(transaction, *about, facts)
                                : read_for_signature(transaction, *about, facts);
  if (!read) return read.errors();
  if (auto may = check_known(transaction, key, facts, permission); !may) return may.errors();
  describe(transaction, facts);
  read_examination(transaction, facts);
  if (key.recipient == "patient" && facts.has_cancer && permission.told_by.empty() && !is_of_recall(key))
    return person_first(key.exam);
  return facts;
}

Result<LetterFacts> letter_facts(const Ledger& ledger, const LetterKey& key, const Permission& permission) {
  LetterFacts facts;
  const auto done = ledger.store().read([&](Transaction& transaction) -> Result<Done> {
    auto found = facts_in(transaction, key, permission);
    if (!found) return found.errors();
    facts = std::move(*found);
    return Done{};
  });
  if (!done) return done.errors();
  return facts;
}

}  // namespace ledger
