#include "record/path.h"

namespace engine {

void append(std::string& out, const Path& path) {
  if (path.parent == nullptr) return;
  append(out, *path.parent);
  if (path.key.empty()) {
    out.append("[").append(std::to_string(path.index)).append("]");
    return;
  }
  if (!out.empty()) out += '.';
  out += path.key;
}

std::string text_of(const Path& path) {
  std::string out;
  append(out, path);
  return out;
}

}  // namespace engine
