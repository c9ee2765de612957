#include "system/signals.h"

#include <poll.h>
#include <unistd.h>

#include <cerrno>
#include <csignal>

namespace cli {

namespace {

volatile std::sig_atomic_t requested = 0;
// A byte written by the handler wakes a sleeper: a signal between the question and the sleep is not missed.
int wake_pipe[2] = {-1, -1};

void on_signal(int) {
  const int kept = errno;
  requested = 1;
  const char byte = 1;
  [[maybe_unused]] const auto written = ::write(wake_pipe[1], &byte, 1);
  errno = kept;
}

}  // namespace

void watch_for_stop() {
  if (wake_pipe[0] < 0 && ::pipe(wake_pipe) != 0) return;
  struct sigaction action {};
  action.sa_handler = on_signal;
  sigemptyset(&action.sa_mask);
  ::sigaction(SIGTERM, &action, nullptr);
  ::sigaction(SIGINT, &action, nullptr);
}

bool stop_requested() {
  return requested != 0;
}

void wait_milliseconds(int milliseconds) {
  if (stop_requested()) return;
  pollfd wake{wake_pipe[0], POLLIN, 0};
  ::poll(&wake, wake_pipe[0] < 0 ? 0 : 1, milliseconds);
}

}  // namespace cli
