// Files and folders that may not be written to, as another user of the machine finds them.

#include <grp.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <catch2/catch.hpp>
#include <filesystem>
#include <functional>

#include "ledger/backup.h"
#include "ledger/export.h"
#include "support/records.h"
#include "support/verified.h"

namespace fs = std::filesystem;
using namespace support;
using ledger::Ledger;

namespace {

/// What `work` answers as a user who is not all-powerful: in a process of its own.
std::string as_another_user(const std::function<std::string()>& work) {
  int answers[2];
  REQUIRE(pipe(answers) == 0);
  const pid_t child = fork();
  if (child == 0) {
    constexpr unsigned nobody = 65534;
    if (geteuid() == 0 && (setgroups(0, nullptr) != 0 || setgid(nobody) != 0 || setuid(nobody) != 0))
      _exit(1);
    const std::string answer = work();
    _exit(write(answers[1], answer.data(), answer.size()) == static_cast<ssize_t>(answer.size()) ? 0 : 1);
  }
  close(answers[1]);
  std::string answer;
  char buffer[1024];
  for (ssize_t size = 0; (size = read(answers[0], buffer, sizeof buffer)) > 0;)
    answer.append(buffer, static_cast<std::size_t>(size));
  close(answers[0]);
  int status = 0;
  waitpid(child, &status, 0);
  REQUIRE((WIFEXITED(status) && WEXITSTATUS(status) == 0));
  return answer;
}

template <class T>
std::string answer_of(const engine::Result<T>& result) {
  if (result) return "done";
  return result.errors().front().help.empty() ? "no help" : result.errors().front().code;
}

std::string folder_of(const TemporaryLedger& unit) {
  return fs::path(unit.path).parent_path().string();
}

/// The folder and what is in it, for everyone; the file with these rights.
void let_in(const TemporaryLedger& unit, mode_t folder, mode_t file) {
  REQUIRE(::chmod(folder_of(unit).c_str(), folder) == 0);
  for (const auto& entry : fs::directory_iterator(folder_of(unit)))
    REQUIRE(::chmod(entry.path().c_str(), file) == 0);
}

void close(TemporaryLedger& unit) {
  static TemporaryFolder elsewhere;
  fs::remove(elsewhere.file("x"));
  unit.ledger = value_of(Ledger::create(elsewhere.file("x")));
}

}  // namespace

TEST_CASE("a ledger that may not be written to says so, and what to do", "[faults]") {
  TemporaryLedger unit;
  unit.record(a_record("H1", "E1", "2026-03-10", {}));
  const auto kept = value_of(unit.ledger.checkpoint());
  close(unit);
  struct Row {
    const char* because;
    mode_t folder, file;
    const char* reading;
    const char* writing;
  };
  const auto row = GENERATE(values<Row>({
      {"all may be written", 0777, 0666, "done", "done"},
      {"the file may only be read", 0777, 0444, "done", "ledger_read_only"},
      {"nothing may be written in the folder", 0555, 0666, "ledger_read_only", "ledger_read_only"},
      {"neither", 0555, 0444, "ledger_read_only", "ledger_read_only"},
      {"the file may not be read", 0777, 0000, "ledger_read_only", "ledger_read_only"},
  }));
  INFO(row.because);
  let_in(unit, row.folder, row.file);
  CHECK(as_another_user([&] { return answer_of(ledger::verify(unit.path, kept)); }) == row.reading);
  CHECK(as_another_user([&] {
          auto opened = Ledger::open(unit.path, Ledger::Access::write);
          return opened ? answer_of(ledger::issue_checkpoint(*opened, unit.author)) : answer_of(opened);
        }) == row.writing);
  let_in(unit, 0700, 0600);
  CHECK(value_of(ledger::verify(unit.path, kept)).faults.empty());
}

TEST_CASE("a backup can be read where nothing may be written", "[faults]") {
  TemporaryLedger unit;
  unit.record(a_record("H1", "E1", "2026-03-10", {}));
  const std::string backup = unit.folder.file("copy");
  value_of(ledger::back_up(unit.ledger, unit.author, backup));
  close(unit);
  let_in(unit, 0555, 0444);
  CHECK(as_another_user([&] { return answer_of(ledger::verify(backup, std::nullopt)); }) == "done");
  let_in(unit, 0700, 0600);
}

TEST_CASE("what cannot be written into a folder says so, and leaves nothing", "[faults]") {
  TemporaryLedger unit;
  unit.record(a_record("H1", "E1", "2026-03-10", {}));
  const std::string shut = unit.folder.file("shut");
  fs::create_directory(shut);
  let_in(unit, 0777, 0666);
  REQUIRE(::chmod(shut.c_str(), 0555) == 0);
  CHECK(as_another_user([&] {
          auto ledger = Ledger::open(unit.path, Ledger::Access::write);
          return answer_of(ledger::back_up(*ledger, unit.author, shut + "/copy")) + " " +
                 answer_of(ledger::export_file(*ledger, shut + "/export")) + " " +
                 answer_of(Ledger::create(shut + "/new"));
        }) == "file_not_written file_not_written ledger_missing");
  CHECK(fs::is_empty(shut));
  let_in(unit, 0700, 0600);
}

TEST_CASE("a new ledger, its log and its copies can be read by their owner alone", "[faults]") {
  const auto rights_of = [](const std::string& path) {
    struct stat status {};
    REQUIRE(::stat(path.c_str(), &status) == 0);
    return status.st_mode & 0777;
  };
  const mode_t mask = GENERATE(mode_t{0}, mode_t{0022}, mode_t{0277});
  const mode_t expected = 0600 & ~mask;
  const mode_t before = ::umask(mask);
  TemporaryFolder folder;
  const std::string path = folder.file("unit.ledger");
  {
    FixedClock clock{"2026-03-20"};
    const ledger::Author author{"test", clock};
    if (geteuid() != 0 && expected != 0600) {
      ::umask(before);
      return;  // who is not all-powerful cannot write what may not be written
    }
    auto ledger = value_of(Ledger::create(path));
    value_of(ledger::issue_checkpoint(ledger, author));
    CHECK(rights_of(path) == expected);
    CHECK(rights_of(path + "-wal") == expected);
    CHECK(rights_of(path + "-shm") == expected);
    value_of(ledger::back_up(ledger, author, folder.file("copy")));
    CHECK(rights_of(folder.file("copy")) == expected);
    value_of(ledger::export_file(ledger, folder.file("export")));
    CHECK(rights_of(folder.file("export")) == expected);
  }
  ::umask(before);
}
