// A disk that fails when it is told to: a file system for SQLite that wraps the default one, counts what is
// done with files, and lets one operation fail, or cuts the power. Source: SQLite, "The SQLite OS Interface
// or VFS".

#pragma once

#include <cstdint>
#include <string>

namespace support {

enum class FaultKind : std::uint8_t {
  error,        ///< Any operation gives its I/O error and does nothing.
  full,         ///< A write finds no room.
  short_write,  ///< A write ends half way.
  busy,         ///< A lock is held by someone else.
  /// Before an operation that changes a file the power goes: of what was not synced nothing is left, and
  /// everything after it fails.
  power_cut,
  torn_power_cut  ///< The same, but any part of what was not synced may be left, in sectors of 512 bytes.
};

const char* text_of(FaultKind kind);

struct Fault {
  FaultKind kind = FaultKind::error;
  std::uint64_t at = 0;    ///< Which of the operations that can fail so, from 1. 0: none.
  bool lasting = false;    ///< All such operations after it fail too.
  std::uint32_t seed = 1;  ///< Which sectors a torn power cut leaves.
};

/// While it lives, every database of this process is on it. One at a time.
class FaultyDisk {
 public:
  FaultyDisk();
  ~FaultyDisk();
  FaultyDisk(const FaultyDisk&) = delete;
  FaultyDisk& operator=(const FaultyDisk&) = delete;

  /// Counts anew, and fails as `fault` says from now on. What was written before counts as synced.
  void arm(const Fault& fault);
  /// Works like any disk again.
  void mend();

  /// True when the fault has come.
  bool has_struck() const;
  /// What it hit: `write unit.ledger-wal`.
  std::string struck() const;
  /// Operations since `arm` that could have failed so.
  std::uint64_t operations() const;
};

}  // namespace support
