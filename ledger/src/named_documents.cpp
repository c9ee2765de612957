#include "named_documents.h"

#include "json_fields.h"

namespace ledger {

using nlohmann::json;

std::vector<std::string> documents_named_in(const json& body) {
  std::vector<std::string> named;
  if (std::string document = text_at(body, "document"); !document.empty())
    named.push_back(std::move(document));
  if (const auto imports = body.find("imports"); imports != body.end()) {
    for (const json& import : *imports) named.push_back(import.get<std::string>());
  }
  return named;
}

}  // namespace ledger
