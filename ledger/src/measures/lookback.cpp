#include "ledger/lookback.h"

#include <algorithm>
#include <cctype>

#include "database/courses.h"
#include "measures/counting.h"

namespace ledger {

namespace {

bool same(const std::string& wanted, const std::string& text) {
  if (wanted.empty()) return true;
  const auto lower = [](unsigned char c) { return std::tolower(c); };
  return std::equal(wanted.begin(), wanted.end(), text.begin(), text.end(), [&](char a, char b) {
    return lower(static_cast<unsigned char>(a)) == lower(static_cast<unsigned char>(b));
  });
}

std::string preparation_of(const CourseExamination& one) {
  const auto adequate = adequate_preparation(one.exam);
  return !adequate ? "not stated" : *adequate ? "adequate" : "inadequate";
}

/// The recall that follows the examination, else a later examination, else the outcome.
std::string stands_for(const Course& course, const CourseExamination& one) {
  std::string text;
  const auto add = [&](const std::string& part) { text += (text.empty() ? "" : "; ") + part; };
  for (const CourseRecall& recall : course.recalls) {
    if (recall.exam != one.line.exam) continue;
    std::string line = "recall " + recall.id + " is " + recall.state;
    if (const CourseExamination* answer = course.examination(recall.answered_by)) {
      line += " by " + answer->line.exam + " on " + answer->line.date;
    } else {
      line += ", due " + engine::text_of(recall.due);
    }
    add(line);
  }
  if (!text.empty()) return text;
  for (const CourseExamination& other : course.examinations) {
    if (one.date < other.date) return "examined again on " + other.line.date + " (" + other.line.exam + ")";
  }
  if (one.outcome.empty()) return "without an outcome yet";
  return "no recall: " + one.action;
}

LookbackLine line_of(const Course& course, const CourseExamination& one) {
  LookbackLine line;
  line.person = course.person;
  line.examination = one.line;
  line.preparation = preparation_of(one);
  line.reporter = one.reporter;
  if (one.reported) line.reported = engine::text_of(*one.reported);
  line.outcome = one.outcome;
  line.action = one.action;
  if (one.due) line.due = engine::text_of(*one.due);
  line.ruleset = one.ruleset;
  line.rule = one.rule;
  line.stands = stands_for(course, one);
  return line;
}

}  // namespace

engine::Result<std::vector<LookbackLine>> lookback(const Ledger& ledger, const LookbackFilter& filter) {
  std::vector<LookbackLine> lines;
  const auto done = each_course(ledger, [&](const Course& course) {
    for (const CourseExamination& one : course.examinations) {
      if (filter.period.holds(one.date) && same(filter.endoscopist, one.line.endoscopist) &&
          same(filter.place, one.line.place) && same(filter.reporter, one.reporter) &&
          same(filter.ruleset, one.ruleset) && same(filter.preparation, preparation_of(one)))
        lines.push_back(line_of(course, one));
    }
  });
  if (!done) return done.errors();
  return lines;
}

}  // namespace ledger
