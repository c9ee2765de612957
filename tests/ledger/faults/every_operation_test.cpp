// Every operation on a file fails once, in every work that the ledger does: what was answered is there, what
// was not is there as a whole or not at all, the ledger is sound, and the error says what to do.

#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <functional>
#include <set>

#include "ledger/backup.h"
#include "ledger/export.h"
#include "ledger/import.h"
#include "ledger/restore.h"
#include "ledger/signing.h"
#include "support/faulty_vfs.h"
#include "support/places.h"
#include "support/records.h"
#include "support/sqlite.h"
#include "support/verified.h"

namespace fs = std::filesystem;
using namespace support;
using ledger::Ledger;

namespace {

/// What a work answered: the ledger's head when it was done, or its errors.
using Answer = engine::Result<ledger::Checkpoint>;

const FixedClock fixed_clock{"2026-03-20"};
const ledger::Author author{"test", fixed_clock};

/// One thing that the ledger does, on a file that is made ready for it.
struct Work {
  const char* name;
  std::function<void(const std::string& path)> prepare;
  std::function<Answer(const std::string& path)> run;
};

Answer head_of(const Ledger& ledger) {
  return ledger.checkpoint();
}

/// The head after `write` did its work with the ledger.
Answer written(const std::string& path, const std::function<engine::Errors(Ledger&)>& write) {
  auto ledger = Ledger::open(path, Ledger::Access::write);
  if (!ledger) return ledger.errors();
  if (engine::Errors errors = write(*ledger); !errors.empty()) return errors;
  return head_of(*ledger);
}

template <class T>
engine::Errors errors_of(const engine::Result<T>& result) {
  return result ? engine::Errors{} : result.errors();
}

std::string first_record() {
  return a_record("H1", "E1", "2026-03-10", {a_lesion("L1", tubular_adenoma())}).dump();
}

std::string second_record() {
  return a_record("H2", "E2", "2026-03-11", {a_lesion("L1", nullptr)}).dump();
}

engine::Errors receive(Ledger& ledger, const std::string& record) {
  static const ledger::Protocol protocol = small_protocol();
  return errors_of(ledger::record(ledger, author, protocol, record, "test.json"));
}

void begin_ledger(const std::string& path) {
  auto ledger = value_of(Ledger::create(path));
  REQUIRE(receive(ledger, first_record()).empty());
}

Answer append(const std::string& path) {
  return written(path, [](Ledger& ledger) { return errors_of(ledger::issue_checkpoint(ledger, author)); });
}

Answer record(const std::string& path) {
  return written(path, [](Ledger& ledger) { return receive(ledger, second_record()); });
}

Answer sign(const std::string& path) {
  return written(path,
                 [](Ledger& ledger) { return errors_of(ledger::sign(ledger, author, "E1", "Dr Rao", 0)); });
}

const Work works[] = {
    {"append an entry", begin_ledger, append},
    {"record an examination, with its advice", begin_ledger, record},
    {"sign an answer", begin_ledger, sign},
};

/// What tells the person what to do.
void check_words(const engine::Errors& errors) {
  REQUIRE_FALSE(errors.empty());
  for (const engine::Error& error : errors) {
    INFO(engine::text_of(error));
    CHECK_FALSE(error.message.empty());
    CHECK_FALSE(error.help.empty());
    CHECK_FALSE(error.place.source.empty());
  }
}

/// The names in the folder, those of SQLite's own left out.
std::set<std::string> names_in(const TemporaryFolder& folder) {
  std::set<std::string> names;
  for (const auto& entry : fs::directory_iterator(fs::path(folder.file("x")).parent_path())) {
    const std::string name = entry.path().filename().string();
    if (!name.ends_with("-wal") && !name.ends_with("-shm") && !name.ends_with("-journal")) names.insert(name);
  }
  return names;
}

std::vector<Fault> kinds_of_fault() {
  return {{FaultKind::error, 0, false},         {FaultKind::error, 0, true},
          {FaultKind::full, 0, false},          {FaultKind::full, 0, true},
          {FaultKind::short_write, 0, false},   {FaultKind::busy, 0, false},
          {FaultKind::busy, 0, true},           {FaultKind::power_cut, 0, false},
          {FaultKind::torn_power_cut, 0, false}};
}

/// A disk that is full, or writes half, for one write alone gives the work what a fault of that one write
/// gives it.
std::vector<Fault> kinds_that_stop_a_long_work() {
  return {{FaultKind::error, 0, false},     {FaultKind::error, 0, true},
          {FaultKind::full, 0, true},       {FaultKind::busy, 0, true},
          {FaultKind::power_cut, 0, false}, {FaultKind::torn_power_cut, 0, false}};
}

std::string described(const FaultyDisk& disk, const Fault& fault) {
  return std::string(text_of(fault.kind)) + (fault.lasting ? " from operation " : " at operation ") +
         std::to_string(fault.at) + ", " + disk.struck();
}

/// The ledger `path` as it stands in `ready`, whatever was done with it.
void copy_afresh(const std::string& ready, const std::string& path) {
  for (const char* end : {"", "-wal", "-shm"}) fs::remove(path + end);
  fs::copy_file(ready, path);
}

/// Calls `once(fault)` with the fault at operation 1, 2, 3 ... until the work ends before it comes. Gives how
/// often it came. Each call must begin with the same files: a work that finds more of them has more
/// operations, and the end would never come.
std::uint64_t at_every_operation(Fault fault, const std::function<bool(const Fault&)>& once) {
  for (fault.at = 1;; ++fault.at) {
    fault.seed = static_cast<std::uint32_t>(fault.at);
    if (!once(fault)) return fault.at - 1;
  }
}

}  // namespace

