#include <csignal>
#include <filesystem>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <sstream>
#include <thread>

#include "support/records.h"
#include "support/temporary_unit.h"

namespace fs = std::filesystem;
using nlohmann::json;
using support::a_lesion;
using support::a_record;
using support::Finished;
using support::TemporaryUnit;

namespace {

struct InboxUnit : TemporaryUnit {
  std::string inbox = folder.file("inbox");

  void put(const std::string& name, const std::string& text) const {
    support::write_file(inbox + "/" + name, text);
  }
  Finished serve_once() const { return receive({"serve", "--once", "--inbox", inbox}); }
  bool has(const std::string& name) const { return fs::exists(inbox + "/" + name); }
  json recorded() const { return json::parse(run_today({"unplanned", "--format", "json"}).out)["count"]; }
};

std::string a_line(const std::string& number) {
  return a_record("H" + number, "E" + number, "2026-03-10", {a_lesion("L1", support::tubular_adenoma())})
      .dump();
}

}  // namespace

TEST_CASE("the inbox is emptied and every file is filed", "[cli]") {
  const InboxUnit unit;
  unit.put("a.json", a_line("1"));
  unit.put("b.jsonl", a_line("2") + "\n{\"patient\":{}}\n" + a_line("3"));
  unit.put("c.json", "not json");
  unit.put("d.json.part", a_line("4"));
  const Finished finished = unit.serve_once();
  CHECK(finished.code == 0);
  CHECK(unit.has("done/a.json"));
  CHECK(unit.has("failed/b.jsonl"));
  CHECK(support::read_text(unit.inbox + "/failed/b.jsonl.error.txt").find("error: ") != std::string::npos);
  CHECK(unit.has("failed/c.json.error.txt"));
  CHECK(unit.has("d.json.part"));  // still being written
  CHECK(unit.recorded() == 3);
}

TEST_CASE("a result is told from a record by what it holds", "[cli]") {
  const InboxUnit unit;
  unit.put("a.json", a_record("H1", "E1", "2026-03-10", {a_lesion("L1", nullptr)}).dump());
  unit.serve_once();
  CHECK(unit.recorded() == 0);
  unit.put("b.json", support::a_result("E1", "L1", support::tubular_adenoma()).dump());
  unit.serve_once();
  CHECK(unit.has("done/b.json"));
  CHECK(unit.recorded() == 1);
}

TEST_CASE("a file of a name that was there before overwrites nothing", "[cli]") {
  const InboxUnit unit;
  for (const char* number : {"1", "2"}) {
    unit.put("a.json", a_line(number));
    unit.serve_once();
  }
  CHECK(support::read_text(unit.inbox + "/done/a.json") == a_line("1"));
  CHECK(support::read_text(unit.inbox + "/done/a.json.2") == a_line("2"));
}

TEST_CASE("what was interrupted is worked on again, and entered once", "[cli]") {
  const InboxUnit unit;
  unit.put("a.json", a_line("1"));
  unit.serve_once();
  // As if the machine had stopped between the entry and the filing, and before the entry.
  unit.put("claimed/a.json", a_line("1"));
  unit.put("claimed/b.json", a_line("2"));
  CHECK(unit.serve_once().code == 0);
  CHECK(unit.recorded() == 2);
  CHECK(fs::is_empty(unit.inbox + "/claimed"));
}

TEST_CASE("the log is JSON and names no patient", "[cli]") {
  const InboxUnit unit;
  unit.put("a.json", a_line("1"));
  const Finished finished = unit.serve_once();
  std::istringstream lines(finished.err);
  std::vector<std::string> events;
  for (std::string line; std::getline(lines, line);) {
    if (!line.starts_with("{")) continue;
    const json event = json::parse(line);
    events.push_back(event["event"]);
    CHECK(event["level"] == "info");
  }
  CHECK(events == std::vector<std::string>{"serving", "file received", "swept", "stopped"});
  CHECK(finished.err.find("Example, ") == std::string::npos);
}

TEST_CASE("the daemon takes files as they come and ends cleanly when asked to", "[cli]") {
  const InboxUnit unit;
  fs::create_directories(unit.inbox);
  support::RunningProgram daemon({"serve", "--inbox", unit.inbox, "--every", "10", "--ledger", unit.ledger,
                                  "--rulesets", unit.rulesets, "--ruleset", "test-a", "--today", unit.today});
  unit.put("draft.part", a_line("1"));
  fs::rename(unit.inbox + "/draft.part", unit.inbox + "/a.json");
  for (int i = 0; i < 500 && !unit.has("done/a.json"); ++i)
    std::this_thread::sleep_for(std::chrono::milliseconds(10));
  CHECK(unit.has("done/a.json"));
  daemon.signal(SIGTERM);
  const Finished finished = daemon.finish();
  CHECK(finished.code == 0);
  CHECK(finished.err.find("\"event\":\"stopped\"") != std::string::npos);
}
