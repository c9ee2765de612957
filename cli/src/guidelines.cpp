#include "guidelines.h"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <cstdlib>
#include <sstream>

#include "failure.h"
#include "protocols.h"

namespace cli {

namespace {

std::string variable(const char* name) {
  const char* value = std::getenv(name);
  return value == nullptr ? "" : value;
}

std::vector<std::string> words_of(const std::string& text) {
  std::istringstream stream(text);
  return {std::istream_iterator<std::string>(stream), {}};
}

Trust trust_of(const GuidelineOptions& options) {
  return options.unverified ? Trust::unverified_too : Trust::manifest_only;
}

void add_once(std::vector<std::string>& ids, const std::string& id) {
  if (std::find(ids.begin(), ids.end(), id) == ids.end()) ids.push_back(id);
}

}  // namespace

void add_guideline_options(CLI::App& command, GuidelineOptions& options) {
  CLI::Option* rulesets =
      command
          .add_option("--ruleset", options.ruleset_ids,
                      "Ids of rulesets, with several the earliest answer leads; else DUEWARD_RULESET")
          ->type_name("ID")
          ->expected(1)
          ->allow_extra_args(false)  // ruleset_words.h puts the option before each further id
          ->take_all();
  command
      .add_option("--protocol", options.protocol,
                  "The rulesets of a protocol: uk, us, europe; else DUEWARD_PROTOCOL")
      ->type_name("ID")
      ->excludes(rulesets);
  command.add_flag("--unverified", options.unverified,
                   "Answer also with rulesets that the manifest does not name; every answer says so");
  add_rulesets_option(command, options);
}

Guidelines named_guidelines(const GuidelineOptions& options) {
  std::vector<std::string> named = options.ruleset_ids;
  std::string protocol = options.protocol;
  if (named.empty() && protocol.empty()) named = words_of(variable("DUEWARD_RULESET"));
  if (named.empty() && protocol.empty()) protocol = variable("DUEWARD_PROTOCOL");
  Guidelines guidelines;
  if (!protocol.empty()) {
    const ProtocolPreset preset =
        require(read_protocol(rulesets_folder(options), protocol), ExitCode::wrong_usage);
    named = preset.rulesets;
    guidelines.protocol = preset.id;
    guidelines.settings = preset.settings;
    guidelines.interval_end = preset.interval_end;
  }
  std::vector<std::string> ids;
  for (const std::string& id : named) add_once(ids, id);
  for (const std::string& id : ids) guidelines.rulesets.push_back(ruleset_by(options, id));
  return guidelines;
}

RulesetFile ruleset_by(const GuidelineOptions& options, const std::string& id) {
  return ruleset_in_force(rulesets_folder(options), id, trust_of(options));
}

void fail_without_guideline() {
  fail(ExitCode::wrong_usage,
       {"no_ruleset",
        "which guideline the unit follows is not said",
        {},
        "name it with `--ruleset ID` or `--protocol ID`; `dueward rulesets list` shows what there is"});
}

}  // namespace cli
