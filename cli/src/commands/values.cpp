#include "commands/values.h"

#include <iostream>

#include "failure.h"
#include "report/errors.h"
#include "system/clock.h"

namespace cli {

const engine::Context& context_of(const std::string& option, const std::string& json, engine::Arena& arena) {
  const engine::Value value = require(engine::value_from_json(json, arena), ExitCode::unreadable_input);
  if (!value.is(engine::Kind::context)) {
    fail(ExitCode::unreadable_input,
         {"no_object",
          option + ": expected a JSON object, read " + std::string(engine::type_name(value.kind())),
          {},
          "for example " + option + " '{\"age\": 70}'"});
  }
  return value.context();
}

engine::DateTime now_of(const CommonOptions& options) {
  if (options.today.empty()) return utc_now();
  return {today_of(options), {0, *engine::offset_zone(0)}};
}

ExitCode report(const engine::Diagnostics& diagnostics, const std::string& source, bool as_json) {
  engine::Errors errors;
  std::string text;
  ExitCode code = ExitCode::done;
  for (const engine::Diagnostic& diagnostic : diagnostics) {
    errors.push_back(error_of(diagnostic, source));
    text += text_of(errors.back(), diagnostic.severity);
    if (diagnostic.severity == engine::Severity::error) code = ExitCode::needs_a_person;
  }
  if (!errors.empty()) {
    std::cout.flush();
    std::cerr << (as_json ? json_of(errors) : text);
  }
  return code;
}

}  // namespace cli
