#include "ledger/chain.h"

namespace ledger {

namespace {

void append_sequence(std::string& out, std::uint64_t sequence) {
  for (int shift = 56; shift >= 0; shift -= 8) out += static_cast<char>(sequence >> shift & 0xff);
}

void append_member(std::string& out, std::string_view name, std::string_view text) {
  out += name;
  engine::append_json_string(out, text);
}

// The keys stand in alphabetical order and `body` is canonical already, so the whole is RFC 8785 without
// being parsed again: an entry is hashed as fast as its bytes are read.
void append_payload(std::string& out, const EntryView& entry) {
  append_member(out, "{\"actor\":", entry.actor);
  append_member(out, ",\"at\":", entry.at);
  out += ",\"body\":";
  out += entry.body;
  append_member(out, ",\"kind\":", entry.kind);
  append_member(out, ",\"subject\":", entry.subject);
  out += '}';
}

/// `bytes` is where they are put together.
engine::Digest hash_of(const EntryView& entry, std::string& bytes) {
  bytes.assign(1, '\0');
  bytes.append(entry.previous.begin(), entry.previous.end());
  append_sequence(bytes, entry.sequence);
  append_payload(bytes, entry);
  return engine::sha256(bytes);
}

}  // namespace

std::string payload_of(const EntryView& entry) {
  std::string payload;
  append_payload(payload, entry);
  return payload;
}

engine::Digest hash_of(const EntryView& entry) {
  std::string bytes;
  return hash_of(entry, bytes);
}

std::optional<BrokenEntry> ChainFollower::next(const EntryView& entry) {
  const std::uint64_t expected = sequence_ + 1;
  std::optional<BrokenEntry> broken;
  if (entry.sequence != expected) {
    broken = {expected, "the entry is missing: number " + std::to_string(entry.sequence) + " comes next"};
  } else if (entry.previous != hash_) {
    broken = {expected, "the link does not fit: `previous` is not the hash of the entry before"};
  } else if (hash_of(entry, bytes_) != entry.hash) {
    broken = {expected, "the hash does not fit what the entry says"};
  }
  sequence_ = entry.sequence;
  hash_ = entry.hash;
  return broken;
}

std::optional<BrokenEntry> first_broken(std::span<const Entry> entries) {
  ChainFollower follower;
  for (const Entry& entry : entries) {
    if (auto broken = follower.next(entry)) return broken;
  }
  return std::nullopt;
}

}  // namespace ledger
