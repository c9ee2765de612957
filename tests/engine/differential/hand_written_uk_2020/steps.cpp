// The steps that apply: looks at the sites of resections, and surveillance.

#include <algorithm>
#include <iterator>

#include "engine/differential/hand_written_uk_2020/patient.h"

namespace testing::by_hand {

Risk Patient2020::risk_of(const Lesions& lesions) const {
  Risk risk_found;
  risk_found.premalignant = polyps(lesions, [&](const Lesion& l) { return premalignant(l); });
  if (risk_found.premalignant < 2) return risk_found;
  if (risk_found.premalignant < 5)
    risk_found.advanced = polyps(lesions, [&](const Lesion& l) { return advanced(l); });
  risk_found.high = risk_found.premalignant >= 5 || risk_found.advanced >= 1;
  return risk_found;
}

void Patient2020::judge() {
  for (const Examination* examination : all) {
    for (const Lesion& lesion : examination->lesions) {
      if (!owes_site_check(lesion)) continue;
      SiteOfResection& site = sites.emplace_back();
      site.lesion = &lesion;
      site.day = examination->date;
      site.large = lesion.size.value >= 20_mm;
    }
  }
  risk = risk_of(findings);
  for (SiteOfResection& site : sites) {
    follow(site);
    if (site.stage == Stage::closed) continue;
    steps.push_back(site_step(site.large, site.stage, site.lesion->size.value, site.since));
  }
  add_surveillance_steps();
}

// --- sites ------------------------------------------------------------------------------------------------

bool Patient2020::looked_at(const Examination& examination, Segment site, const Date& day) const {
  return examination.date > day && (is_site_check(examination) || examination.date >= plus(day, 2)) &&
         !is_scan(examination) && well_prepared(examination) &&
         reached_place(examination.reached.value, site);
}
bool Patient2020::recurrence_seen(const Examination& examination, Segment site) const {
  return std::any_of(examination.lesions.begin(), examination.lesions.end(), [&](const Lesion& l) {
    return same_place(l.site.value, site) && (l.removal.value == Removal::not_removed || premalignant(l));
  });
}
bool Patient2020::surveyed_since(const Date& day) const {
  return std::any_of(all.begin(), all.end(), [&](const Examination* e) {
    return e->date > day && !is_site_check(*e) &&
           (e->indication.value == Indication::surveillance || e->date >= plus(day, 24)) && sound(*e);
  });
}

void Patient2020::follow(SiteOfResection& site) const {
  const Segment place = site.lesion->site.value;
  Date start = site.day;
  bool recurred = false;
  for (const Examination* e : all) {
    if (!looked_at(*e, place, site.day)) continue;
    if (e->date == exam.date) site.looked_at_now = true;
    if (!recurrence_seen(*e, place)) continue;
    start = e->date;
    recurred = true;
  }
  const Examination *first = nullptr, *last = nullptr;
  for (const Examination* e : all) {
    if (e->date <= start || !looked_at(*e, place, site.day)) continue;
    if (!first) first = e;
    const bool second = e->date >= plus(start, 18) || (e->date >= plus(start, 12) && e->date > first->date);
    if (second && !last) last = e;
  }
  site.since = start;
  if (!first) {
    site.stage = recurred ? Stage::recurrence_treated : Stage::not_looked_at;
  } else if (!site.large || (last && surveyed_since(last->date))) {
    site.stage = Stage::closed;
    site.closed_now = !site.large && first->date == exam.date;
  } else if (last) {
    site.stage = Stage::two_looks;
    site.since = last->date;
  } else if (plus(first->date, 12) > plus(start, 18)) {
    site.stage = Stage::one_look_late;
  } else {
    site.stage = Stage::one_look;
    site.since = first->date;
  }
}

namespace {

struct SiteRow {
  Action action;
  std::int64_t from, to;
  std::string_view anchor;
  bool limited;
  Row row;
};

SiteRow site_row(bool large, Stage stage) {
  switch (stage) {
    case Stage::one_look:
      return {Action::site_check, 12, 12, "site check", false, Row::large_site_again};
    case Stage::one_look_late:
      return {Action::site_check, 18, 18, "resection", false, Row::large_site_late};
    case Stage::two_looks:
      return {Action::surveillance_colonoscopy, 36, 36, "site check", true, Row::large_site_closed};
    case Stage::recurrence_treated:
      return {Action::site_check, 2, 6, "resection", false, Row::recurrence};
    case Stage::not_looked_at:
    case Stage::closed:
      break;
  }
  return {Action::site_check, 2, 6, "resection", false, large ? Row::large_site : Row::smaller_site};
}

}  // namespace

Step site_step(bool large, Stage stage, Millimetres size, const Date& since) {
  const SiteRow row = site_row(large, stage);
  return {row.action,  {row.from}, {row.to}, row.anchor, since, plus(since, row.from),
          row.limited, row.row,    size};
}

// --- surveillance -----------------------------------------------------------------------------------------

Lesions Patient2020::new_at_site_check() const {
  Lesions fresh;
  for (const Lesion& lesion : exam.lesions) {
    const bool at_a_scar = std::any_of(sites.begin(), sites.end(), [&](const SiteOfResection& s) {
      return s.day < exam.date && same_place(s.lesion->site.value, lesion.site.value);
    });
    if (!at_a_scar && counts(lesion, exam.date, all)) fresh.push_back(&lesion);
  }
  if (reference->date >= days_before(exam.date, 90)) {
    fresh.insert(fresh.end(), findings.begin(), findings.end());
  }
  return fresh;
}

void Patient2020::add_surveillance_steps() {
  using enum AfterCancer;
  const bool by_findings =
      after_cancer == none || after_cancer == no_date || after_cancer == clearance_done_before;
  const std::string_view anchor = is_at_site_check ? "baseline examination" : "examination";
  if (risk.high && by_findings && !after_surveillance())
    add_surveillance(36, anchor, reference->date, true, Row::high_risk);
  if (is_at_site_check) risk_at_site_check = risk_of(new_at_site_check());
  if (risk_at_site_check.high)
    add_surveillance(36, "examination", exam.date, true, Row::high_risk_at_site_check);
  if (risk.high && by_findings && after_surveillance())
    add_surveillance(36, anchor, reference->date, true, Row::high_risk_again);
  if (std::any_of(findings.begin(), findings.end(), [&](const Lesion* l) { return is_large_r0(*l); }))
    add_surveillance(36, anchor, reference->date, true, Row::large_r0);
  if (after_cancer == clearance_due) add_surveillance(12, "resection", *resection, false, Row::clearance_due);
  if (after_cancer == clearance_done)
    add_surveillance(36, "examination", reference->date, true, Row::clearance_done);
  if (after_cancer == clearance_done_before)
    add_surveillance(36, "clearance colonoscopy", clearance, true, Row::clearance_done);
  if (risk.high && after_cancer == year_four)
    add_surveillance(36, anchor, reference->date, true, Row::year_four);
}

void Patient2020::add_surveillance(std::int64_t months, std::string_view anchor, const Date& since,
                                   bool limited, Row row) {
  steps.push_back({Action::surveillance_colonoscopy,
                   {months},
                   {months},
                   anchor,
                   since,
                   plus(since, months),
                   limited,
                   row,
                   {}});
}

// --- what ends them, and what there is without one --------------------------------------------------------

std::optional<Row> Patient2020::stopped_on(const Date& due) const {
  if (short_life()) return Row::short_life;
  if (age_on(due) > 75) return Row::past_75;
  return std::nullopt;
}
std::optional<Row> Patient2020::stopped_by(const Step& step) const {
  return step.limited ? stopped_on(step.due) : std::nullopt;
}

std::optional<Row> Patient2020::missing_history() const {
  if (after_cancer == AfterCancer::no_date) return Row::no_resection_date;
  if (!is_at_site_check) return std::nullopt;
  for (const Examination* examination : ordinary) {
    for (const Lesion& lesion : examination->lesions) {
      if (lesion.size.value >= 10_mm && was_removed(lesion)) return std::nullopt;
    }
  }
  return Row::no_resection_on_record;
}

std::int64_t Patient2020::screening_from_age() const {
  if (setting.screening_from_age) return *setting.screening_from_age;
  const std::string_view nation = setting.nation ? std::string_view(*setting.nation) : "England";
  if (nation == "England") return exam.date >= Date{2025, 1, 1} ? 50 : 60;
  return nation == "Northern Ireland" ? 60 : 50;
}

Row Patient2020::low_risk_row() const {
  if (age <= 75 && risk.premalignant >= 1 && age < screening_from_age() - 10)
    return short_life() ? Row::short_life : Row::young;
  if (after_cancer == AfterCancer::year_four) return Row::year_four;
  if (after_surveillance()) return age > 75 ? Row::low_risk_again_past_75 : Row::low_risk_again;
  return age > 75 ? Row::low_risk_past_75 : Row::low_risk;
}

}  // namespace testing::by_hand
