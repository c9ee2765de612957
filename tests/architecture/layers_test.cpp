// The modules look only downwards, and the engine stays pure: read from the sources themselves.

#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <regex>
#include <string>
#include <vector>

#include "support/places.h"

namespace fs = std::filesystem;

namespace {

// Files of a module, with each of their includes: `cli/src/main.cpp: CLI/CLI.hpp`.
struct Include {
  std::string file;
  std::string header;
};

std::vector<Include> includes_of(const std::string& module) {
  static const std::regex pattern(R"(^\s*#\s*include\s*[<"]([^>"]+)[>"])");
  std::vector<Include> includes;
  const fs::path root = support::source();
  for (const auto& entry : fs::recursive_directory_iterator(root / module)) {
    if (!entry.is_regular_file()) continue;
    std::ifstream file(entry.path());
    std::smatch found;
    for (std::string line; std::getline(file, line);) {
      if (std::regex_search(line, found, pattern)) {
        includes.push_back({fs::relative(entry.path(), root).string(), found[1]});
      }
    }
  }
  return includes;
}

}  // namespace

TEST_CASE("no module includes what lies above it", "[architecture]") {
  struct Row {
    const char* module;
    std::vector<std::string> above;
  };
  const auto row = GENERATE(values<Row>({
      {"engine", {"ledger/", "cli/", "commands/", "report/", "serve/"}},
      {"ledger", {"cli/", "commands/", "report/", "serve/"}},
  }));
  const std::vector<Include> includes = includes_of(row.module);
  REQUIRE(includes.size() > 20);
  for (const Include& include : includes) {
    for (const std::string& prefix : row.above) {
      INFO(include.file << " includes " << include.header);
      CHECK_FALSE(include.header.starts_with(prefix));
    }
  }
}

TEST_CASE("the engine includes no clock, file, database, log or thread", "[architecture]") {
  const std::vector<std::string> impure = {"fstream", "iostream",   "filesystem", "thread", "mutex",
                                           "future",  "ctime",      "time.h",     "random", "unistd.h",
                                           "fcntl.h", "sys/stat.h", "sqlite3.h"};
  for (const Include& include : includes_of("engine")) {
    INFO(include.file << " includes " << include.header);
    const bool is_pure = std::find(impure.begin(), impure.end(), include.header) == impure.end();
    CHECK(is_pure);
    CHECK_FALSE(include.header.starts_with("spdlog/"));
    CHECK_FALSE(include.header.starts_with("SQLiteCpp/"));
    CHECK_FALSE(include.header.starts_with("CLI/"));
  }
}

TEST_CASE("only the folder of the database includes SQLite", "[architecture]") {
  for (const char* module : {"engine", "ledger", "cli"}) {
    for (const Include& include : includes_of(module)) {
      if (!include.header.starts_with("SQLiteCpp/") && include.header != "sqlite3.h") continue;
      INFO(include.file << " includes " << include.header);
      CHECK(include.file.starts_with("ledger/src/database/"));
    }
  }
}

TEST_CASE("a module shows the others only its include folder", "[architecture]") {
  for (const Include& include : includes_of("cli")) {
    INFO(include.file << " includes " << include.header);
    CHECK(include.header.find("../") == std::string::npos);
    for (const char* module : {"engine", "ledger"}) {
      const std::string name(module);
      if (!include.header.starts_with(name + "/")) continue;
      CHECK(fs::exists(fs::path(support::source()) / name / "include" / include.header));
    }
  }
}

namespace {

// Every line of a module's files that says something like `pattern`, except in `allowed`.
std::vector<std::string> lines_with(const std::string& module, const std::regex& pattern,
                                    const std::string& allowed) {
  std::vector<std::string> found;
  for (const auto& entry : fs::recursive_directory_iterator(fs::path(support::source()) / module)) {
    const std::string file = fs::relative(entry.path(), support::source()).string();
    if (!entry.is_regular_file() || file.starts_with(allowed)) continue;
    std::ifstream stream(entry.path());
    for (std::string line; std::getline(stream, line);) {
      if (std::regex_search(line, pattern)) found.push_back(file + ": " + line);
    }
  }
  return found;
}

}  // namespace

TEST_CASE("only one folder asks the machine for the time", "[architecture]") {
  const std::regex clocks(R"(_clock::now|\b(localtime|gmtime)(_r)?\(|gettimeofday|clock_gettime|)"
                          R"(\btime\((0|NULL|nullptr|&))");
  for (const char* module : {"engine", "ledger", "cli"}) {
    CHECK(lines_with(module, clocks, "cli/src/system/") == std::vector<std::string>{});
  }
}

TEST_CASE("the engine and the ledger print nothing and read no environment", "[architecture]") {
  const std::regex talk(R"(\bf?printf\(|\bfopen\(|\bf?puts\(|std::(cout|cerr|clog)\b|\bgetenv\()");
  for (const char* module : {"engine", "ledger"}) {
    CHECK(lines_with(module, talk, "none") == std::vector<std::string>{});
  }
}
