#include "ledger/chain.h"

namespace ledger {

namespace {

void append_sequence(std::string& out, std::uint64_t sequence) {
  for (int shift = 56; shift >= 0; shift -= 8) out += static_cast<char>(sequence >> shift & 0xff);
}

void append_member(std::string& out, const char* name, const std::string& text) {
  out += name;
  engine::append_json_string(out, text);
}

}  // namespace

// The keys stand in alphabetical order and `body` is canonical already, so the whole is RFC 8785 without
// being parsed again: an entry is hashed as fast as its bytes are read.
std::string payload_of(const Entry& entry) {
  std::string payload;
  payload.reserve(entry.body.size() + entry.subject.size() + entry.actor.size() + 128);
  append_member(payload, "{\"actor\":", entry.actor);
  append_member(payload, ",\"at\":", entry.at);
  payload += ",\"body\":" + entry.body;
  append_member(payload, ",\"kind\":", entry.kind);
  append_member(payload, ",\"subject\":", entry.subject);
  payload += '}';
  return payload;
}

engine::Digest hash_of(const Entry& entry) {
  std::string bytes(1, '\0');
  bytes.append(entry.previous.begin(), entry.previous.end());
  append_sequence(bytes, entry.sequence);
  bytes += payload_of(entry);
  return engine::sha256(bytes);
}

std::optional<BrokenEntry> ChainFollower::next(const Entry& entry) {
  const std::uint64_t expected = sequence_ + 1;
  std::optional<BrokenEntry> broken;
  if (entry.sequence != expected) {
    broken = {expected, "the entry is missing: number " + std::to_string(entry.sequence) + " comes next"};
  } else if (entry.previous != hash_) {
    broken = {expected, "the link does not fit: `previous` is not the hash of the entry before"};
  } else if (hash_of(entry) != entry.hash) {
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
