#include "ruleset/context_reader.h"

#include <algorithm>
#include <utility>

namespace engine {

ContextReader::ContextReader(const Value& value, std::string place, Errors& errors)
    : place_(std::move(place)), errors_(errors) {
  if (value.is(Kind::context)) {
    context_ = &value.context();
  } else {
    fault("wrong_type", "`" + place_ + "` is `" + literal_of(value) + "`, expected a context", {});
  }
}

std::string ContextReader::place(std::string_view key) const {
  return key.empty() ? place_ : place_ + "." + std::string(key);
}

void ContextReader::fault(std::string_view code, std::string message, std::string_view key,
                          std::string help) {
  Error error;
  error.code = code;
  error.message = std::move(message);
  error.place.path = place(key);
  error.help = std::move(help);
  errors_.push_back(std::move(error));
}

Value ContextReader::find(std::string_view key) {
  asked_.push_back(key);
  if (context_ == nullptr) return {};
  const std::uint32_t at = context_->position(key, static_cast<std::uint32_t>(asked_.size() - 1));
  return at < context_->size ? context_->values[at] : Value();
}

void ContextReader::wrong_type(std::string_view key, const Value& found, std::string_view expected) {
  fault("wrong_type",
        "`" + place(key) + "` is `" + literal_of(found) + "`, expected " + std::string(expected), key);
}

std::string ContextReader::text(std::string_view key) {
  const Value value = find(key);
  if (value.is(Kind::string) && !value.string().empty()) return std::string(value.string());
  if (context_ != nullptr) wrong_type(key, value, "a string that is not empty");
  return {};
}

std::string ContextReader::text_or_empty(std::string_view key) {
  const Value value = find(key);
  if (value.is(Kind::string)) return std::string(value.string());
  if (!value.is_null()) wrong_type(key, value, "a string or null");
  return {};
}

std::vector<std::string> ContextReader::texts_or_none(std::string_view key) {
  std::vector<std::string> found;
  for (const Value& item : list_or_none(key)) {
    if (item.is(Kind::string)) {
      found.emplace_back(item.string());
    } else {
      wrong_type(key, item, "strings only in the list");
    }
  }
  return found;
}

std::optional<Months> ContextReader::months_or_none(std::string_view key) {
  const Value value = find(key);
  if (value.is(Kind::years_and_months)) return value.months();
  if (!value.is_null()) wrong_type(key, value, "a years and months duration or null");
  return std::nullopt;
}

std::optional<Date> ContextReader::date_or_none(std::string_view key) {
  const Value value = find(key);
  if (value.is(Kind::date)) return value.date();
  if (!value.is_null()) wrong_type(key, value, "a date or null");
  return std::nullopt;
}

std::span<const Value> ContextReader::list_or_none(std::string_view key) {
  const Value value = find(key);
  if (value.is(Kind::list)) return value.list();
  if (!value.is_null()) wrong_type(key, value, "a list or null");
  return {};
}

void ContextReader::end() {
  if (context_ == nullptr) return;
  for (std::uint32_t i = 0; i < context_->size; ++i) {
    const std::string_view key = context_->keys[i];
    if (std::find(asked_.begin(), asked_.end(), key) != asked_.end()) continue;
    const std::string near = nearest(key, asked_);
    std::string known;
    for (const std::string_view name : asked_)
      known += (known.empty() ? "`" : ", `") + std::string(name) + "`";
    fault("unknown_key", "`" + place_ + "` has no key `" + std::string(key) + "`", key,
          near.empty() ? "the keys are " + known : "did you mean `" + near + "`?");
  }
}

}  // namespace engine
