// SIGTERM and SIGINT as a question: "are we asked to stop?".

#pragma once

namespace cli {

/// From now on SIGTERM and SIGINT end nothing by themselves; `stop_requested` turns true.
void watch_for_stop();
bool stop_requested();

/// Sleeps until the time is over or a stop is requested.
void wait_milliseconds(int milliseconds);

}  // namespace cli
