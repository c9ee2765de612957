#include "named_examinations.h"

#include <nlohmann/json.hpp>
#include <sstream>

#include "failure.h"
#include "system/files.h"

namespace cli {

using engine::Error;
using engine::Result;
using nlohmann::json;

namespace {

constexpr const char* a_row =
    "expected `{\"exam\": \"E1\", \"advice\": 12}`, as `to-sign --format json` has it";

NamedExamination named_by(const json& row, engine::Place place) {
  NamedExamination named{std::move(place), {}, 0, {}};
  const auto refuse = [&](std::string message) {
    named.errors.push_back({"malformed_row", std::move(message), named.place, a_row});
  };
  if (!row.is_object()) {
    refuse("a row that is no object");
    return named;
  }
  const json exam = row.value("exam", json()), advice = row.value("advice", json());
  if (!exam.is_string() || exam.get_ref<const std::string&>().empty())
    refuse("`exam` is missing, or is no text");
  if (!advice.is_null() && !advice.is_number_unsigned())
    refuse("`advice` is `" + advice.dump(-1, ' ', false, json::error_handler_t::replace) +
           "`, which is no entry's number");
  if (!named.errors.empty()) return named;
  named.exam = exam.get<std::string>();
  if (!advice.is_null()) named.advice = advice.get<std::uint64_t>();
  return named;
}

std::vector<NamedExamination> rows_of(const json& rows, const std::string& source) {
  std::vector<NamedExamination> all;
  for (const json& row : rows) {
    engine::Place place;
    place.source = source;
    place.path = "rows[" + std::to_string(all.size()) + "]";
    all.push_back(named_by(row, std::move(place)));
  }
  return all;
}

std::vector<NamedExamination> lines_of(std::string_view text, const std::string& source) {
  std::vector<NamedExamination> all;
  std::istringstream lines{std::string(text)};
  std::uint32_t number = 0;
  for (std::string line; std::getline(lines, line);) {
    ++number;
    if (line.find_first_not_of(" \t\r") == std::string::npos) continue;
    engine::Place place;
    place.source = source + ":" + std::to_string(number);
    all.push_back(named_by(json::parse(line, nullptr, false), std::move(place)));
  }
  return all;
}

}  // namespace

Result<std::vector<NamedExamination>> read_named_examinations(std::string_view text,
                                                              const std::string& source) {
  const json whole = json::parse(text, nullptr, false);
  const bool is_list = whole.is_object() && whole.value("rows", json()).is_array();
  auto named = is_list ? rows_of(whole.at("rows"), source) : lines_of(text, source);
  if (!named.empty()) return named;
  Error error{"nothing_named", "the file names no examination", {}, a_row};
  error.place.source = source;
  return error;
}

std::vector<NamedExamination> examinations_named_in(const std::string& file) {
  const std::string text = require(read_file(file), ExitCode::unreadable_input);
  return require(read_named_examinations(text, source_name(file)), ExitCode::unreadable_input);
}

}  // namespace cli
