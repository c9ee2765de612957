// The office's errand with letters: what is owed is listed, made once, shown again, withheld.

#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <regex>
#include <set>
#include <sstream>

#include "report/layout.h"
#include "support/letters.h"
#include "support/records.h"
#include "support/temporary_unit.h"
#include "system/files.h"

namespace fs = std::filesystem;
using nlohmann::json;
using support::a_lesion;
using support::a_record;
using support::Finished;

namespace {

struct LetterUnit : support::TemporaryUnit {
  std::string details = file("unit.json", support::unit_file);
  std::string out = folder.file("letters");

  /// An adenoma, signed: due in 2029.
  void sign(const std::string& number, const std::string& exam, const json& needs = json::array()) const {
    json record = a_record(number, exam, "2026-03-10", {a_lesion("L1", support::tubular_adenoma())});
    record["patient"]["needs"] = needs;
    REQUIRE(receive({"record", file(exam + ".json", record.dump())}).code == 0);
    REQUIRE(run_today({"advice", "sign", exam, "--by", "Dr Rao"}).code == 0);
  }
  Finished make(std::vector<std::string> words) const {
    words.insert(words.begin(), {"letter", "make"});
    words.insert(words.end(), {"--to", out, "--unit", details});
    return run_today(words);
  }
  json owed() const { return json::parse(run_today({"letters", "--format", "json"}).out); }
  std::set<std::string> files() const {
    std::set<std::string> names;
    if (!fs::exists(out)) return names;
    for (const auto& entry : fs::directory_iterator(out)) names.insert(entry.path().filename().string());
    return names;
  }
};

}  // namespace

TEST_CASE("letters that are owed are made once, one file each, and shown again as they went out",
          "[cli][letter]") {
  const LetterUnit unit;
  unit.sign("H1", "E1");
  CHECK(unit.owed()["count"] == 2);
  const Finished made = unit.make({});
  INFO(made.err);
  CHECK(made.code == 0);
  CHECK(made.out.find("2 letters made") != std::string::npos);
  CHECK(made.out.ends_with("local policy decides.\n"));
  CHECK(unit.owed()["count"] == 0);
  const auto files = unit.files();
  REQUIRE(files.size() == 2);
  for (const std::string& name : files) {
    CHECK(std::regex_match(name, std::regex(R"(L\d+-P\d+\.html)")));
    const std::string entry = name.substr(1, name.find('-') - 1);
    const std::string page = support::read_text(unit.out + "/" + name);
    CHECK(page.find("Example") != std::string::npos);
    CHECK(unit.run({"letter", "show", entry}).out == page);
  }
  const Finished again = unit.make({});
  CHECK(again.code == 0);
  CHECK(again.out.find("0 letters made") != std::string::npos);
  CHECK(unit.files() == files);
  CHECK(unit.run({"audit", "verify"}).code == 0);
}

TEST_CASE("a letter is made again only with a reason", "[cli][letter]") {
  const LetterUnit unit;
  unit.sign("H1", "E1");
  unit.make({"--format", "text"});
  const std::vector<std::string> named = {"E1",      "--letter", "result", "--recipient",
                                          "patient", "--format", "text"};
  const Finished refused = unit.make(named);
  CHECK(refused.code == 1);
  CHECK(refused.out.find("went out on 2026-03-20") != std::string::npos);
  std::vector<std::string> with_reason = named;
  with_reason.insert(with_reason.end(), {"--again", "lost in the post"});
  CHECK(unit.make(with_reason).code == 0);
  CHECK(unit.files().size() == 3);
  CHECK(unit.make({"E1"}).code == 2);
  CHECK(unit.make({"--again", "all of them"}).code == 2);
}

TEST_CASE("what cannot be made leaves the rest to be made, and says what a person has to do",
          "[cli][letter]") {
  const LetterUnit unit;
  unit.sign("H1", "E1");
  unit.sign("H2", "E2");
  unit.run_today({"people", "death", "H1", "--on", "2026-03-15"});
  const Finished listed = unit.run_today({"letters"});
  CHECK(listed.out.find("A PERSON FIRST: ") != std::string::npos);
  CHECK(listed.out.find("died on 2026-03-15") != std::string::npos);
  const Finished made = unit.make({});
  CHECK(made.code == 1);
  CHECK(made.out.find("2 letters made") != std::string::npos);
  CHECK(made.out.find("2 not made") != std::string::npos);
  for (const char* recipient : {"patient", "family doctor"}) {
    CHECK(unit.run_today({"letter", "withhold", "E1", "--letter", "result", "--to", recipient, "--reason",
                          "she died"})
              .code == 0);
  }
  CHECK(unit.owed()["count"] == 0);
}

TEST_CASE("letters may be asked for by whom, what and when", "[cli][letter]") {
  const LetterUnit unit;
  unit.sign("H1", "E1");
  unit.sign("H2", "E2");
  CHECK(unit.make({"--from", "2026-03-21"}).out.find("0 letters made") != std::string::npos);
  CHECK(unit.make({"--recipient", "family doctor"}).out.find("2 letters made") != std::string::npos);
  CHECK(unit.make({"E2"}).out.find("1 letter made") != std::string::npos);
  CHECK(unit.owed()["rows"].size() == 1);
  CHECK(unit.owed()["rows"][0]["exam"] == "E1");
}

