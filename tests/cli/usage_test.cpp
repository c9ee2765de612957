// The command line itself: what it refuses, in which words, and the exit codes.

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "support/temporary_unit.h"

using support::Finished;
using support::run_program;

TEST_CASE("a wrong command line is refused in words that help", "[cli]") {
  struct Row {
    const char* because;
    std::vector<std::string> words;
    const char* error;
  };
  const auto row = GENERATE(values<Row>({
      {"no command",
       {},
       "error: what shall be done is not said\n  help: run `dueward --help` for the list of commands\n"},
      {"a misspelt command",
       {"advize"},
       "error: `dueward` does not know `advize`\n  help: did you mean `advise`?\n"},
      {"a misspelt option",
       {"advise", "--ruleset", "uk-2020", "--todey", "2026-01-01"},
       "error: `dueward advise` does not know `--todey`\n  help: did you mean `--today`?\n"},
      {"an option that is needed",
       {"rulesets", "sign", "uk-2020"},
       "error: `dueward rulesets sign`: --key is required\n  help: run `dueward rulesets sign --help`\n"},
      {"no guideline named",
       {"advise"},
       "error: which guideline the unit follows is not said\n"
       "  help: name it with `--ruleset ID` or `--protocol ID`; `dueward rulesets list` shows what there "
       "is\n"},
      {"a ruleset and a protocol",
       {"advise", "--ruleset", "uk-2020", "--protocol", "uk"},
       "error: `dueward advise`: --ruleset excludes --protocol\n  help: run `dueward advise --help`\n"},
      {"one ruleset to compare",
       {"advise", "--ruleset", "uk-2020", "--compare"},
       "error: `--compare` needs two rulesets at least\n"
       "  help: name them with `--ruleset ID ID` or `--protocol ID`\n"},
      {"a day that does not exist",
       {"advise", "--ruleset", "test-a", "--today", "2026-02-30"},
       "error: --today: `2026-02-30` is no date\n"
       "  help: write a day that exists as YYYY-MM-DD, for example `2026-03-10`\n"},
      {"no ledger named",
       {"due"},
       "error: no ledger is named\n  help: name its file with `--ledger FILE` or in DUEWARD_LEDGER\n"},
      {"a group without a command",
       {"recall"},
       "error: `dueward recall`: a subcommand is required\n  help: run `dueward recall --help`\n"},
  }));
  INFO(row.because);
  const Finished finished = run_program(row.words);
  CHECK(finished.code == 2);
  CHECK(finished.out.empty());
  CHECK(finished.err == row.error);
}

TEST_CASE("with --json the error is JSON", "[cli]") {
  const Finished finished = run_program({"due", "--json"});
  CHECK(finished.code == 2);
  CHECK(nlohmann::json::parse(finished.err)["errors"][0]["code"] == "no_ledger");
}

TEST_CASE("help is no error and names every command", "[cli]") {
  const Finished finished = run_program({"--help"});
  CHECK(finished.code == 0);
  CHECK(finished.err.empty());
  for (const char* command : {"demo",    "advise",  "rulesets",   "record",    "result",   "advice", "recall",
                              "due",     "overdue", "awaiting",   "unplanned", "to-close", "inputs", "settle",
                              "patient", "people",  "letter",   "accounts", "protocol", "backup", "withdraw", "audit",     "serve",    "feel",   "dmn"}) {
    INFO(command);
    CHECK(finished.out.find("\n  " + std::string(command) + " ") != std::string::npos);
  }
}

TEST_CASE("a fault of the machine has its own exit code", "[cli]") {
  const support::TemporaryUnit unit;
  struct Row {
    const char* because;
    std::vector<std::string> words;
    int code;
  };
  const std::string record = unit.file("record.json", "{}");
  const std::vector<Row> rows = {
      {"a file that is not there",
       {"advise", "/nowhere.json", "--ruleset", "test-a", "--rulesets", unit.rulesets},
       3},
      {"a folder of rulesets that is not there",
       {"advise", record, "--ruleset", "test-a", "--rulesets", "/nowhere"},
       3},
      {"an unknown ruleset is wrong usage",
       {"advise", record, "--ruleset", "test-z", "--rulesets", unit.rulesets},
       2},
      {"a ledger that is not there", {"due", "--ledger", "/nowhere/unit.ledger"}, 4},
      {"a file that is no ledger", {"due", "--ledger", record}, 4},
      {"a new ledger in a folder that is not there",
       {"record", record, "--ruleset", "test-a", "--rulesets", unit.rulesets, "--ledger",
        "/nowhere/unit.ledger"},
       4},
      {"an expression that is none", {"feel", "1 +"}, 3},
  };
  for (const Row& row : rows) {
    const Finished finished = run_program(row.words);
    INFO(row.because << ": " << finished.err);
    CHECK(finished.code == row.code);
    CHECK(finished.out.empty());
    CHECK(finished.err.find("error: ") != std::string::npos);
  }
}
