// Runs the built program as a person would: words in, exit code and both outputs back.

#pragma once

#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "support/places.h"

namespace support {

/// What a run left behind. A run that a signal ended has the code 128 + its number, as in a shell.
struct Finished {
  int code = 0;
  std::string out, err;
};

/// The program while it runs. Ends it, if need be, when destroyed.
class RunningProgram {
 public:
  /// Standard input stays open until `finish`.
  explicit RunningProgram(const std::vector<std::string>& words) {
    // Writing to a program that has ended is an error of write(), not the end of the tests. A handler, since `ignored`
    // would be inherited by the program.
    ::signal(SIGPIPE, [](int) {});
    const auto in = pipe_pair(), out = pipe_pair(), err = pipe_pair();
    posix_spawn_file_actions_t actions;
    posix_spawn_file_actions_init(&actions);
    posix_spawn_file_actions_adddup2(&actions, in[0], STDIN_FILENO);
    posix_spawn_file_actions_adddup2(&actions, out[1], STDOUT_FILENO);
    posix_spawn_file_actions_adddup2(&actions, err[1], STDERR_FILENO);
    std::vector<std::string> kept = words;
    kept.insert(kept.begin(), program());
    std::vector<char*> arguments;
    for (std::string& word : kept) arguments.push_back(word.data());
    arguments.push_back(nullptr);
    const int fault = posix_spawn(&process_, program(), &actions, nullptr, arguments.data(), environ);
    posix_spawn_file_actions_destroy(&actions);
    for (const int inner : {in[0], out[1], err[1]}) ::close(inner);
    in_ = in[1];
    out_ = out[0];
    err_ = err[0];
    if (fault != 0) throw std::runtime_error("the program cannot be started: " + std::string(program()));
  }
  ~RunningProgram() {
    if (process_ > 0) {
      ::kill(process_, SIGKILL);
      ::waitpid(process_, nullptr, 0);
    }
    for (const int end : {in_, out_, err_}) {
      if (end >= 0) ::close(end);
    }
  }
  RunningProgram(const RunningProgram&) = delete;
  RunningProgram& operator=(const RunningProgram&) = delete;

  void signal(int number) const { ::kill(process_, number); }

  void write(std::string_view text) const {
    while (!text.empty()) {
      const ssize_t written = ::write(in_, text.data(), text.size());
      if (written < 0) return;  // it has ended: what it answered says why
      text.remove_prefix(static_cast<std::size_t>(written));
    }
  }

  /// The next line of standard output, without its line feed; what there is at the end of it.
  std::string read_line() const {
    std::string line;
    for (char c = 0; ::read(out_, &c, 1) == 1 && c != '\n';) line += c;
    return line;
  }

  /// Closes standard input, takes all output and waits for the end.
  Finished finish() {
    ::close(std::exchange(in_, -1));
    Finished finished;
    std::array<pollfd, 2> ends = {pollfd{out_, POLLIN, 0}, pollfd{err_, POLLIN, 0}};
    while (ends[0].fd >= 0 || ends[1].fd >= 0) {
      if (::poll(ends.data(), ends.size(), -1) < 0 && errno != EINTR) break;
      take(ends[0], finished.out);
      take(ends[1], finished.err);
    }
    int status = 0;
    ::waitpid(std::exchange(process_, -1), &status, 0);
    finished.code = WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
    return finished;
  }

 private:
  static std::array<int, 2> pipe_pair() {
    std::array<int, 2> ends{};
    if (::pipe2(ends.data(), O_CLOEXEC) != 0) throw std::runtime_error("no pipe can be made");
    return ends;
  }
  static void take(pollfd& end, std::string& text) {
    if (end.fd < 0 || end.revents == 0) return;
    char block[16 * 1024];
    const ssize_t count = ::read(end.fd, block, sizeof block);
    if (count > 0) {
      text.append(block, static_cast<std::size_t>(count));
    } else if (count == 0) {
      end.fd = -1;
    }
  }

  pid_t process_ = -1;
  int in_ = -1, out_ = -1, err_ = -1;
};

inline Finished run_program(const std::vector<std::string>& words, std::string_view input = {}) {
  RunningProgram program(words);
  program.write(input);
  return program.finish();
}

}  // namespace support
