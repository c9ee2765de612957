// Runs a Python script that stands beside the tests and prints what a reference library says.

#pragma once

#include <sys/wait.h>

#include <catch2/catch.hpp>
#include <cstdio>
#include <sstream>
#include <string>

#include "support/places.h"

namespace engine::test {

class ReferenceScript {
 public:
  /// Runs tests/engine/calendar/`name` to its end. A script that lacks its library ends with exit code 77 and
  /// a line that says which; then, or without Python, the test warns and has nothing to compare.
  explicit ReferenceScript(const std::string& name) {
    const std::string command = "python3 '" + support::source("tests/engine/calendar/") + name + "' 2>&1";
    std::FILE* pipe = popen(command.c_str(), "r");
    REQUIRE(pipe != nullptr);
    std::string printed;
    char buffer[1 << 16];
    for (std::size_t size = 0; (size = std::fread(buffer, 1, sizeof buffer, pipe)) > 0;)
      printed.append(buffer, size);
    const int status = pclose(pipe);
    const int exit_code = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
    unavailable_ = exit_code == 77 || exit_code == 127;
    if (unavailable_) {
      WARN("not compared with the reference: " << printed);
      return;
    }
    INFO(command << "\n" << printed.substr(0, 2'000));
    REQUIRE(exit_code == 0);
    lines_.str(std::move(printed));
  }

  std::istream& lines() { return lines_; }
  bool unavailable() const { return unavailable_; }

 private:
  std::istringstream lines_;
  bool unavailable_ = false;
};

}  // namespace engine::test
