#include "text/edit_distance.h"

#include <algorithm>
#include <string>
#include <vector>

#include "engine/result.h"

namespace engine {

namespace {

// What is longer than any term is no misspelling of one, and would only cost time.
constexpr std::size_t longest_word = 100;

std::string lower_case(std::string_view text) {
  std::string out(text);
  for (char& c : out) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return out;
}

/// `size` of `size_mm`, `sigmoid` of `sigmoid colon`.
bool is_first_word(std::string_view word, std::string_view candidate) {
  if (candidate.size() <= word.size() || candidate.substr(0, word.size()) != word) return false;
  return candidate[word.size()] == '_' || candidate[word.size()] == ' ';
}

bool one_begins_the_other(std::string_view a, std::string_view b) {
  const std::size_t shorter = std::min(a.size(), b.size());
  return shorter >= 3 && a.substr(0, shorter) == b.substr(0, shorter);
}

}  // namespace

std::size_t edit_distance(std::string_view a, std::string_view b) {
  const std::size_t width = b.size() + 1;
  std::vector<std::size_t> before_last(width), last(width), current(width);
  for (std::size_t j = 0; j < width; ++j) current[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    before_last.swap(last);
    last.swap(current);
    current[0] = i;
    for (std::size_t j = 1; j < width; ++j) {
      const std::size_t replaced = last[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
      current[j] = std::min({last[j] + 1, current[j - 1] + 1, replaced});
      const bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
      if (swapped) current[j] = std::min(current[j], before_last[j - 2] + 1);
    }
  }
  return current[b.size()];
}

std::string nearest(std::string_view word, const std::vector<std::string_view>& candidates) {
  if (word.empty() || word.size() > longest_word) return {};
  const std::string wanted = lower_case(word);
  for (const std::string_view candidate : candidates) {
    if (is_first_word(wanted, lower_case(candidate))) return std::string(candidate);
  }
  std::string_view best;
  std::size_t least = SIZE_MAX;
  for (const std::string_view candidate : candidates) {
    const std::string spelling = lower_case(candidate);
    const std::size_t distance = edit_distance(wanted, spelling);
    if (distance >= least || distance * 3 > std::max(wanted.size(), spelling.size())) continue;
    best = candidate;
    least = distance;
  }
  if (!best.empty()) return std::string(best);
  for (const std::string_view candidate : candidates) {
    if (one_begins_the_other(wanted, lower_case(candidate))) return std::string(candidate);
  }
  return {};
}

}  // namespace engine
