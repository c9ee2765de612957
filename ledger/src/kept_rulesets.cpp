#include "kept_rulesets.h"

namespace ledger {

engine::Result<std::shared_ptr<const engine::Ruleset>> load_kept(const Ledger& ledger, std::string_view bytes,
                                                                 const std::string& name) {
  return engine::load_ruleset(bytes, name, [&](const engine::Import& import) {
    const auto imported = ledger.document(import.digest);
    return imported ? std::optional<std::string>(*imported) : std::nullopt;
  });
}

}  // namespace ledger
