#include "system/log.h"

#include <spdlog/sinks/stdout_sinks.h>
#include <spdlog/spdlog.h>

#include <memory>
#include <nlohmann/json.hpp>

#include "report/errors.h"

namespace cli {

namespace {

// The members of the object, without its braces: the pattern puts time and level before them.
std::string members(const std::string& event, nlohmann::json facts) {
  facts["event"] = event;
  const std::string object = facts.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
  return object.substr(1, object.size() - 2);
}

}  // namespace

void begin_log() {
  auto logger =
      std::make_shared<spdlog::logger>("dueward", std::make_shared<spdlog::sinks::stderr_sink_mt>());
  logger->set_pattern(R"({"at":"%Y-%m-%dT%H:%M:%S.%eZ","level":"%l",%v})", spdlog::pattern_time_type::utc);
  logger->flush_on(spdlog::level::info);
  spdlog::set_default_logger(std::move(logger));
}

void log_event(const std::string& event, const nlohmann::json& facts) {
  spdlog::info("{}", members(event, facts));
}

void log_errors(const std::string& event, const engine::Errors& errors, const nlohmann::json& facts) {
  nlohmann::json all = facts;
  all["errors"] = nlohmann::json::parse(json_of(errors))["errors"];
  spdlog::error("{}", members(event, all));
}

}  // namespace cli
