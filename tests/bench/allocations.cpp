// The program's own `operator new`, which counts. The other forms of it that C++ knows call this one.

#include "bench/allocations.h"

#include <cstdlib>
#include <new>

namespace {
thread_local std::size_t count = 0;
}

void* operator new(std::size_t size) {
  ++count;
  if (void* memory = std::malloc(size)) return memory;
  throw std::bad_alloc();
}
void operator delete(void* memory) noexcept {
  std::free(memory);
}
void operator delete(void* memory, std::size_t) noexcept {
  std::free(memory);
}

namespace bench {

std::size_t allocations() {
  return count;
}

}  // namespace bench
