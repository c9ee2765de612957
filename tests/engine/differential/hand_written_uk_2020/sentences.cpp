#include "engine/differential/hand_written_uk_2020/sentences.h"

#include <algorithm>

#include "record/terms.h"

namespace testing::by_hand {

std::string joined(std::initializer_list<std::string_view> parts) {
  std::size_t size = 0;
  for (const std::string_view part : parts) size += part.size();
  std::string text;
  text.reserve(size);
  for (const std::string_view part : parts) text += part;
  return text;
}

std::string text_of(Millimetres size) {
  std::string text = std::to_string(size.tenths / 10);
  if (size.tenths % 10 != 0) text += "." + std::to_string(size.tenths % 10);
  return text;
}

namespace {

std::string polyp_phrase(int polyps) {
  if (polyps == 0) return "no premalignant polyp";
  if (polyps == 1) return "1 premalignant polyp";
  return std::to_string(polyps) + " premalignant polyps";
}

std::string phrase_of(const Risk& risk) {
  if (risk.premalignant < 2 || risk.premalignant >= 5) return polyp_phrase(risk.premalignant);
  if (risk.advanced == 0) return polyp_phrase(risk.premalignant) + ", none of them advanced";
  return polyp_phrase(risk.premalignant) + ", " + std::to_string(risk.advanced) + " of them advanced";
}

std::string preparation_phrase(const Examination& exam) {
  if (exam.graded.is_known()) return std::string(term_of(exam.graded.value));
  const Boston& boston = *exam.boston;
  return joined({"Boston ", std::to_string(boston.right.value), "-", std::to_string(boston.transverse.value),
                 "-", std::to_string(boston.left.value)});
}

Millimetres largest_r0(const Patient2020& patient) {
  Millimetres largest;
  for (const Lesion* lesion : patient.findings) {
    if (patient.is_large_r0(*lesion)) largest = std::max(largest, lesion->size.value);
  }
  return largest;
}

}  // namespace

std::string sentence_of_scope(Row row) {
  switch (row) {
    case Row::lynch_syndrome:
      return "Lynch syndrome is on record: the polyp rules do not apply";
    case Row::familial_polyposis:
      return "familial adenomatous polyposis is on record: the polyp rules do not apply";
    case Row::mutyh_polyposis:
      return "MUTYH-associated polyposis is on record: the polyp rules do not apply";
    case Row::serrated_polyposis:
      return "serrated polyposis syndrome is on record: the polyp rules do not apply";
    case Row::serrated_polyposis_by_findings:
      return "the serrated polyps of all examinations together meet the WHO 2019 definition of serrated "
             "polyposis (criteria from memory): the polyp rules do not apply";
    case Row::colitis:
      return "inflammatory bowel disease is on record: the polyp rules do not apply; the current BSG 2025 "
             "guideline (doi:10.1136/gutjnl-2025-335023) is not held here, and uk-ibd-2010 gives the older "
             "strata where they are asked for";
    case Row::cholangitis:
      return "primary sclerosing cholangitis is on record: surveillance follows the colitis guidance; the "
             "current BSG 2025 guideline (doi:10.1136/gutjnl-2025-335023) is not held here, and uk-ibd-2010 "
             "gives the older strata where they are asked for";
    case Row::colitis_surveillance:
      return "the examination was for inflammatory bowel disease surveillance, though no such disease is on "
             "record: add the condition; the polyp rules do not apply";
    default:
      return "a lesion was adenocarcinoma and no later resection is on record: a cancer team decides on "
             "surgery, staging and checks of the site; the guideline's interval for those checks is not held "
             "here (from memory, no number recalled)";
  }
}

std::string sentence_of_shortcoming(Row row, const Patient2020& patient) {
  const Examination& exam = patient.exam;
  switch (row) {
    case Row::colon_not_seen_before_resection:
      return joined({"the colon was not fully seen before the cancer resection of ",
                     text_of(*patient.resection),
                     ": complete it early after the operation, then count the one-year clearance from the "
                     "resection; the time limit is not held here (from memory, no number recalled)"});
    case Row::poor_preparation:
      return joined({"bowel preparation was ", preparation_phrase(exam),
                     ": no risk class can be declared until the colon has been seen well; repeat as soon as "
                     "practicable (the guideline sets no time)"});
    case Row::incomplete:
      return joined({"the ", term_of(exam.procedure.value), " reached the ", term_of(exam.reached.value),
                     " and not the caecum: no interval can be set until the whole colon has been seen; "
                     "repeat as soon as practicable (the guideline sets no time)"});
    case Row::other_ways_to_complete:
      return "CT colonography is acceptable instead, or a repeat by a more experienced operator";
    case Row::baseline_still_open:
      return joined({"the examination of ", text_of(patient.reference->date),
                     " was incomplete or poorly prepared and nothing has completed it since: besides the "
                     "site check the whole colon still has to be seen"});
    case Row::seen_at_ct: {
      int seen = 0;
      for (const Lesion& lesion : exam.lesions) seen += lesion.number.value;
      return joined({"CT colonography showed ", std::to_string(seen),
                     " lesion(s): colonoscopy has to remove them before an interval can be set"});
    }
    default:
      return "a polyp was left, or only biopsied, or the bowel is stated as not cleared: remove what is left "
             "as soon as practicable; if what was left is known not to be premalignant, record the "
             "examination as cleared";
  }
}

std::string sentence_of_site_step(Row row, Millimetres size) {
  switch (row) {
    case Row::large_site:
      return joined({"a non-pedunculated polyp of ", text_of(size),
                     " mm was not removed in one piece with clear margins: look at its site 2 to 6 months "
                     "after the resection"});
    case Row::large_site_again:
      return joined({"the site of the polyp of ", text_of(size),
                     " mm is looked at a second time 12 months after a clear first site check"});
    case Row::large_site_late:
      return joined({"the first clear look at the site of the polyp of ", text_of(size),
                     " mm came more than 6 months after the resection: the second is due 18 months after the "
                     "resection (18 months from memory)"});
    case Row::large_site_closed:
      return joined(
          {"colonoscopy 3 years after the last clear site check of the polyp of ", text_of(size), " mm"});
    case Row::recurrence:
      return joined({"a polyp was found in the segment of the scar of the polyp of ", text_of(size),
                     " mm: look again 2 to 6 months after its treatment (our reading; the guideline gives "
                     "none)"});
    default:
      return joined({"histology does not confirm that the non-pedunculated polyp of ", text_of(size),
                     " mm was completely removed: consider a look at its site 2 to 6 months after the "
                     "resection (window from memory)"});
  }
}

std::string sentence_of_step(const Step& step, const Patient2020& patient) {
  switch (step.row) {
    case Row::high_risk:
      return phrase_of(patient.risk) + ": high-risk findings, so one colonoscopy at 3 years";
    case Row::high_risk_at_site_check:
      return joined({"found at the site check: ", phrase_of(patient.risk_at_site_check),
                     ": high-risk findings, so one colonoscopy at 3 years"});
    case Row::high_risk_again:
      return joined({"at the surveillance examination ", phrase_of(patient.risk),
                     ": high-risk findings, so colonoscopy at 3 years"});
    case Row::large_r0:
      return joined({"a non-pedunculated polyp of ", text_of(largest_r0(patient)),
                     " mm was removed in one piece with clear margins: one colonoscopy at 3 years"});
    case Row::clearance_due:
      return joined({"colorectal cancer was resected on ", text_of(*patient.resection),
                     " and the colon has been seen: clearance colonoscopy one year after the resection (from "
                     "memory; timing read in a trust protocol)"});
    case Row::clearance_done:
      if (patient.after_cancer == AfterCancer::clearance_done)
        return joined({"the clearance colonoscopy after the resection of ", text_of(*patient.resection),
                       " is done: the next is 3 years after it, year 4 (from memory; timing read in a trust "
                       "protocol)"});
      return joined({"the clearance colonoscopy of ", text_of(patient.clearance),
                     " calls for one 3 years after it, which this examination came too early to replace "
                     "(from memory; timing read in a trust protocol)"});
    case Row::year_four:
      return phrase_of(patient.risk) +
             " at the examination after cancer clearance: high-risk findings, so colonoscopy at 3 years "
             "(from memory)";
    default:
      return sentence_of_site_step(step.row, step.size);
  }
}

std::string sentence_of_stop(Row row, std::int64_t age_when_due) {
  if (row == Row::short_life) return "life expectancy is under 10 years: surveillance is not offered";
  return joined({"aged ", std::to_string(age_when_due),
                 " when the examination would fall due: surveillance is not offered past about 75"});
}

std::string sentence_of_low_risk(Row row, const Patient2020& patient) {
  const std::string age = std::to_string(patient.age);
  switch (row) {
    case Row::short_life:
      return sentence_of_stop(row, patient.age);
    case Row::young:
      return joined({"aged ", age, ", more than 10 years below the screening age of ",
                     std::to_string(patient.screening_from_age()), ", with ",
                     polyp_phrase(patient.risk.premalignant),
                     " and no high-risk findings: consider a colonoscopy at 5 or 10 years, by age and other "
                     "risk"});
    case Row::year_four:
      return phrase_of(patient.risk) +
             " at the examination after cancer clearance, so no high-risk findings: no further surveillance "
             "(from memory)";
    case Row::low_risk_again:
      return joined({"surveillance examination with ", phrase_of(patient.risk),
                     ", so no high-risk findings: surveillance ends; national screening when invited"});
    case Row::low_risk_again_past_75:
      return joined({"aged ", age, ", surveillance examination with ", phrase_of(patient.risk),
                     ", so no high-risk findings: surveillance ends"});
    case Row::low_risk_past_75:
      return joined({"aged ", age, ", ", phrase_of(patient.risk),
                     ", so no high-risk findings: no surveillance; screening no longer invites at this age "
                     "(common practice)"});
    default:
      return phrase_of(patient.risk) +
             ", so no high-risk findings: no surveillance; take part in national screening when invited";
  }
}

std::string sentence_beside(Row row, const Patient2020& patient) {
  switch (row) {
    case Row::no_resection_date:
      return "a cancer resection without its date, or cancer follow-up without a resection on record: give "
             "the date of the resection; the one-year clearance is counted from it";
    case Row::no_resection_on_record:
      return "a site check, but no earlier examination on record removed a polyp of 10 mm or more: give the "
             "examination of the resection";
    case Row::high_risk_even_so:
      return joined({"high-risk findings stand even so (", phrase_of(patient.risk),
                     "), since more polyps cannot lower the class: complete the colon first, then "
                     "colonoscopy 3 years after the examination that completes it"});
    case Row::high_risk_at_clearance:
      return "the clearance examination also shows high-risk findings: the same 3 years";
    default:
      return "the site of the polyp of 10 to 19 mm is clear: what follows is what the other findings call "
             "for (our reading; the guideline gives no second check)";
  }
}

}  // namespace testing::by_hand
