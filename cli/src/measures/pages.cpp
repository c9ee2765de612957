#include "measures/pages.h"

#include "engine/canonical.h"
#include "report/caution.h"
#include "report/csv.h"
#include "report/layout.h"

namespace cli {

namespace {

using ledger::Measure;
using ledger::MeasuredCase;
using nlohmann::json;

// In whole tenths, rounded half up: no floating point in what an auditor compares.
std::string per_cent(const Measure& measure) {
  const std::uint64_t denominator = measure.denominator();
  if (denominator == 0) return "-";
  const std::uint64_t tenths = (measure.numerator() * 2000 + denominator) / (2 * denominator);
  return std::to_string(tenths / 10) + "." + std::to_string(tenths % 10);
}

std::uint64_t excluded(const Measure& measure) {
  return measure.cases.size() - measure.denominator();
}

std::string text_of(MeasuredCase::Verdict verdict) {
  switch (verdict) {
    case MeasuredCase::Verdict::met:
      return "counted";
    case MeasuredCase::Verdict::not_met:
      return "not counted";
    default:
      return "excluded";
  }
}

std::string text_of(const MeasuredCase& one) {
  const std::string note = one.note.empty() ? "" : ": " + one.note;
  return wrapped("    " + one.person + "  " + one.exam + "  " + text_of(one.verdict) + note, 6);
}

std::string text_of(const Measure& measure, Patients patients) {
  std::string text;
  for (const auto& [reason, count] : measure.excluded()) {
    text += wrapped("  " + measure.id + ": left out " + std::to_string(count) + ": " + reason, 4);
  }
  if (patients == Patients::left_out) return text;
  if (!measure.cases.empty()) text += wrapped("  " + measure.id + ", the patients behind:");
  for (const MeasuredCase& one : measure.cases) text += text_of(one);
  return text;
}

}  // namespace

std::string text_of(const MeasuresPage& page) {
  std::string text = wrapped("Measures, " + page.period + ", as of " + page.as_of);
  text += wrapped(
      "Counted out of counted and not counted; what is left out stands below with its reason. "
      "Definitions and sources: docs/measures.md.");
  text += wrapped(page.stamp) + "\n";
  Columns columns({"measure", "what", "counted", "out of", "per cent", "left out"});
  for (const Measure& measure : page.measures) {
    columns.add({measure.id, measure.title, std::to_string(measure.numerator()),
                 std::to_string(measure.denominator()), per_cent(measure),
                 std::to_string(excluded(measure))});
  }
  text += columns.text() + "\n";
  for (const Measure& measure : page.measures) text += text_of(measure, page.patients);
  return text + std::string(caution) + "\n";
}

std::string csv_of(const MeasuresPage& page) {
  if (page.patients == Patients::left_out) {
    std::string text =
        csv_line({"measure", "title", "numerator", "denominator", "per_cent", "excluded", "period", "as_of"});
    for (const Measure& measure : page.measures) {
      text += csv_line({measure.id, measure.title, measure.numerator(), measure.denominator(),
                        measure.denominator() == 0 ? json() : json(per_cent(measure)), excluded(measure),
                        page.period, page.as_of});
    }
    return text;
  }
  std::string text = csv_line({"measure", "person", "exam", "verdict", "note"});
  for (const Measure& measure : page.measures) {
    for (const MeasuredCase& one : measure.cases)
      text += csv_line({measure.id, one.person, one.exam, text_of(one.verdict), one.note});
  }
  return text;
}

std::string json_of(const MeasuresPage& page) {
  json measures = json::array();
  for (const Measure& measure : page.measures) {
    json object = {{"measure", measure.id},
                   {"title", measure.title},
                   {"numerator", measure.numerator()},
                   {"denominator", measure.denominator()},
                   {"per_cent", measure.denominator() == 0 ? json() : json(per_cent(measure))},
                   {"excluded", measure.excluded()}};
    if (page.patients == Patients::shown) {
      json cases = json::array();
      for (const MeasuredCase& one : measure.cases) {
        cases.push_back({{"person", one.person},
                         {"exam", one.exam},
                         {"verdict", text_of(one.verdict)},
                         {"note", one.note}});
      }
      object["cases"] = std::move(cases);
    }
    measures.push_back(std::move(object));
  }
  return engine::canonical_json({{"as_of", page.as_of},
                                 {"period", page.period},
                                 {"stamp", page.stamp},
                                 {"measures", std::move(measures)},
                                 {"caution", caution}}) +
         "\n";
}

}  // namespace cli
