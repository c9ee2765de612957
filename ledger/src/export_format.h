// The lines of an export, written and read back. Pure. Each is one JSON object in the form of RFC 8785:
//
//   {"format":"dueward export","version":1}
//   {"document":"sha256:..","text":".."}          or "base64", where the bytes are no UTF-8
//   {"actor":..,"at":..,"body":{..},"hash":"sha256:..","kind":..,"previous":"sha256:..","sequence":1,"subject":..}
//   {"documents":3,"head":"sha256:..","size":11}
//
// Source: docs/ledger-format.md.

#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <variant>

#include "engine/result.h"
#include "ledger/checkpoint.h"
#include "ledger/entry.h"

namespace ledger {

inline constexpr std::uint64_t export_version = 1;

/// Bytes that an entry names, and the digest that they are kept under.
struct KeptDocument {
  std::string digest;
  std::string bytes;
};

struct EndOfExport {
  std::uint64_t documents = 0;
  Checkpoint checkpoint;
};

/// All of them with their line feed.
std::string header_line();
std::string line_of(const KeptDocument& document);
std::string line_of(const Entry& entry);
std::string line_of(const EndOfExport& end);

using ExportLine = std::variant<KeptDocument, Entry, EndOfExport>;

/// Reads any line but the first, line feed included. Fails with `not_an_export_line` when it is not exactly
/// what would be written: so an export that is read and written again is the same bytes. Whether a hash or a
/// digest fits is not looked at here.
engine::Result<ExportLine> read_export_line(std::string_view line);

/// Reads the first line. Fails with `not_an_export`, or with `newer_export` when its version is another one.
engine::Result<engine::Done> read_header_line(std::string_view line);

}  // namespace ledger
