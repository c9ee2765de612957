#include "database/copy.h"

#include <filesystem>

#include "database/connection.h"
#include "database/store.h"
#include "ledger/audit.h"
#include "ledger/new_file.h"
#include "places.h"

namespace ledger {

using engine::Done;
using engine::Error;
using engine::Result;

// SQLite's name for a copy that is consistent. Source: SQLite, "VACUUM", INTO.
Result<Done> copy_ledger(const std::string& from, const std::string& to, const std::string& as) {
  auto copied = at_the_border(from, [&]() -> Result<Done> {
    Connection(from, SQLite::OPEN_READONLY).run("VACUUM INTO ?", to);
    return Done{};
  });
  if (copied) return copied;
  // What is wrong with the ledger itself is no matter of the copy.
  const std::string& code = copied.errors().front().code;
  for (const char* own : {"ledger_damaged", "not_a_ledger", "ledger_missing", "ledger_locked"}) {
    if (code == own) return copied;
  }
  return Error{"file_not_written", "the copy cannot be written: " + copied.errors().front().message,
               in_file(as), "check the folder, its rights and the room on the disk"};
}

Result<Checkpoint> checked(const std::string& file, const std::string& as, const std::string& code) {
  const auto report = verify(file, std::nullopt);
  if (!report) return report.errors();
  if (report->faults.empty()) return report->checkpoint;
  const AuditFault& first = report->faults.front();
  return Error{
      code,
      "what was written is not sound: " + first.where + ", entry " + std::to_string(first.entry) + ": " +
          first.what,
      in_file(as),
      "`audit verify` says whether the ledger itself is; if it is, try again, and look after the disk"};
}

Result<std::string> keep_beside(const std::string& path, std::int64_t version) {
  const std::string name = path + ".version-" + std::to_string(version);
  std::string file = name + ".backup";
  std::error_code ignored;
  for (int number = 2; std::filesystem::exists(file, ignored); ++number)
    file = name + "-" + std::to_string(number) + ".backup";
  Draft draft(file);
  if (auto begun = draft.begin(); !begun) return begun.errors();
  if (auto copied = copy_ledger(path, draft.path(), file); !copied) return copied.errors();
  if (auto placed = draft.put_in_place(); !placed) return placed.errors();
  return file;
}

}  // namespace ledger
