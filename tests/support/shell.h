// Runs a line of shell: the outside checks of a test.

#pragma once

#include <sys/wait.h>

#include <cstdio>
#include <stdexcept>
#include <string>

namespace support {

struct ShellResult {
  int exit_code = 0;
  std::string printed;  ///< Standard output; add `2>&1` for the errors.
};

inline ShellResult shell(const std::string& line) {
  std::FILE* pipe = popen(line.c_str(), "r");
  if (pipe == nullptr) throw std::runtime_error("no shell can be started");
  ShellResult result;
  char buffer[4096];
  for (std::size_t size = 0; (size = std::fread(buffer, 1, sizeof buffer, pipe)) > 0;)
    result.printed.append(buffer, size);
  const int status = pclose(pipe);
  result.exit_code = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
  return result;
}

}  // namespace support
