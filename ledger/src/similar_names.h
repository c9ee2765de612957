// Whether two names could be those of one person. Pure.

#pragma once

#include <string>

namespace ledger {

/// `family, prefix given` as the lists print it. Gives in what way the names are alike: `same name`, `names
/// exchanged`, `one letter differs`, `no name to compare`; empty when they are not. Letter case, spaces,
/// hyphens and apostrophes do not count, nor do titles.
std::string likeness_of(const std::string& name, const std::string& other);

}  // namespace ledger
