#include <algorithm>

#include "advice/ways.h"
#include "advice/words.h"

namespace engine {

namespace {

/// The distinct values of `column` in `set`, in the order of the candidates.
std::vector<std::string> words(const Variable::Column& column, const CandidateSet& set) {
  std::vector<std::string> found;
  set.each([&](std::uint32_t i) {
    const std::string word = text_of(column.values[i]);
    if (std::find(found.begin(), found.end(), word) == found.end()) found.push_back(word);
  });
  return found;
}

std::string millimetres(std::int32_t tenths) {
  std::string text = std::to_string(tenths / 10);
  if (tenths % 10 != 0) text += "." + std::to_string(tenths % 10);
  return text;
}

/// ` >= 10`, ` > 5 and < 10`, ` = 10`: thresholds are said as the ruleset says them.
std::string stretch_text(const Variable& size, std::uint32_t first, std::uint32_t last) {
  const auto is_point = [&](std::uint32_t i) { return size.stretches[i].from == size.stretches[i].to; };
  const Variable::Stretch from = size.stretches[first];
  const Variable::Stretch to = size.stretches[last];
  if (from.from == to.to) return " = " + millimetres(from.from);
  std::vector<std::string> ends;
  if (first > 0) {
    const bool after_point = !is_point(first) && is_point(first - 1);
    ends.push_back((after_point ? " > " : " >= ") +
                   millimetres(after_point ? size.stretches[first - 1].to : from.from));
  }
  if (last + 1 < size.candidates) {
    const bool before_point = !is_point(last) && is_point(last + 1);
    ends.push_back((before_point ? " < " : " <= ") +
                   millimetres(before_point ? size.stretches[last + 1].from : to.to));
  }
  return listed(ends, " and");
}

std::string size_text(const Variable& size, const CandidateSet& set, const std::string& path) {
  std::vector<std::string> runs;
  for (std::uint32_t i = 0; i < size.candidates; ++i) {
    if (!set.has(i)) continue;
    std::uint32_t last = i;
    while (last + 1 < size.candidates && set.has(last + 1)) ++last;
    runs.push_back(path + stretch_text(size, i, last));
    i = last;
  }
  return listed(runs, " or ");
}

/// `path = a or b`; what is left out is named instead when that is shorter.
std::string term_text(const Variable::Column& column, const CandidateSet& set, const std::string& path) {
  const std::vector<std::string> in = words(column, set);
  const std::vector<std::string> all =
      words(column, CandidateSet::first(static_cast<std::uint32_t>(column.values.size())));
  if (in.size() == all.size() || in.size() <= all.size() - in.size() + 1)
    return path + " = " + listed(in, " or ");
  std::vector<std::string> out;
  for (const std::string& word : all) {
    if (std::find(in.begin(), in.end(), word) == in.end()) out.push_back(word);
  }
  return path + " = other than " + listed(out, " or ");
}

/// Types with the dysplasias that go with them: `tubular adenoma (high grade) or adenocarcinoma`.
std::string histology_text(const Variable& pairs, const CandidateSet& set, std::span<const OpenFact> facts) {
  const Variable::Column& types = pairs.columns[0];
  const Variable::Column& dysplasias = pairs.columns[1];
  std::string path = facts[types.fact].path;
  const auto of_type = [&](const std::string& type, const CandidateSet& within) {
    CandidateSet chosen;
    within.each([&](std::uint32_t i) {
      if (text_of(types.values[i]) == type) chosen.insert(i);
    });
    return chosen;
  };
  const CandidateSet full = CandidateSet::first(pairs.candidates);
  const std::vector<std::string> named = words(types, set);
  const auto is_whole = [&](const std::string& type) { return of_type(type, set) == of_type(type, full); };
  if (std::all_of(named.begin(), named.end(), is_whole)) return term_text(types, set, path);

  // All types, or all types that can have it, and the dysplasia alone decides.
  const std::vector<std::string> grades = words(dysplasias, set);
  CandidateSet with_grades;
  full.each([&](std::uint32_t i) {
    if (std::find(grades.begin(), grades.end(), text_of(dysplasias.values[i])) != grades.end())
      with_grades.insert(i);
  });
  if (with_grades == set) return term_text(dysplasias, set, facts[dysplasias.fact].path);

  if (path.ends_with(".type")) path.resize(path.size() - 5);
  std::vector<std::string> texts;
  for (const std::string& type : named) {
    const std::string with = listed(words(dysplasias, of_type(type, set)), " or ");
    texts.push_back(is_whole(type) ? type : type + " (" + with + ")");
  }
  return path + " = " + listed(texts, " or ");
}

}  // namespace

std::string text_of(const Box& box, const OpenVariables& variables, std::span<const OpenFact> facts) {
  std::vector<std::string> parts;
  for (const auto& [id, set] : box) {
    const Variable& variable = variables.variables[id];
    const Variable::Column& column = variable.columns[0];
    if (variable.columns.size() == 2) {
      parts.push_back(histology_text(variable, set, facts));
    } else if (!variable.stretches.empty()) {
      parts.push_back(size_text(variable, set, facts[column.fact].path));
    } else {
      parts.push_back(term_text(column, set, facts[column.fact].path));
    }
  }
  std::string text;
  for (const std::string& part : parts) text += (text.empty() ? "" : "; and ") + part;
  return text;
}

std::string mirrored_text(const Box& box, const Symmetry& symmetry) {
  for (const auto& group : symmetry.groups()) {
    const auto named = std::count_if(group.begin(), group.end(), [&](const Symmetry::Block& block) {
      return std::any_of(block.begin(), block.end(),
                         [&](std::uint32_t v) { return set_of(box, v) != nullptr; });
    });
    if (named == 0 || static_cast<std::size_t>(named) == group.size()) continue;
    return " (or of others of these " + std::to_string(group.size()) + " lesions, which are alike)";
  }
  return {};
}

}  // namespace engine
