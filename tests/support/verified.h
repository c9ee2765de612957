// What every test of the ledger may end with: the file is sound.

#pragma once

#include <catch2/catch.hpp>

#include "ledger/audit.h"
#include "support/temporary_ledger.h"

namespace support {

/// The faults of the ledger's file, one a line; empty when it is sound.
inline std::string faults_of(const std::string& path) {
  std::string text;
  for (const ledger::AuditFault& fault : value_of(ledger::verify(path, std::nullopt)).faults)
    text += fault.where + " " + std::to_string(fault.entry) + ": " + fault.what + "\n";
  return text;
}

/// The code of the first error; empty when there is none.
template <class T>
std::string code_of(const engine::Result<T>& result) {
  return result ? "" : result.errors().front().code;
}

inline engine::Date day(std::string_view text) {
  return engine::parse_date(text).value();
}

}  // namespace support