TEST_CASE("the administrator is told of another language, and large print is made", "[cli][letter]") {
  const LetterUnit unit;
  unit.sign("H1", "E1", {{{"flag", "interpreter: Polish"}}, {{"flag", "large print"}}});
  const Finished made = unit.make({});
  CHECK(made.out.find("the letter is in English") != std::string::npos);
  CHECK(made.out.find("the letter is in large print") != std::string::npos);
  CHECK(made.out.find("interpreter: Polish") != std::string::npos);
  int large = 0;
  for (const std::string& name : unit.files()) {
    if (support::read_text(unit.out + "/" + name).find("class=\"large\"") != std::string::npos) ++large;
  }
  CHECK(large == 1);  // the patient's, not the doctor's
}

TEST_CASE("without a unit, or with a faulty template, nothing is made", "[cli][letter]") {
  const LetterUnit unit;
  unit.sign("H1", "E1");
  const Finished without = unit.run_today({"letter", "make", "--to", unit.out});
  CHECK(without.code == 2);
  CHECK(without.err.find("no unit is named") != std::string::npos);
  const std::string templates = unit.folder.file("templates");
  unit.file("templates/result-patient.html.mustache", "<html lang=\"en\">{{step}}");
  const Finished faulty = unit.make({"--templates", templates});
  CHECK(faulty.code == 3);
  CHECK(faulty.err.find("does not say whom to ring") != std::string::npos);
  CHECK(unit.files().empty());
  CHECK(unit.owed()["count"] == 2);
  CHECK(unit.run({"letter", "check", "--unit", unit.details, "--templates", templates}).code == 2);
}

TEST_CASE("an invitation is owed when the office invites", "[cli][letter]") {
  const LetterUnit unit;
  unit.sign("H1", "E1");
  unit.make({});
  const json due = json::parse(
      unit.run_today({"due", "--from", "2029-01-01", "--to", "2029-12-31", "--format", "json"}).out);
  const std::string recall = due["rows"].at(0)["recall"];
  REQUIRE(unit.run_today({"recall", "invite", recall}).code == 0);
  CHECK(unit.owed()["rows"].at(0)["letter"] == "invitation");
  const Finished made = unit.make({recall, "--format", "text"});
  INFO(made.out);
  CHECK(made.out.find("1 letter made") != std::string::npos);
  const std::string text = unit.run({"letter", "show", made.out.substr(1, made.out.find('-') - 1)}).out;
  CHECK(text.find("due on 10 March 2029") != std::string::npos);
  CHECK(text.find("24 hours") != std::string::npos);
}

TEST_CASE("a folder in which another run is at work is left alone", "[cli][letter]") {
  const LetterUnit unit;
  unit.sign("H1", "E1");
  fs::create_directories(unit.out);
  const auto lock = support::value_of(cli::FolderLock::take(unit.out));
  const Finished made = unit.make({});
  CHECK(made.code == 3);
  CHECK(made.err.find("another process is at work") != std::string::npos);
  CHECK(unit.owed()["count"] == 2);
}

TEST_CASE("what an interrupted run left behind is finished, or taken away when it was never noted",
          "[cli][letter]") {
  const LetterUnit unit;
  unit.sign("H1", "E1");
  unit.make({"--recipient", "patient"});
  const std::string name = *unit.files().begin();
  // As if the program had ended just before the letter got its name, and while it wrote another.
  fs::rename(unit.out + "/" + name, unit.out + "/7-P2-result-patient.html.part");
  support::write_file(unit.out + "/7-P2-result-family-doctor.html.part", "<!DOCTYPE ht");
  support::write_file(unit.out + "/download.part", "someone else's");
  const Finished next = unit.make({"--recipient", "patient"});
  CHECK(next.code == 0);
  CHECK(next.err.find("finished from an interrupted run: " + name) != std::string::npos);
  CHECK(next.err.find("never sent: 7-P2-result-family-doctor.html.part") != std::string::npos);
  CHECK(unit.files() == std::set<std::string>{name, "download.part"});
}

TEST_CASE("the list of letters fits the page and ends with the caution", "[cli][letter]") {
  const LetterUnit unit;
  unit.sign("H1", "E1");
  const Finished listed = unit.run_today({"letters"});
  CHECK(listed.code == 0);
  CHECK(listed.out.ends_with("local policy decides.\n"));
  std::istringstream lines(listed.out);
  for (std::string line; std::getline(lines, line);) CHECK(cli::width_of(line) <= cli::page_width);
  CHECK(unit.run_today({"letters", "--format", "csv"})
            .out.starts_with("letter,recipient,since,says,because,obstacle,recall,person,"));
  CHECK(unit.run_today({"letters", "--format", "html"}).out.find("result") != std::string::npos);
  CHECK(unit.run_today({"due"}).out.find("letters 2") != std::string::npos);
}
