// What `feel` and `dmn` share: values from JSON, the moment they are asked for, and what they noted.

#pragma once

#include <string>

#include "command.h"
#include "engine/diagnostic.h"
#include "engine/model.h"

namespace cli {

/// The object that `json` writes; `option` is named when it writes none. Lives in `arena`.
const engine::Context& context_of(const std::string& option, const std::string& json, engine::Arena& arena);

/// Now; with `--today` the first moment of that day in UTC.
engine::DateTime now_of(const CommonOptions& options);

/// Shows the diagnostics on standard error. Needs a person when one is an error: the value shown may be null
/// for that reason alone.
ExitCode report(const engine::Diagnostics& diagnostics, const std::string& source, bool as_json);

}  // namespace cli
