#include "engine/unverified.h"

namespace engine {

std::string unverified_caution(const std::string& ruleset_id) {
  return "`" + ruleset_id +
         "` was used unverified: its file is not the one that the manifest of the rulesets names";
}

std::shared_ptr<const Ruleset> as_unverified(const Ruleset& ruleset) {
  auto marked = std::make_shared<Ruleset>(ruleset);
  marked->about.cautions.push_back(unverified_caution(ruleset.about.id));
  return marked;
}

}  // namespace engine
