// What a function that writes to a stream wrote, as text.

#pragma once

#include <sstream>
#include <string>

namespace support {

template <class Write, class... Values>
std::string printed(Write write, const Values&... values) {
  std::ostringstream out;
  (void)write(out, values...);
  return out.str();
}

}  // namespace support
