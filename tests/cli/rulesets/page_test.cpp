// The pages of the rulesets in docs/ are what the program writes.

#include <catch2/catch.hpp>
#include <filesystem>

#include "support/places.h"
#include "support/shipped_rulesets.h"
#include "support/temporary_unit.h"

namespace fs = std::filesystem;

namespace {

const fs::path pages = fs::path(support::source()) / "docs/rulesets";

}  // namespace

TEST_CASE("every ruleset has its page, and the page is what the program shows", "[docs]") {
  for (const std::string& id : support::shipped_ruleset_ids()) {
    INFO("dueward rulesets show " << id << " --format markdown > docs/rulesets/" << id << ".md");
    const auto shown = support::run_program(
        {"rulesets", "show", id, "--format", "markdown", "--rulesets", support::source("rulesets")});
    CHECK(shown.code == 0);
    const bool same =
        support::read_text(pages / (id + ".md")) == shown.out;  // not the pages themselves: too long
    CHECK(same);
  }
}

TEST_CASE("there is no page without its ruleset", "[docs]") {
  for (const auto& entry : fs::directory_iterator(pages)) {
    const std::string name = entry.path().stem().string();
    if (name == "README" || name == "from-memory") continue;
    INFO(name);
    CHECK(fs::exists(fs::path(support::source()) / "rulesets" / name / "ruleset.dmn"));
  }
}
