// A ruleset whose answer is a plan of three steps, whatever is found.

#pragma once

#include "support/small_protocol.h"

namespace support {

/// A site check after 2 to 6 months counted from `first`, then a colonoscopy a year after `second`, then
/// three years later another one; whatever is found.
inline ledger::Protocol linked_protocol(const std::string& first, const std::string& second) {
  const auto step = [](const std::string& months, const std::string& from) {
    return "{action: \"surveillance colonoscopy\", from: duration(\"" + months + "\"), to: duration(\"" +
           months + "\"), counted from: \"" + from + "\", rule: \"T-03\", because: \"the plan says so\"}";
  };
  std::string feel = small_answer("site check", "P2M", "P6M", "T-02");
  const auto put = [&](const std::string& old, const std::string& text) {
    feel.replace(feel.find(old), old.size(), text);
  };
  put("counted from: null", "counted from: \"" + first + "\"");
  put("counted from date: null", "counted from date: date(\"2026-03-01\")");
  put("then: []", "then: [" + step("P12M", second) + ", " + step("P3Y", "examination") + "]");
  return {small_ruleset("test-plan", feel)};
}

}  // namespace support
