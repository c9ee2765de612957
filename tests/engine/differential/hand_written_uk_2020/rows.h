// The rows of uk-2020 that an answer can name. Source: rulesets/uk-2020/SOURCES.md.

#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <string_view>
#include <utility>

namespace testing::by_hand {

enum class Row : std::uint8_t {
  // outside
  lynch_syndrome,
  familial_polyposis,
  mutyh_polyposis,
  serrated_polyposis,
  colitis,
  cholangitis,
  colitis_surveillance,
  under_18,
  serrated_polyposis_by_findings,
  cancer,
  // the baseline is not complete
  colon_not_seen_before_resection,
  poor_preparation,
  incomplete,
  other_ways_to_complete,
  baseline_still_open,
  not_cleared,
  seen_at_ct,
  // steps
  high_risk,
  high_risk_at_site_check,
  high_risk_again,
  large_r0,
  clearance_due,
  clearance_done,
  year_four,
  large_site,
  large_site_again,
  large_site_late,
  large_site_closed,
  recurrence,
  smaller_site,
  // no step
  past_75,
  short_life,
  young,
  low_risk,
  low_risk_past_75,
  low_risk_again,
  low_risk_again_past_75,
  no_resection_date,
  no_resection_on_record,
  // remarks
  high_risk_even_so,
  high_risk_at_clearance,
  smaller_site_clear,
  // flags
  age_near_limit,
  maybe_pedunculated,
  sizes_differ,
  not_retrieved,
  genetic_assessment,
  traditional_serrated,
  unclassified_serrated,
  rectosigmoid_hyperplastic,
  family_history,
  serrated_guideline_differs,
  boston_threshold,
  taken_together,
  taken_as_site_check,
  site_not_seen,
  not_neoplastic,
  anastomosis,
  individualise,
  limits_after_cancer,
  site_check_past_limits,
  earlier_plan,
  no_faecal_test,
  nation_not_known,
};

inline constexpr std::array<std::pair<Row, std::string_view>, 64> row_ids{{
    {Row::lynch_syndrome, "20-X1"},
    {Row::familial_polyposis, "20-X2"},
    {Row::mutyh_polyposis, "20-X3"},
    {Row::serrated_polyposis, "20-X4"},
    {Row::colitis, "20-X5"},
    {Row::cholangitis, "20-X6"},
    {Row::colitis_surveillance, "20-X7"},
    {Row::under_18, "20-X8"},
    {Row::serrated_polyposis_by_findings, "20-A11"},
    {Row::cancer, "20-15"},
    {Row::colon_not_seen_before_resection, "20-14"},
    {Row::poor_preparation, "20-Q1"},
    {Row::incomplete, "20-Q2"},
    {Row::other_ways_to_complete, "20-16"},
    {Row::baseline_still_open, "20-Q6"},
    {Row::not_cleared, "20-Q3"},
    {Row::seen_at_ct, "20-Q4"},
    {Row::high_risk, "20-01"},
    {Row::high_risk_at_site_check, "20-R1"},
    {Row::high_risk_again, "20-09"},
    {Row::large_r0, "20-04"},
    {Row::clearance_due, "20-11"},
    {Row::clearance_done, "20-12"},
    {Row::year_four, "20-13"},
    {Row::large_site, "20-05"},
    {Row::large_site_again, "20-06"},
    {Row::large_site_late, "20-A4"},
    {Row::large_site_closed, "20-07"},
    {Row::recurrence, "20-A19"},
    {Row::smaller_site, "20-08"},
    {Row::past_75, "20-S1"},
    {Row::short_life, "20-S2"},
    {Row::young, "20-03"},
    {Row::low_risk, "20-02"},
    {Row::low_risk_past_75, "20-02-over-75"},
    {Row::low_risk_again, "20-10"},
    {Row::low_risk_again_past_75, "20-10-over-75"},
    {Row::no_resection_date, "20-P1"},
    {Row::no_resection_on_record, "20-C0"},
    {Row::high_risk_even_so, "20-A14"},
    {Row::high_risk_at_clearance, "20-A18"},
    {Row::smaller_site_clear, "20-C3"},
    {Row::age_near_limit, "20-A1"},
    {Row::maybe_pedunculated, "20-A7"},
    {Row::sizes_differ, "20-A8"},
    {Row::not_retrieved, "20-A9"},
    {Row::genetic_assessment, "20-A10"},
    {Row::traditional_serrated, "20-A12"},
    {Row::unclassified_serrated, "20-A13"},
    {Row::rectosigmoid_hyperplastic, "20-A16"},
    {Row::family_history, "20-F1"},
    {Row::serrated_guideline_differs, "20-D1"},
    {Row::boston_threshold, "20-Q5"},
    {Row::taken_together, "20-B1"},
    {Row::taken_as_site_check, "20-C1"},
    {Row::site_not_seen, "20-C2"},
    {Row::not_neoplastic, "20-C4"},
    {Row::anastomosis, "20-Q7"},
    {Row::individualise, "20-A20"},
    {Row::limits_after_cancer, "20-P3"},
    {Row::site_check_past_limits, "20-S3"},
    {Row::earlier_plan, "20-A15"},
    {Row::no_faecal_test, "20-17"},
    {Row::nation_not_known, "20-A2-other"},
}};

constexpr std::size_t index_of(Row row) {
  return static_cast<std::size_t>(row);
}
constexpr std::string_view id_of(Row row) {
  return row_ids[index_of(row)].second;
}

static_assert([] {
  for (std::size_t i = 0; i < row_ids.size(); ++i) {
    if (index_of(row_ids[i].first) != i) return false;
  }
  return index_of(Row::nation_not_known) + 1 == row_ids.size();
}());

}  // namespace testing::by_hand
