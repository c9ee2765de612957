// Reads a FEEL context that a ruleset answers with, key by key. Strict: a key that is missing, of another
// type or not known is an Error which names the decision and the key.

#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "engine/result.h"
#include "engine/value.h"

namespace engine {

class ContextReader {
 public:
  /// `place` says where the context stands: `Next step`, `Next step.then[0]`. Faults are added to `errors`.
  ContextReader(const Value& value, std::string place, Errors& errors);

  std::string text(std::string_view key);                        ///< Must be there and not empty.
  std::string text_or_empty(std::string_view key);               ///< Null or left out: empty.
  std::vector<std::string> texts_or_none(std::string_view key);  ///< Null or left out: none.
  std::optional<Months> months_or_none(std::string_view key);    ///< Null or left out: no value.
  std::optional<Date> date_or_none(std::string_view key);        ///< Null or left out: no value.
  std::span<const Value> list_or_none(std::string_view key);     ///< Null or left out: empty.

  /// Call last: every key that was not asked for is a fault.
  void end();

  void fault(std::string_view code, std::string message, std::string_view key, std::string help = {});
  std::string place(std::string_view key) const;

 private:
  /// The value of `key`, null when there is none.
  Value find(std::string_view key);
  void wrong_type(std::string_view key, const Value& found, std::string_view expected);

  const Context* context_ = nullptr;
  std::string place_;
  Errors& errors_;
  std::vector<std::string_view> asked_;
};

}  // namespace engine
