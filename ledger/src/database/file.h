// The ledger as a file: made, opened, recognised.

#pragma once

#include <memory>
#include <optional>
#include <string>

#include "database/store.h"
#include "engine/result.h"
#include "ledger/ledger.h"

namespace ledger {

class Connection;

/// `DUEW` in ASCII, in the place where SQLite keeps the kind of a file.
inline constexpr std::int64_t application_id = 0x44554557;
/// Version of the tables. A later version of the program raises it when it changes derived.sql, or what
/// follows from an entry.
inline constexpr std::int64_t schema_version = 6;

/// There is no file, or one with nothing in it: a crash while a ledger is made leaves an empty file, or a
/// database without tables. Whatever cannot be read is not to be made: it is someone else's.
bool is_to_be_made(const std::string& path);

/// Says that a write-ahead log lies at `path` without its ledger; nothing when all is as it should be.
std::optional<engine::Error> lone_log(const std::string& path);

/// The version of the tables of the ledger `path`, which is only read. Fails as ledger.h says.
engine::Result<std::int64_t> version_of(const std::string& path);

/// Makes the tables of a ledger in a database without any, in one transaction; nothing when another process
/// was quicker.
void make_tables(Connection& connection);

engine::Result<std::unique_ptr<Store>> create_file(const std::string& path);
engine::Result<std::unique_ptr<Store>> open_file(const std::string& path, Ledger::Access access);

}  // namespace ledger
