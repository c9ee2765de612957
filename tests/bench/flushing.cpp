// The program's own `fdatasync` and `fsync`, which SQLite calls instead of the system's.

#include "bench/flushing.h"

#include <sys/syscall.h>
#include <unistd.h>

#include <atomic>

namespace {
std::atomic<bool> flushes = true;
}

extern "C" int fdatasync(int file) {
  return flushes ? static_cast<int>(syscall(SYS_fdatasync, file)) : 0;
}
extern "C" int fsync(int file) {
  return flushes ? static_cast<int>(syscall(SYS_fsync, file)) : 0;
}

namespace bench {

NothingIsFlushed::NothingIsFlushed() {
  flushes = false;
}
NothingIsFlushed::~NothingIsFlushed() {
  flushes = true;
}

}  // namespace bench
