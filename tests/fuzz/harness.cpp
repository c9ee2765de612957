// One harness for all targets; DUEWARD_FUZZ_TARGET says which function of targets.h it calls.

#include <cstddef>
#include <cstdint>

#include "fuzz/targets.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  fuzz::DUEWARD_FUZZ_TARGET({reinterpret_cast<const char*>(data), size});
  return 0;
}
