#include "json_fields.h"

namespace ledger {

std::string text_at(const nlohmann::json& object, const char* key) {
  const auto found = object.find(key);
  return found == object.end() || found->is_null() ? std::string() : found->get<std::string>();
}

std::optional<std::uint64_t> number_at(const nlohmann::json& object, const char* key) {
  const auto found = object.find(key);
  if (found == object.end() || found->is_null()) return std::nullopt;
  return found->get<std::uint64_t>();
}

}  // namespace ledger
