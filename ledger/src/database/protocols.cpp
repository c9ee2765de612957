#include "database/protocols.h"

#include "database/connection.h"
#include "engine/canonical.h"
#include "json_fields.h"

namespace ledger {

namespace {

using nlohmann::json;

AdoptedProtocol protocol_from(const Row& row) {
  const json body = json::parse(row.text(1));
  AdoptedProtocol protocol{row.count(0),
                           engine::parse_date(text_at(body, "from")).value(),
                           text_at(body, "clinician"),
                           text_at(body, "reason"),
                           {},
                           {}};
  for (const json& ruleset : body.at("rulesets")) {
    protocol.rulesets.push_back({text_at(ruleset, "id"), text_at(ruleset, "edition"),
                                 text_at(ruleset, "digest"), ruleset.at("unverified").get<bool>()});
  }
  const json& bands = body.at("bands");
  protocol.terms = {engine::canonical_json(body.at("settings")),
                    text_at(body, "interval_end"),
                    body.at("late_after_days").get<std::int64_t>(),
                    body.at("age_limit").get<std::int64_t>(),
                    {bands.at("grey_below").get<std::int64_t>(), bands.at("amber_over").get<std::int64_t>(),
                     bands.at("red_over").get<std::int64_t>()}};
  return protocol;
}

}  // namespace

std::optional<AdoptedProtocol> protocol_on(Connection& connection, const engine::Date& day) {
  return connection.first(
      "SELECT entry, content FROM protocols WHERE from_day <= ? ORDER BY from_day DESC, entry DESC LIMIT 1",
      protocol_from, engine::text_of(day));
}

std::vector<AdoptedProtocol> all_protocols(Connection& connection) {
  std::vector<AdoptedProtocol> protocols;
  connection.each("SELECT entry, content FROM protocols ORDER BY entry",
                  [&](const Row& row) { protocols.push_back(protocol_from(row)); });
  return protocols;
}

ProtocolTerms terms_on(Connection& connection, const engine::Date& day) {
  const auto protocol = protocol_on(connection, day);
  return protocol ? protocol->terms : ProtocolTerms{};
}

}  // namespace ledger
