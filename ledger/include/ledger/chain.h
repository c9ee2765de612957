// The hash chain. Pure: takes entries, gives hashes and the first fault.
//
//   hash     := SHA-256(0x00 || previous || sequence || payload)
//   previous := byte[32]   // 32 zero bytes for the first entry
//   sequence := uint64     // big-endian
//   payload  := RFC 8785 JSON of {"actor", "at", "body", "kind", "subject"}
//
// Source: docs/ledger-format.md, which has a worked example for sha256sum.

#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "ledger/checkpoint.h"
#include "ledger/entry.h"

namespace ledger {

/// An entry that stands elsewhere: millions are followed without a copy of each. Owns nothing.
struct EntryView {
  EntryView() = default;
  EntryView(const Entry& entry)  // every entry can be looked at
      : sequence(entry.sequence),
        at(entry.at),
        actor(entry.actor),
        kind(entry.kind),
        subject(entry.subject),
        body(entry.body),
        previous(entry.previous),
        hash(entry.hash) {}

  std::uint64_t sequence = 0;
  std::string_view at, actor, kind, subject, body;
  engine::Digest previous{}, hash{};
};

/// The bytes that are hashed after the sequence number. `body` goes in as it stands.
std::string payload_of(const EntryView& entry);

engine::Digest hash_of(const EntryView& entry);

/// The first thing wrong in a run of entries.
struct BrokenEntry {
  std::uint64_t sequence = 0;  ///< The number that was expected here.
  std::string fault;           ///< `the hash does not fit what the entry says`
};

/// Follows a chain entry by entry, so that a ledger of any length is checked in little memory.
class ChainFollower {
 public:
  ChainFollower() = default;
  /// Goes on after the entry of `before`, so that parts of a ledger can be followed beside each other.
  explicit ChainFollower(const Checkpoint& before) : sequence_(before.size), hash_(before.head) {}

  /// What is wrong with `entry` as the next one, or nothing. Goes on from the entry's own stored number and
  /// hash either way, so that one falsified entry is named once and the rest is still checked.
  std::optional<BrokenEntry> next(const EntryView& entry);

  std::uint64_t size() const { return sequence_; }
  const engine::Digest& head() const { return hash_; }

 private:
  std::uint64_t sequence_ = 0;
  engine::Digest hash_{};
  std::string bytes_;  // reused from entry to entry
};

/// The first broken entry of a whole ledger, or nothing when every one is sound.
std::optional<BrokenEntry> first_broken(std::span<const Entry> entries);

}  // namespace ledger
