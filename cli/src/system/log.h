// The daemon's log: one JSON object a line on standard error, for a journal or a log collector. Names no
// patient.

#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>

#include "engine/result.h"

namespace cli {

void begin_log();

/// `{"at":..,"level":"info","event":event, ...facts}`. `facts` is an object.
void log_event(const std::string& event, const nlohmann::json& facts);
void log_errors(const std::string& event, const engine::Errors& errors, const nlohmann::json& facts);

}  // namespace cli
