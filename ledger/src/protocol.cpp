#include "ledger/protocol.h"

#include <utility>

#include "advising/advise.h"
#include "database/protocols.h"
#include "database/view.h"
#include "engine/canonical.h"
#include "engine/unverified.h"
#include "json_fields.h"
#include "kept_rulesets.h"

namespace ledger {

using engine::Done;
using engine::Error;
using engine::Errors;
using engine::Result;
using nlohmann::json;

namespace {

Error fault(std::string code, std::string message, std::string help) {
  return {std::move(code), std::move(message), {}, std::move(help)};
}

Errors faults_of(const Protocol& rulesets, const NewProtocol& protocol) {
  Errors errors;
  const ProtocolTerms& terms = protocol.terms;
  if (rulesets.empty())
    errors.push_back(
        fault("no_ruleset", "a protocol without a ruleset answers nothing", "name at least one"));
  if (protocol.clinician.empty())
    errors.push_back(fault("clinician_missing", "no clinician is named",
                           "a consultant adopts the protocol; the name is kept with the entry"));
  if (protocol.reason.empty())
    errors.push_back(fault("reason_missing", "no reason is given", "say why, in a sentence"));
  if (terms.interval_end != "from" && terms.interval_end != "to")
    errors.push_back(fault("bad_terms", "`" + terms.interval_end + "` was read, expected `from` or `to`",
                           "it says which end of a due window becomes the due date"));
  if (terms.late_after_days < 0 || terms.late_after_days > 366)
    errors.push_back(fault("bad_terms", "late after " + std::to_string(terms.late_after_days) + " days",
                           "expected 0 to 366 days after the due date"));
  if (terms.age_limit < 1 || terms.age_limit > 130)
    errors.push_back(fault("bad_terms", "an age limit of " + std::to_string(terms.age_limit) + " years",
                           "expected 1 to 130 completed years"));
  const BandLimits& bands = terms.bands;
  if (bands.grey_below < 0 || bands.amber_over < bands.grey_below || bands.red_over < bands.amber_over)
    errors.push_back(fault("bad_terms", "the bands of pathology do not rise",
                           "grey below, amber over and red over, in days, each at least the one before"));
  return errors;
}

json body_of(const Protocol& rulesets, const NewProtocol& protocol, json settings) {
  json list = json::array();
  for (const RulesetInForce& in_force : rulesets) {
    list.push_back({{"id", in_force.ruleset->about.id},
                    {"edition", in_force.ruleset->about.edition},
                    {"digest", in_force.ruleset->digest},
                    {"unverified", protocol.unverified}});
  }
  const ProtocolTerms& terms = protocol.terms;
  return {{"rulesets", std::move(list)},
          {"settings", std::move(settings)},
          {"interval_end", terms.interval_end},
          {"late_after_days", terms.late_after_days},
          {"age_limit", terms.age_limit},
          {"bands",
           {{"grey_below", terms.bands.grey_below},
            {"amber_over", terms.bands.amber_over},
            {"red_over", terms.bands.red_over}}},
          {"from", engine::text_of(protocol.from)},
          {"clinician", protocol.clinician},
          {"reason", protocol.reason}};
}

Result<RulesetInForce> loaded(const Ledger& ledger, const AdoptedRuleset& adopted) {
  auto bytes = ledger.document(adopted.digest);
  if (!bytes) return bytes.errors();
  const auto ruleset = load_kept(ledger, *bytes, adopted.id);
  if (!ruleset) return ruleset.errors();
  return RulesetInForce{adopted.unverified ? engine::as_unverified(**ruleset) : *ruleset, std::move(*bytes)};
}

}  // namespace

Result<std::string> settings_of(const std::vector<std::string>& assignments) {
  engine::Record nobody;
  nobody.canonical = "{}";
  for (const std::string& assignment : assignments) {
    if (auto applied = engine::apply_setting(nobody, assignment); !applied) return applied.errors();
  }
  return engine::canonical_json(json::parse(nobody.canonical).value("setting", json::object()));
}

Result<std::uint64_t> adopt_protocol(Ledger& ledger, const Author& author, const Protocol& rulesets,
                                     const NewProtocol& protocol) {
  if (Errors errors = faults_of(rulesets, protocol); !errors.empty()) return errors;
  const auto settings = settings_of(protocol.settings);
  if (!settings) return settings.errors();
  std::uint64_t entry = 0;
  const auto done = ledger.store().write([&](Transaction& transaction) -> Result<Done> {
    if (auto installed = install(transaction, author, rulesets); !installed) return installed;
    entry = transaction.append(author, Kind::protocol_adopted, "protocol",
                               body_of(rulesets, protocol, json::parse(*settings)));
    return Done{};
  });
  if (!done) return done.errors();
  return entry;
}

Result<std::optional<AdoptedProtocol>> protocol_in_force(const Ledger& ledger, const engine::Date& day) {
  return viewed<std::optional<AdoptedProtocol>>(
      ledger, [&](Connection& connection, auto& found) { found = protocol_on(connection, day); });
}

Result<std::vector<AdoptedProtocol>> protocols(const Ledger& ledger) {
  return viewed<std::vector<AdoptedProtocol>>(
      ledger, [&](Connection& connection, auto& found) { found = all_protocols(connection); });
}

Result<Protocol> rulesets_of(const Ledger& ledger, const AdoptedProtocol& protocol) {
  Protocol rulesets;
  for (const AdoptedRuleset& adopted : protocol.rulesets) {
    auto ruleset = loaded(ledger, adopted);
    if (!ruleset) return ruleset.errors();
    rulesets.push_back(std::move(*ruleset));
  }
  return rulesets;
}

}  // namespace ledger
