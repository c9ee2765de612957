#include "letters/fields.h"

#include <algorithm>

#include "engine/in_words.h"
#include "engine/printable.h"
#include "letters/words.h"
#include "report/caution.h"

namespace cli {

using ledger::LetterFacts;
using nlohmann::json;

namespace {

/// One line, without what would steer a printer or a terminal.
std::string fit(const std::string& text) {
  std::string line = text;
  for (char& c : line) {
    if (c == '\n' || c == '\r') c = ' ';
  }
  return engine::printable(line);
}

class Fields {
 public:
  void put(const std::string& tag, const std::string& text) {
    if (!text.empty()) at(tag) = fit(text);
  }
  void put(const std::string& tag, const std::vector<std::string>& texts) {
    if (texts.empty()) return;
    json list = json::array();
    for (const std::string& text : texts) list.push_back(fit(text));
    at(tag) = std::move(list);
  }
  void put_flag(const std::string& tag, bool is_so) { at(tag) = is_so; }
  json take() { return std::move(fields_); }

 private:
  json& at(const std::string& tag) {
    const std::size_t dot = tag.find('.');
    return dot == std::string::npos ? fields_[tag] : fields_[tag.substr(0, dot)][tag.substr(dot + 1)];
  }
  json fields_ = json::object();
};

std::string day_words(const std::string& day) {
  const auto date = engine::parse_date(day);
  return date ? engine::in_words(*date) : day;
}

std::string name_words(const engine::PersonName& name) {
  std::string text;
  for (const std::string& part : {name.prefix, name.given, name.family}) {
    if (!part.empty()) text += (text.empty() ? "" : " ") + part;
  }
  return text;
}

std::string greeting_words(const LetterFacts& facts) {
  if (reader_of(facts) == Reader::doctor) return "Dear " + (facts.doctor.empty() ? "Doctor" : facts.doctor);
  const engine::PersonName& name = facts.name;
  if (!name.prefix.empty() && !name.family.empty()) return "Dear " + name.prefix + " " + name.family;
  return "Dear " + name_words(name);
}

std::string addressee_words(const LetterFacts& facts) {
  if (reader_of(facts) == Reader::patient) return name_words(facts.name);
  return facts.doctor.empty() ? "To the family doctor of " + name_words(facts.name) : facts.doctor;
}

/// `nhs-number 9990000018; hospital-number H12` as people write it.
std::string identifier_words(const std::string& identifiers) {
  std::string text;
  for (std::size_t start = 0; start < identifiers.size();) {
    const std::size_t end = std::min(identifiers.find("; ", start), identifiers.size());
    std::string one = identifiers.substr(start, end - start);
    const std::size_t space = std::min(one.find(' '), one.size());
    std::replace(one.begin(), one.begin() + static_cast<std::ptrdiff_t>(space), '-', ' ');
    if (one.starts_with("nhs ")) one.replace(0, 3, "NHS");
    if (one.starts_with("NHS number ") && one.size() == 21) one.insert(17, " ").insert(14, " ");
    text += (text.empty() ? "" : "; ") + one;
    start = end + 2;
  }
  return text;
}

std::string title_words(const LetterFacts& facts) {
  const std::string day = day_words(facts.examination.date);
  if (facts.key.letter == "invitation") return "Your examination is due";
  if (facts.key.letter == "reminder")
    return reader_of(facts) == Reader::patient ? "Reminder: your examination is due"
                                               : "No reply about an examination that is due";
  if (facts.key.letter == "discharge") return "Examination of " + day + ": the end of our follow-up";
  return "Examination of " + day + ": what was found and what comes next";
}

std::string rule_words(const engine::Reason& reason) {
  return reason.because + " (rule " + reason.rule + "; " + reason.source + ")";
}

std::vector<std::string> rules_of(const LetterFacts& facts) {
  std::vector<std::string> rules;
  for (const engine::Reason& reason : facts.reasons) rules.push_back(rule_words(reason));
  return rules;
}

std::vector<std::string> flags_of(const LetterFacts& facts) {
  std::vector<std::string> flags;
  for (const engine::Flag& flag : facts.flags)
    flags.push_back(flag.flag + ": " + flag.because + " (rule " + flag.rule + ")");
  return flags;
}

std::vector<std::string> later_steps_of(const LetterFacts& facts) {
  std::vector<std::string> steps;
  for (const engine::LaterStep& step : facts.then) {
    std::string line = step_words(step.action, Reader::doctor);
    if (step.interval) line += " after " + engine::in_words(*step.interval);
    steps.push_back(line + ": " + step.because + " (rule " + step.rule + ")");
  }
  return steps;
}

/// Without the last, which every letter ends with in its own place.
std::vector<std::string> notes_of(const LetterFacts& facts) {
  if (facts.cautions.empty()) return {};
  return {facts.cautions.begin(), facts.cautions.end() - 1};
}

void put_letter(Fields& fields, const LetterFacts& facts, const engine::Date& today) {
  fields.put("date", engine::in_words(today));
  fields.put("reference", facts.person.person + "-" + std::to_string(facts.tells));
  fields.put("title", title_words(facts));
  fields.put("greeting", greeting_words(facts));
  fields.put("addressee", addressee_words(facts));
  fields.put("address", facts.address);
  fields.put_flag("large_print", reader_of(facts) == Reader::patient && needs_large_print(facts));
}

void put_unit(Fields& fields, const UnitDetails& unit) {
  fields.put("unit.name", unit.name);
  fields.put("unit.address", unit.address);
  fields.put("unit.telephone", unit.telephone);
  fields.put("unit.hours", unit.hours);
  fields.put("unit.email", unit.email);
}

void put_examination(Fields& fields, const LetterFacts& facts) {
  fields.put("patient", name_words(facts.name));
  fields.put("born", day_words(facts.person.birth_date));
  fields.put("identifiers", identifier_words(facts.person.identifiers));
  fields.put("examination", facts.procedure.empty() ? "examination of the bowel" : facts.procedure);
  fields.put("examined", day_words(facts.examination.date));
  fields.put("place", facts.examination.place);
  fields.put("endoscopist", facts.examination.endoscopist);
  fields.put("found", found_words(facts));
  fields.put("findings", facts.examination.findings);
}

std::string signed_words(const LetterFacts& facts) {
  return facts.signed_on.empty() ? facts.clinician : facts.clinician + " on " + day_words(facts.signed_on);
}

std::string moved_words(const LetterFacts& facts) {
  if (!facts.moved) return "";
  return "the date was set by " + facts.moved->clinician + " on " + day_words(facts.moved->on) + ": " +
         facts.moved->reason;
}

std::string guideline_words(const LetterFacts& facts, const std::string& title) {
  if (facts.ruleset.empty()) return "";
  const std::string edition = facts.ruleset + ", edition " + facts.edition;
  return title.empty() ? edition : title + " (" + edition + ")";
}

void put_signed(Fields& fields, const LetterFacts& facts, const std::string& guideline) {
  const Reader reader = reader_of(facts);
  fields.put("step", step_words(facts.action, reader));
  fields.put("window", window_words(facts, reader));
  fields.put("interval", interval_words(facts));
  fields.put("why", why_words(facts));
  fields.put("after", after_words(facts));
  fields.put("signed", signed_words(facts));
  fields.put("moved", moved_words(facts));
  fields.put("guideline", reader == Reader::patient && !facts.ruleset.empty()
                              ? guideline
                              : guideline_words(facts, guideline));
  fields.put("rules", rules_of(facts));
  fields.put("decision", facts.reason);
  fields.put("later", later_steps_of(facts));
  fields.put("flags", flags_of(facts));
  fields.put("notes", notes_of(facts));
}

void put_attempt(Fields& fields, const LetterFacts& facts) {
  if (facts.attempt > 0) fields.put("attempt", std::to_string(facts.attempt));
  fields.put_flag("last_attempt", facts.is_last_attempt);
}

void put_guards(Fields& fields, const LetterFacts& facts, const UnitDetails& unit) {
  const Reader reader = reader_of(facts);
  fields.put("sooner", sooner_words(reader));
  fields.put("bleeding", reader == Reader::patient ? bleeding_words(facts, unit) : "");
  fields.put("preparation", preparation_words());
  fields.put("medicines", medicines_words(facts, unit));
  fields.put("escort", escort_words());
  fields.put("ring", ring_words(unit));
  fields.put("caution", std::string(caution));
}

}  // namespace

json letter_fields(const LetterFacts& facts, const LetterSetting& setting) {
  Fields fields;
  put_letter(fields, facts, setting.today);
  put_unit(fields, setting.unit);
  put_examination(fields, facts);
  put_signed(fields, facts, setting.guideline);
  put_attempt(fields, facts);
  put_guards(fields, facts, setting.unit);
  return fields.take();
}

}  // namespace cli
