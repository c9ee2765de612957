// Everything that a ledger holds, as text: what a unit keeps that does not depend on this program or on
// SQLite. Source: docs/ledger-format.md, which has the form of each line.

#pragma once

#include <functional>
#include <string>

#include "engine/result.h"
#include "ledger/checkpoint.h"
#include "ledger/ledger.h"

namespace ledger {

/// Takes the next line of an export, with its line feed. Its errors end the export, and are given back.
using ExportSink = std::function<engine::Result<engine::Done>(const std::string&)>;

/// Hands every entry, and every document before the first entry that names it, to `sink` as JSON Lines, as of
/// one moment; then a last line with size and head, which are also given. Memory does not grow with the
/// ledger. The same entries give the same bytes, and those of a longer ledger begin with the lines of the
/// shorter one but its last.
///
/// Fails with `ledger_not_sound`, naming the entry, where the chain is broken, a document is missing or
/// altered, or a body is not in its one form: what was handed over until then is no export. Else as ledger.h
/// says.
engine::Result<Checkpoint> export_lines(const Ledger& ledger, const ExportSink& sink);

/// The same into a new file, which only its owner can read and which gets its name when it is whole. Fails
/// also with `file_exists` and `file_not_written`.
engine::Result<Checkpoint> export_file(const Ledger& ledger, const std::string& file);

}  // namespace ledger
