#include "letters/words.h"

#include <algorithm>
#include <cctype>

#include "engine/in_words.h"

namespace cli {

using engine::Action;
using ledger::LetterFacts;

namespace {

std::string lower(std::string text) {
  std::transform(text.begin(), text.end(), text.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return text;
}

bool needs(const LetterFacts& facts, const std::vector<std::string>& words) {
  return std::any_of(facts.needs.begin(), facts.needs.end(), [&](const ledger::NeedLine& need) {
    const std::string flag = lower(need.flag);
    return std::any_of(words.begin(), words.end(),
                       [&](const std::string& word) { return flag.find(lower(word)) != std::string::npos; });
  });
}

std::string no_date_words(Action action, Reader reader) {
  switch (action) {
    case Action::no_surveillance:
      return "no date: nothing further is planned";
    case Action::return_to_screening:
      return "no date is set here: screening goes by its own dates";
    default:
      return reader == Reader::patient ? "no date is set here: the team that is asked writes to you"
                                       : "no date is set here: the team that is asked writes to the patient";
  }
}

/// A date that comes with a stop is nobody's to remember here: the letter says so.
std::string leaving_words(bool to_patient, bool has_date) {
  if (to_patient) {
    return std::string("With this letter you leave our follow-up list: we do not invite you again.") +
           (has_date ? " The date above is for you and your family doctor to keep." : "") +
           " Should your health or your family history change, your family doctor can ask us again.";
  }
  return std::string("Your patient leaves our follow-up list: we send no further invitation.") +
         (has_date ? " Please keep the date above together with your patient." : "");
}

std::string count_words(const ledger::PolypCount& count) {
  if (count.most == 0) return "No polyps were found.";
  if (count.most == 1) return "1 polyp was found.";
  if (count.least == count.most) return std::to_string(count.most) + " polyps were found.";
  return "Between " + std::to_string(count.least) + " and " + std::to_string(count.most) +
         " polyps were found.";
}

}  // namespace

Reader reader_of(const LetterFacts& facts) {
  return facts.key.recipient == "patient" ? Reader::patient : Reader::doctor;
}

std::string step_words(Action action, Reader reader) {
  std::string term(engine::text_of(action));
  if (reader == Reader::doctor) return action == Action::refer ? "refer to a specialist team" : term;
  switch (action) {
    case Action::surveillance_colonoscopy:
      return "a surveillance colonoscopy (the large bowel is looked at again with a camera, to find any "
             "changes "
             "early)";
    case Action::site_check:
      return "a site check (the place where a polyp was removed is looked at again with a camera, to see "
             "that it "
             "has healed and that nothing is left)";
    case Action::repeat_examination:
      return "a repeat examination (the bowel is examined again, because the last examination did not show "
             "all that "
             "it should)";
    case Action::no_surveillance:
      return "no surveillance (no further routine examination of your bowel is planned)";
    case Action::return_to_screening:
      return "return to screening (you need no extra follow-up; bowel screening goes on for you as for "
             "everyone of "
             "your age)";
    case Action::refer:
      return "a referral (a specialist team is asked for its advice about your care)";
    default:
      return term;  // nothing else can be signed
  }
}

std::string window_words(const LetterFacts& facts, Reader reader) {
  if (!facts.due) return no_date_words(facts.action, reader);
  if (facts.due->from == facts.due->to) return "due on " + engine::in_words(facts.due->from);
  return "due between " + engine::in_words(facts.due->from) + " and " + engine::in_words(facts.due->to);
}

std::string interval_words(const LetterFacts& facts) {
  if (!facts.interval || facts.interval->to.count == 0) return "";
  std::string text = engine::in_words(*facts.interval);
  if (facts.counted_from.empty()) return text;
  text += " after the " + facts.counted_from;
  return facts.counted_from_date ? text + " of " + engine::in_words(*facts.counted_from_date) : text;
}

std::string why_words(const LetterFacts& facts) {
  if (facts.is_overridden)
    return facts.clinician +
           " has decided this with your own situation in mind, and can tell you the reasons.";
  switch (facts.action) {
    case Action::surveillance_colonoscopy:
      return "With findings and a history like yours it is advised to look again after a time, so that new "
             "growths "
             "are found while they are easy to remove.";
    case Action::site_check:
      return "A polyp that was large, or that was removed in pieces, can grow back in the same place. An "
             "early look "
             "shows whether anything is left.";
    case Action::repeat_examination:
      return "The last examination did not give a result that can be relied on for the whole of the large "
             "bowel.";
    case Action::no_surveillance:
      return "With findings and circumstances like yours, routine follow-up is not advised.";
    case Action::return_to_screening:
      return "With findings like yours, nothing beyond ordinary bowel screening is advised.";
    default:
      return "What was found, or what is known of your health, is best judged by a team that knows it well.";
  }
}

std::string after_words(const LetterFacts& facts) {
  const bool to_patient = reader_of(facts) == Reader::patient;
  if (ledger::is_stop(facts.action)) return leaving_words(to_patient, facts.due.has_value());
  if (facts.action == Action::refer) {
    return to_patient ? "If you hear nothing from the team for some weeks, ring us."
                      : "Ring us when it is not clear who asks the team.";
  }
  if (facts.is_handed_over) {
    return to_patient ? "The service that looks after you from now on writes to you when it is time."
                      : "The recall was handed over to another service, which writes when it is due.";
  }
  return to_patient ? "We write to you when it is time. Please tell us when your address or telephone number "
                      "changes."
                    : "Your patient is on our recall list: we write when it is due.";
}

std::string found_words(const LetterFacts& facts) {
  if (!facts.polyps || facts.has_cancer) return "";
  std::string text = count_words(*facts.polyps);
  if (facts.polyps->most == 0) return text;
  return text +
         " Polyps are small growths on the inside of the bowel. Most are harmless; some can turn into a "
         "cancer over "
         "many years, and that is why they are removed and looked at under a microscope.";
}

std::string sooner_words(Reader reader) {
  if (reader == Reader::doctor) {
    return "Rectal bleeding, a change of bowel habit or weight loss need to be looked into when they come, "
           "by the "
           "usual way for symptoms: please do not wait for a date in this letter.";
  }
  return "See your family doctor soon if you bleed from the back passage, if your bowel habit changes and "
         "stays "
         "changed, or if you lose weight and do not know why. Do not wait for a date in this letter or for "
         "an "
         "invitation.";
}

std::string bleeding_words(const LetterFacts& facts, const UnitDetails& unit) {
  if (!facts.polyps_removed) return "";
  return "After a polyp is removed, bleeding can still come days later, up to two weeks. If you bleed more "
         "than a "
         "little, feel faint, or have a fever or strong pain in the belly, get help at once: " +
         (unit.urgent.empty() ? std::string("ring the emergency service") : unit.urgent) + ".";
}

std::string preparation_words() {
  return "The bowel has to be empty for the examination. Our instructions say how and when; ring us if you "
         "do not "
         "have them a week before.";
}

std::string medicines_words(const LetterFacts& facts, const UnitDetails& unit) {
  std::vector<std::string> thinners = {"anticoag", "antiplatelet", "blood thin", "warfarin"};
  thinners.insert(thinners.end(), unit.blood_thinners.begin(), unit.blood_thinners.end());
  std::string text;
  if (needs(facts, thinners))
    text += "Our record says that you take a medicine that thins the blood: please tell us which one. ";
  if (needs(facts, {"diabet", "insulin"})) text += "Our record says that you have diabetes. ";
  return text +
         "Tell us before the examination if you take a medicine that thins the blood (an anticoagulant, or "
         "tablets "
         "against clots), or if you take tablets or insulin for diabetes. Do not stop or change a medicine "
         "by "
         "yourself: we tell you what to do.";
}

std::string escort_words() {
  return "If you have a sedative, someone has to take you home. You must not drive, and not work with "
         "machines, for "
         "24 hours.";
}

std::string ring_words(const UnitDetails& unit) {
  return "Ring " + unit.name + " on " + unit.telephone + (unit.hours.empty() ? "" : " (" + unit.hours + ")") +
         ".";
}

bool needs_large_print(const LetterFacts& facts) {
  return needs(facts, {"large print", "large-print", "big print"});
}

std::vector<std::string> reading_notes(const LetterFacts& facts, const std::string& format) {
  std::vector<std::string> notes;
  if (needs(facts, {"interpret", "language", "translat"}))
    notes.emplace_back("needs another language or an interpreter: the letter is in English");
  if (needs_large_print(facts)) {
    notes.emplace_back(format == "html" ? "needs large print: the letter is in large print"
                                        : "needs large print: make it with `--format html`");
  }
  if (needs(facts,
            {"braille", "easy read", "easy-read", "audio", "blind", "sight", "deaf", "hearing", "sign lang"}))
    notes.emplace_back("needs another form than a letter on paper");
  std::string all;
  for (const ledger::NeedLine& need : facts.needs) all += (all.empty() ? "on record: " : "; ") + need.flag;
  if (!all.empty()) notes.push_back(all);
  return notes;
}

}  // namespace cli