TEST_CASE("whatever operation fails, what was answered is there, and the rest as a whole or not at all",
          "[faults][slow]") {
  const Work work = GENERATE(from_range(std::begin(works), std::end(works)));
  const Fault kind = GENERATE(from_range(kinds_of_fault()));
  INFO(work.name);
  TemporaryFolder folder;
  const std::string ready = folder.file("ready");
  work.prepare(ready);
  const ledger::Checkpoint before =
      value_of(value_of(Ledger::open(ready, Ledger::Access::read)).checkpoint());

  FaultyDisk disk;
  const std::string path = folder.file("unit.ledger");
  copy_afresh(ready, path);
  const ledger::Checkpoint whole = value_of(work.run(path));
  REQUIRE(whole.size > before.size);

  std::uint64_t lost = 0;
  const std::uint64_t faults = at_every_operation(kind, [&](const Fault& fault) {
    copy_afresh(ready, path);
    disk.arm(fault);
    const Answer answer = work.run(path);
    const bool has_struck = disk.has_struck();
    disk.mend();
    INFO(described(disk, fault));

    const auto report = value_of(ledger::verify(path, before));
    for (const auto& found : report.faults) UNSCOPED_INFO(found.where << ": " << found.what);
    CHECK(report.faults.empty());
    CHECK((report.checkpoint == before || report.checkpoint == whole));
    if (answer) {
      CHECK(*answer == whole);
      CHECK(report.checkpoint == whole);
    } else {
      check_words(answer.errors());
      lost += report.checkpoint == before ? 1 : 0;
    }
    // Where nothing was written, it can be done again.
    if (report.checkpoint == before) CHECK(value_of(work.run(path)) == whole);
    return has_struck;
  });
  CHECK(faults > 0);
  if (kind.kind != FaultKind::busy || kind.lasting) CHECK(lost > 0);  // else the faults said nothing
}

TEST_CASE("whatever operation fails while tables are made anew, the ledger and its copy are whole",
          "[faults][slow]") {
  const Fault kind = GENERATE(from_range(kinds_that_stop_a_long_work()));
  TemporaryFolder folder;
  const std::string ready = folder.file("ready");
  std::ifstream sql(support::source("tests/ledger/database/version_1.sql"));
  run_sql(ready, std::string(std::istreambuf_iterator<char>(sql), {}));
  const std::string head =
      ask_sql(ready, "SELECT lower(hex(hash)) FROM entries ORDER BY sequence DESC LIMIT 1");
  FaultyDisk disk;
  std::uint64_t refused = 0;
  const std::uint64_t faults = at_every_operation(kind, [&](const Fault& fault) {
    TemporaryFolder own;
    const std::string path = own.file("unit.ledger");
    fs::copy_file(ready, path);
    disk.arm(fault);
    const engine::Errors errors = errors_of(Ledger::open(path, Ledger::Access::write));
    const bool has_struck = disk.has_struck();
    disk.mend();
    INFO(described(disk, fault));
    if (!errors.empty()) {
      check_words(errors);
      ++refused;
    }
    const auto again = value_of(Ledger::open(path, Ledger::Access::read));
    CHECK(value_of(again.checkpoint()).size == 29);
    for (const std::string& name : names_in(own)) {
      INFO(name);
      CHECK_FALSE(name.ends_with(".part"));
      const auto report = value_of(ledger::check_backup(own.file(name), std::nullopt));
      CHECK(report.faults.empty());
      CHECK(engine::hexadecimal(report.checkpoint.head) == head);
      CHECK(report.older_version == (name.ends_with(".backup") ? 1 : 0));
    }
    return has_struck;
  });
  CHECK(faults > 0);
  if (kind.kind != FaultKind::busy || kind.lasting) CHECK(refused > 0);
}

