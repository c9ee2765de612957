#include "builtins/case_mapping.h"

#include <algorithm>
#include <iterator>
#include <span>

#include "syntax/unicode.h"

namespace engine {

namespace {

/// Every `step`th code point from `first` to `last` becomes the one `difference` further on.
struct CaseRun {
  char32_t first;
  char32_t last;
  char32_t step;
  std::int32_t difference;
};

/// A code point that becomes several.
struct CaseText {
  char32_t from;
  const char* to;
};

#include "builtins/case_mapping.inc"

void append_mapped(std::string& out, char32_t c, std::span<const CaseRun> runs,
                   std::span<const CaseText> texts) {
  const auto run =
      std::partition_point(runs.begin(), runs.end(), [&](const CaseRun& r) { return r.last < c; });
  if (run != runs.end() && c >= run->first && (c - run->first) % run->step == 0) {
    append_utf8(out, static_cast<char32_t>(static_cast<std::int32_t>(c) + run->difference));
    return;
  }
  const auto text =
      std::partition_point(texts.begin(), texts.end(), [&](const CaseText& t) { return t.from < c; });
  if (text != texts.end() && text->from == c) {
    out += text->to;
  } else {
    append_utf8(out, c);
  }
}

std::string mapped(std::string_view text, std::span<const CaseRun> runs, std::span<const CaseText> texts) {
  std::string out;
  out.reserve(text.size());
  for (std::size_t at = 0; at < text.size();) {
    const CodePoint c = code_point_at(text, at);
    append_mapped(out, c.value, runs, texts);
    at += c.bytes;
  }
  return out;
}

}  // namespace

std::string upper_case(std::string_view text) {
  return mapped(text, upper_runs, upper_texts);
}
std::string lower_case(std::string_view text) {
  return mapped(text, lower_runs, lower_texts);
}

}  // namespace engine
