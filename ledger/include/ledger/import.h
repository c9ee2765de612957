// A ledger made from an export (export.h). Source: docs/ledger-format.md.

#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <string>

#include "engine/result.h"
#include "ledger/checkpoint.h"

namespace ledger {

/// The next line of an export with its line feed, if it has one; none at the end. Its errors end the import.
using ImportSource = std::function<engine::Result<std::optional<std::string>>()>;

struct Imported {
  Checkpoint checkpoint;        ///< Of the export.
  std::uint64_t documents = 0;  ///< That it holds.
  bool is_new = true;           ///< False: the ledger was there and holds all of it already.
  std::uint64_t further = 0;    ///< Entries that a ledger which was there has beyond the export.
};

/// Makes the ledger `path` from the lines that `next` gives; `source` names them in errors. Each line is
/// checked as it comes, and the whole is verified as by `verify` (audit.h) before it gets its name: an export
/// of the new ledger is the same bytes. Nothing is left when it fails.
///
/// A ledger that is there is never written to: when it begins with the entries of the export nothing is to be
/// done, else it fails with `another_ledger` (an entry is another one) or `export_is_longer`.
///
/// Fails with `not_an_export`, `newer_export` (of another version, or with a kind of entry that is not
/// known), `not_an_export_line`, `export_altered` (a number, link, hash, digest, document or account does not
/// fit) and `export_cut` (it ends before its last line), each with its line; with what Draft says
/// (new_file.h), and as ledger.h says.
engine::Result<Imported> import_lines(const std::string& path, const ImportSource& next,
                                      const std::string& source);

}  // namespace ledger