namespace {

/// A work that makes a file from a ledger, and whether that file is what it should be.
struct Making {
  const char* name;
  bool only_reads;  // the ledger; what it writes itself does not go through SQLite
  std::function<engine::Errors(const std::string& ledger, const std::string& file)> make;
  std::function<void(const std::string& file)> check;
};

void check_ledger(const std::string& file) {
  CHECK(value_of(ledger::check_backup(file, std::nullopt)).faults.empty());
}

void check_export(const std::string& file) {
  std::ifstream lines(file);
  std::string last;
  for (std::string line; std::getline(lines, line);) last = line;
  CHECK(last.starts_with("{\"documents\":"));
}

engine::Errors back_up(const std::string& path, const std::string& file) {
  auto ledger = Ledger::open(path, Ledger::Access::write);
  return ledger ? errors_of(ledger::back_up(*ledger, author, file)) : ledger.errors();
}

engine::Errors export_ledger(const std::string& path, const std::string& file) {
  const auto ledger = Ledger::open(path, Ledger::Access::read);
  return ledger ? errors_of(ledger::export_file(*ledger, file)) : ledger.errors();
}

engine::Errors import_ledger(const std::string& path, const std::string& file) {
  std::ifstream lines(path + ".export");
  const auto next = [&]() -> engine::Result<std::optional<std::string>> {
    std::string line;
    if (!std::getline(lines, line)) return std::optional<std::string>{};
    return std::optional(line + "\n");
  };
  return errors_of(ledger::import_lines(file, next, "the export"));
}

engine::Errors restore(const std::string& path, const std::string& file) {
  const auto restored = ledger::restore(path, file, std::nullopt, "");
  if (!restored || restored->report.faults.empty()) return errors_of(restored);
  const ledger::AuditFault& first = restored->report.faults.front();  // nothing was put in place
  return {engine::Error{first.where, first.what, {path, {}, 0, 0, 0, {}}, "as the report of the copy says"}};
}

bool strikes_a_reader(FaultKind kind) {
  return kind == FaultKind::error || kind == FaultKind::busy;
}

const Making makings[] = {
    {"back up", false, back_up, check_ledger},
    {"export", true, export_ledger, check_export},
    {"import", false, import_ledger, check_ledger},
    {"restore", false, restore, check_ledger},
};

}  // namespace

TEST_CASE("whatever operation fails, no copy is half written and the ledger it is made of is whole",
          "[faults][slow]") {
  const Making making = GENERATE(from_range(std::begin(makings), std::end(makings)));
  const Fault kind = GENERATE(from_range(kinds_of_fault()));
  INFO(making.name);
  TemporaryFolder folder;
  const std::string ready = folder.file("ready"), path = folder.file("unit.ledger"),
                    file = folder.file("copy");
  begin_ledger(ready);
  value_of(ledger::export_file(value_of(Ledger::open(ready, Ledger::Access::read)), path + ".export"));
  const ledger::Checkpoint before =
      value_of(value_of(Ledger::open(ready, Ledger::Access::read)).checkpoint());
  FaultyDisk disk;
  std::uint64_t refused = 0;
  const std::uint64_t faults = at_every_operation(kind, [&](const Fault& fault) {
    copy_afresh(ready, path);
    fs::remove(file);
    disk.arm(fault);
    const engine::Errors errors = making.make(path, file);
    const bool has_struck = disk.has_struck();
    disk.mend();
    INFO(described(disk, fault));
    if (!errors.empty()) {
      check_words(errors);
      ++refused;
    }
    CHECK((fs::exists(file) || !errors.empty()));
    if (fs::exists(file)) making.check(file);
    CHECK_FALSE(names_in(folder).contains("copy.part"));
    CHECK(value_of(ledger::verify(path, before)).faults.empty());
    return has_struck;
  });
  CHECK((faults > 0) == (!making.only_reads || strikes_a_reader(kind.kind)));
  if (faults > 0 && (kind.kind == FaultKind::error || kind.lasting)) CHECK(refused > 0);
}
