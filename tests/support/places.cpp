#include "support/places.h"

namespace support {

std::string source(const std::string& path) {
  return path.empty() ? DUEWARD_SOURCE_DIR : DUEWARD_SOURCE_DIR "/" + path;
}

const char* program() {
  return DUEWARD_PROGRAM;
}

}  // namespace support
