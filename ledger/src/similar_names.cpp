#include "similar_names.h"

#include <algorithm>
#include <cctype>

namespace ledger {

namespace {

struct Name {
  std::string family, given;
};

/// Small letters of ASCII; bytes of other letters as they are.
std::string bare(const std::string& text) {
  std::string letters;
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (byte >= 0x80 || std::isalnum(byte) != 0) letters += static_cast<char>(std::tolower(byte));
  }
  return letters;
}

/// Titles of the trade's forms: they come and go between two records of one person.
std::string without_title(const std::string& given) {
  constexpr const char* titles[] = {"mr", "mrs", "ms", "miss", "dr", "prof", "sir", "rev"};
  const std::size_t end = std::min(given.find(' '), given.size());
  const std::string first = bare(given.substr(0, end));
  const bool is_title =
      std::any_of(std::begin(titles), std::end(titles), [&](const char* title) { return first == title; });
  return is_title ? given.substr(std::min(end + 1, given.size())) : given;
}

Name name_of(const std::string& line) {
  const std::size_t comma = line.find(", ");
  if (comma == std::string::npos) return {bare(line), ""};
  return {bare(line.substr(0, comma)), bare(without_title(line.substr(comma + 2)))};
}

/// One letter put in, left out or replaced.
bool nearly(const std::string& a, const std::string& b) {
  if (a.size() > b.size()) return nearly(b, a);
  if (b.size() - a.size() > 1 || b.size() < 3) return false;
  const auto [left, right] = std::mismatch(a.begin(), a.end(), b.begin());
  const auto skip = a.size() == b.size() ? 1 : 0;
  if (left == a.end()) return true;
  return std::equal(left + skip, a.end(), right + 1, b.end());
}

bool alike(const std::string& a, const std::string& b) {
  return a == b || nearly(a, b);
}

}  // namespace

std::string likeness_of(const std::string& name, const std::string& other) {
  const Name a = name_of(name), b = name_of(other);
  if (a.family.empty() || b.family.empty()) return "no name to compare";
  if (a.family == b.family && a.given == b.given) return "same name";
  if (a.given.empty() || b.given.empty())
    return alike(a.family, b.family) ? "same family name, one given name missing" : "";
  if (a.family == b.given && a.given == b.family) return "names exchanged";
  const bool one_differs = (a.family == b.family && nearly(a.given, b.given)) ||
                           (a.given == b.given && nearly(a.family, b.family));
  return one_differs ? "one letter differs" : "";
}

}  // namespace ledger
