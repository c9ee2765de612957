// Who writes the letters: name, address and telephone of the unit, and what its records call medicines that
// thin the blood, from a file that its administrator keeps.

#pragma once

#include <string>
#include <vector>

#include "engine/result.h"

namespace cli {

struct UnitDetails {
  std::string name;                  ///< `Endoscopy Unit, Example Hospital`
  std::vector<std::string> address;  ///< Lines; may be none.
  std::string telephone;
  std::string hours;   ///< When it is answered; may be empty.
  std::string email;   ///< May be empty.
  std::string urgent;  ///< Whom to ring when help is needed at once: `ring 999`; may be empty.
  std::vector<std::string> blood_thinners = {};  ///< Beside those that the program knows (words.cpp).
};

/// Reads the file, every fault in one run. Strict: `name` and `telephone` are needed, a key that is not known
/// is refused. Fails with `unreadable_file` and `malformed_unit`.
engine::Result<UnitDetails> read_unit(const std::string& path);

}  // namespace cli
