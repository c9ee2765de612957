// An export holds everything, and a ledger made of it is the same ledger.

#include "ledger/export.h"

#include <sys/stat.h>

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "export_format.h"
#include "ledger/accounts.h"
#include "ledger/chain.h"
#include "ledger/import.h"
#include "ledger/signing.h"
#include "support/records.h"
#include "support/shell.h"
#include "support/sqlite.h"
#include "support/verified.h"

namespace fs = std::filesystem;
using namespace support;
using ledger::Ledger;

namespace {

/// Entries of many kinds, and documents: two rulesets, records, a result, one that is no UTF-8, and one
/// twice.
void tell_a_story(TemporaryLedger& unit) {
  unit.record(a_record("H1", "E1", "2026-03-10", {a_lesion("L1", nullptr)}));
  unit.result(a_result("E1", "L1", tubular_adenoma()));
  value_of(ledger::sign(unit.ledger, unit.author, "E1", "Dr Rao", 0));
  for (const char* given : {"no record \xff\xfe\n", "no record either \" \x01\n", "{}"})
    value_of(ledger::record(unit.ledger, unit.author, unit.protocol, given, "letter from Mr T\xc3\xa9st"));
  value_of(ledger::issue_checkpoint(unit.ledger, unit.author));
}

std::string exported(const Ledger& ledger) {
  std::string text;
  value_of(ledger::export_lines(ledger, [&](const std::string& line) -> engine::Result<engine::Done> {
    text += line;
    return engine::Done{};
  }));
  return text;
}

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream stream(text);
  for (std::string line; std::getline(stream, line);) lines.push_back(line + "\n");
  return lines;
}

std::string joined(const std::vector<std::string>& lines) {
  std::string text;
  for (const std::string& line : lines) text += line;
  return text;
}

engine::Result<ledger::Imported> imported(const std::string& path, const std::string& text) {
  std::size_t at = 0;
  const auto next = [&]() -> engine::Result<std::optional<std::string>> {
    if (at == text.size()) return std::optional<std::string>{};
    const std::size_t end = std::min(text.find('\n', at), text.size() - 1) + 1;
    std::string line = text.substr(at, end - at);
    at = end;
    return std::optional(std::move(line));
  };
  return ledger::import_lines(path, next, "unit.export");
}

bool is_free(const std::string& path) {
  for (const char* end :
       {"", "-wal", "-shm", "-journal", ".part", ".part-wal", ".part-shm", ".part-journal"}) {
    if (fs::exists(path + end)) return false;
  }
  return true;
}

}  // namespace

TEST_CASE("a ledger made of an export is the same ledger, and its export is the same bytes", "[export]") {
  TemporaryLedger unit;
  tell_a_story(unit);
  const std::string text = exported(unit.ledger);
  const std::string copy = unit.folder.file("copy.ledger");
  const auto made = value_of(imported(copy, text));
  CHECK(made.is_new);
  CHECK(made.checkpoint == value_of(unit.ledger.checkpoint()));
  CHECK(std::to_string(made.documents) == ask_sql(unit.path, "SELECT count(*) FROM documents"));
  CHECK(faults_of(copy).empty());
  const auto opened = value_of(Ledger::open(copy, Ledger::Access::write));
  CHECK(value_of(opened.checkpoint()) == made.checkpoint);
  CHECK(exported(opened) == text);
  CHECK(value_of(ledger::replay(opened)).faults.empty());
}

TEST_CASE("a ledger without entries is exported and imported too", "[export]") {
  TemporaryLedger unit;
  const std::string text = exported(unit.ledger);
  CHECK(lines_of(text).size() == 2);
  const std::string copy = unit.folder.file("copy.ledger");
  CHECK(value_of(imported(copy, text)).checkpoint.size == 0);
  CHECK(exported(value_of(Ledger::open(copy, Ledger::Access::read))) == text);
}

TEST_CASE("an export holds every entry and every document", "[export]") {
  TemporaryLedger unit;
  tell_a_story(unit);
  std::uint64_t documents = 0, entries = 0, base64 = 0;
  for (const std::string& line : lines_of(exported(unit.ledger))) {
    const auto object = nlohmann::json::parse(line);
    if (object.contains("document")) {
      const std::string digest = object["document"];
      if (object.contains("text")) CHECK(object["text"] == value_of(unit.ledger.document(digest)));
      base64 += object.contains("base64") ? 1 : 0;
      ++documents;
    } else if (object.contains("sequence")) {
      CHECK(object["sequence"] == ++entries);
    }
  }
  CHECK(std::to_string(entries) == ask_sql(unit.path, "SELECT count(*) FROM entries"));
  CHECK(std::to_string(documents) == ask_sql(unit.path, "SELECT count(*) FROM documents"));
  CHECK(base64 == 1);
}

// Outside check: python3 reads the lines and follows the chain with hashlib, by docs/ledger-format.md alone.
TEST_CASE("another program follows the chain and the digests of an export by the page alone", "[export]") {
  if (shell("command -v python3").exit_code != 0) {
    WARN("not checked: there is no python3");
    return;
  }
  TemporaryLedger unit;
  tell_a_story(unit);
  const std::string file = unit.folder.file("unit.export"), script = unit.folder.file("follow.py");
  value_of(ledger::export_file(unit.ledger, file));
  std::ofstream(script) << R"py(
import base64, hashlib, json, sys
previous, size, documents = bytes(32), 0, set()
lines = [json.loads(line) for line in open(sys.argv[1], encoding="utf-8")]
assert lines[0] == {"format": "dueward export", "version": 1}
for line in lines[1:-1]:
    if "document" in line:
        kept = line["text"].encode() if "text" in line else base64.b64decode(line["base64"])
        assert line["document"] == "sha256:" + hashlib.sha256(kept).hexdigest()
        documents.add(line["document"])
        continue
    size += 1
    assert line["sequence"] == size and line["previous"] == "sha256:" + previous.hex()
    if "document" in line["body"]: assert line["body"]["document"] in documents
    said = {key: line[key] for key in ("actor", "at", "body", "kind", "subject")}
    payload = json.dumps(said, sort_keys=True, separators=(",", ":"), ensure_ascii=False).encode()
    previous = hashlib.sha256(b"\0" + previous + size.to_bytes(8, "big") + payload).digest()
    assert line["hash"] == "sha256:" + previous.hex()
assert lines[-1] == {"documents": len(documents), "head": "sha256:" + previous.hex(), "size": size}
print(size, "sha256:" + previous.hex())
)py";
  const auto followed = shell("python3 '" + script + "' '" + file + "' 2>&1");
  INFO(followed.printed);
  CHECK(followed.exit_code == 0);
  CHECK(followed.printed == ledger::text_of(value_of(unit.ledger.checkpoint())) + "\n");
}

TEST_CASE("the export of a longer ledger begins with that of the shorter one, but its last line",
          "[export]") {
  TemporaryLedger unit;
  tell_a_story(unit);
  auto shorter = lines_of(exported(unit.ledger));
  unit.record(a_record("H2", "E2", "2026-03-11", {}));
  const auto longer = lines_of(exported(unit.ledger));
  shorter.pop_back();
  REQUIRE(longer.size() > shorter.size());
  CHECK(std::equal(shorter.begin(), shorter.end(), longer.begin()));
}

TEST_CASE("an export into a file is private, whole, and never over another file", "[export]") {
  TemporaryLedger unit;
  tell_a_story(unit);
  const std::string file = unit.folder.file("unit.export");
  CHECK(value_of(ledger::export_file(unit.ledger, file)) == value_of(unit.ledger.checkpoint()));
  std::stringstream text;
  text << std::ifstream(file).rdbuf();
  CHECK(text.str() == exported(unit.ledger));
  struct stat status {};
  REQUIRE(::stat(file.c_str(), &status) == 0);
  CHECK((status.st_mode & 0777) == 0600);
  CHECK_FALSE(fs::exists(file + ".part"));
  CHECK(code_of(ledger::export_file(unit.ledger, file)) == "file_exists");
  CHECK(code_of(ledger::export_file(unit.ledger, unit.folder.file("no-such-folder/x"))) ==
        "file_not_written");
}

TEST_CASE("a sink that takes no more ends the export with its own error", "[export]") {
  TemporaryLedger unit;
  tell_a_story(unit);
  int taken = 0;
  const auto ended =
      ledger::export_lines(unit.ledger, [&](const std::string&) -> engine::Result<engine::Done> {
        if (++taken == 3) return engine::Error{"of_the_sink", "no more", {}, ""};
        return engine::Done{};
      });
  CHECK(code_of(ended) == "of_the_sink");
  CHECK(taken == 3);
}

TEST_CASE("a ledger that is not sound gives no export, and the entry is named", "[export]") {
  struct Row {
    const char* because;
    const char* sql;
    const char* words;
  };
  const auto row = GENERATE(values<Row>({
      {"an altered entry",
       "DROP TRIGGER entries_are_never_changed; UPDATE entries SET actor = 'x' WHERE sequence = 3",
       "entry 3: the hash does not fit what the entry says"},
      {"an altered document",
       "DROP TRIGGER documents_are_never_changed; UPDATE documents SET bytes = CAST('x' AS BLOB) WHERE "
       "digest ="
       " (SELECT json_extract(body, '$.document') FROM entries WHERE sequence = 1)",
       "entry 1: the bytes kept under `sha256:"},
      {"a document that is gone",
       "DROP TRIGGER documents_are_never_deleted; DELETE FROM documents WHERE digest ="
       " (SELECT json_extract(body, '$.document') FROM entries WHERE sequence = 3)",
       "entry 3: the document `sha256:"},
      {"a document that was slipped in", "INSERT INTO documents VALUES ('sha256:00', x'00')",
       "it keeps documents that no entry names"},
  }));
  INFO(row.because);
  TemporaryLedger unit;
  tell_a_story(unit);
  run_sql(unit.path, row.sql);
  const std::string file = unit.folder.file("unit.export");
  const auto refused = ledger::export_file(unit.ledger, file);
  REQUIRE(code_of(refused) == "ledger_not_sound");
  CHECK_THAT(refused.errors().front().message, Catch::Matchers::Contains(row.words));
  CHECK(is_free(file));
}

TEST_CASE("importing the same again changes nothing, and says what the ledger has beyond it", "[export]") {
  TemporaryLedger unit;
  tell_a_story(unit);
  const std::string text = exported(unit.ledger);
  const auto again = value_of(imported(unit.path, text));
  CHECK_FALSE(again.is_new);
  CHECK(again.further == 0);
  CHECK(again.checkpoint == value_of(unit.ledger.checkpoint()));
  unit.record(a_record("H2", "E2", "2026-03-11", {}));
  const auto older = value_of(imported(unit.path, text));
  CHECK(older.checkpoint == again.checkpoint);
  CHECK(older.documents == again.documents);
  CHECK(older.further == value_of(unit.ledger.checkpoint()).size - again.checkpoint.size);
  CHECK(faults_of(unit.path).empty());
}

TEST_CASE("a ledger that is there is never written to by an import", "[export]") {
  TemporaryLedger unit, other;
  tell_a_story(unit);
  const std::string shorter = exported(unit.ledger);
  const std::string copy = unit.folder.file("copy.ledger");
  value_of(imported(copy, shorter));
  unit.record(a_record("H2", "E2", "2026-03-11", {}));
  other.record(a_record("H9", "E9", "2026-03-11", {}));
  const auto before = value_of(value_of(Ledger::open(copy, Ledger::Access::read)).checkpoint());

  const auto longer = imported(copy, exported(unit.ledger));
  REQUIRE(code_of(longer) == "export_is_longer");
  CHECK(longer.errors().front().message == "the export goes on where the ledger `" + copy +
                                               "` ends, after entry " + std::to_string(before.size));
  const auto different = imported(copy, exported(other.ledger));
  REQUIRE(code_of(different) == "another_ledger");
  CHECK(different.errors().front().place.line > 1);
  CHECK(code_of(imported(copy, joined({lines_of(shorter).front()}))) == "export_cut");
  CHECK(code_of(imported(copy, shorter + "{}\n")) == "export_altered");
  CHECK(code_of(imported(copy, "{}\n")) == "not_an_export");
  CHECK(value_of(value_of(Ledger::open(copy, Ledger::Access::read)).checkpoint()) == before);
  CHECK(exported(value_of(Ledger::open(copy, Ledger::Access::read))) == shorter);

  const std::string letter = unit.folder.file("letter");
  std::ofstream(letter)
      << "a letter, and no database at all, long enough to be looked at by anyone who cares to";
  CHECK(code_of(imported(letter, shorter)) == "not_a_ledger");
}

namespace {

/// The first line that has `mark` in it, after `from`.
std::size_t line_with(const std::vector<std::string>& lines, const std::string& mark, std::size_t from = 0) {
  for (std::size_t i = from; i < lines.size(); ++i) {
    if (lines[i].find(mark) != std::string::npos) return i;
  }
  FAIL("no line has " << mark);
  return 0;
}

void replace_in(std::string& line, const std::string& before, const std::string& after) {
  const std::size_t at = line.find(before);
  REQUIRE(at != std::string::npos);
  line.replace(at, before.size(), after);
}

using Lines = std::vector<std::string>;

/// Alters the export, and gives the line, from 1, that is to be named.
struct Alteration {
  const char* because;
  std::size_t (*alter)(Lines& lines);
  const char* code;
  const char* words;
};

std::size_t swap_lines(Lines& lines, std::size_t one) {
  std::swap(lines[one], lines[one + 1]);
  return one + 1;
}

const Alteration alterations[] = {
    {"another program's file",
     [](Lines& lines) -> std::size_t {
       lines[0] = "{\"a\":1}\n";
       return 1;
     },
     "not_an_export", "the file is not an export of a ledger"},
    {"a version that is not known",
     [](Lines& lines) -> std::size_t {
       replace_in(lines[0], ":1}", ":2}");
       return 1;
     },
     "newer_export", "the export is of version 2; this program knows version 1"},
    {"an actor",
     [](Lines& lines) -> std::size_t {
       const std::size_t at = line_with(lines, "\"sequence\":3,");
       replace_in(lines[at], "\"actor\":\"test\"", "\"actor\":\"else\"");
       return at + 1;
     },
     "export_altered", "entry 3 does not say what was hashed: as `hash`, `sha256:"},
    {"a body",
     [](Lines& lines) -> std::size_t {
       const std::size_t at = line_with(lines, "\"kind\":\"advice signed\"");
       replace_in(lines[at], "Dr Rao", "Dr Roe");
       return at + 1;
     },
     "export_altered", "does not say what was hashed"},
    {"a document",
     [](Lines& lines) -> std::size_t {
       const std::size_t at = line_with(lines, "\"text\":");
       replace_in(lines[at], "Made for tests", "Made for tasks");
       return at + 1;
     },
     "export_altered", "the document is not the one that was kept: as its digest, `sha256:"},
    {"bytes that are no text",
     [](Lines& lines) -> std::size_t {
       const std::size_t at = line_with(lines, "\"base64\":\"");
       replace_in(lines[at], "\"base64\":\"bm", "\"base64\":\"bn");
       return at + 1;
     },
     "export_altered", "the document is not the one that was kept"},
    {"text that would be written as base64, and is no base64",
     [](Lines& lines) -> std::size_t {
       const std::size_t at = line_with(lines, "\"base64\":\"");
       replace_in(lines[at], "\"base64\":\"bm", "\"base64\":\"-m");
       return at + 1;
     },
     "not_an_export_line", "`base64` is no base64"},
    {"an entry that is left out",
     [](Lines& lines) -> std::size_t {
       const std::size_t at = line_with(lines, "\"sequence\":4,");
       lines.erase(lines.begin() + static_cast<std::ptrdiff_t>(at));
       return at + 1;
     },
     "export_altered", "of the entries, `5` was read and `4` expected"},
    {"two entries that changed places",
     [](Lines& lines) { return swap_lines(lines, line_with(lines, "\"sequence\":4,")); }, "export_altered",
     "of the entries, `5` was read and `4` expected"},
    {"a link",
     [](Lines& lines) -> std::size_t {
       const std::size_t at = line_with(lines, "\"sequence\":2,");
       const std::size_t link = lines[at].find("\"previous\":\"sha256:") + 19;
       lines[at][link] = lines[at][link] == '0' ? '1' : '0';
       return at + 1;
     },
     "export_altered", "entry 2 does not link to the one before"},
    {"a document that is left out",
     [](Lines& lines) -> std::size_t {
       const std::size_t at = line_with(lines, "\"document\":\"sha256:");
       lines.erase(lines.begin() + static_cast<std::ptrdiff_t>(at));
       return at + 1;
     },
     "export_altered", "was expected before entry 1, which names it"},
    {"a document that comes twice",
     [](Lines& lines) -> std::size_t {
       const std::size_t at = line_with(lines, "\"text\":");
       lines.insert(lines.end() - 1, lines[at]);
       return lines.size() - 1;
     },
     "export_altered", "came on a line before"},
    {"a document that nothing names",
     [](Lines& lines) -> std::size_t {
       lines.insert(
           lines.end() - 1,
           "{\"document\":\"sha256:2d711642b726b04401627ca9fbac32f5c8530fb1903cc4db02258717921a4881\","
           "\"text\":\"x\"}\n");
       return lines.size();
     },
     "export_altered", "no entry names the document `sha256:2d711642"},
    {"a document before another entry",
     [](Lines& lines) -> std::size_t {
       const std::size_t at = line_with(lines, "\"sequence\":5,");
       lines.insert(
           lines.begin() + static_cast<std::ptrdiff_t>(at),
           "{\"document\":\"sha256:2d711642b726b04401627ca9fbac32f5c8530fb1903cc4db02258717921a4881\","
           "\"text\":\"x\"}\n");
       return at + 2;
     },
     "export_altered", "entry 5 does not name the document `sha256:2d711642"},
    {"keys in another order",
     [](Lines& lines) -> std::size_t {
       const std::size_t at = line_with(lines, "\"sequence\":2,");
       lines[at] = nlohmann::json::parse(lines[at]).dump(1) + "\n";
       std::erase(lines[at], '\n');
       lines[at] += "\n";
       return at + 1;
     },
     "not_an_export_line", "the line is not in the one form of an export: from byte 2 on"},
    {"a key more",
     [](Lines& lines) -> std::size_t {
       const std::size_t at = line_with(lines, "\"sequence\":2,");
       replace_in(lines[at], "{\"actor\"", "{\"aaa\":1,\"actor\"");
       return at + 1;
     },
     "not_an_export_line", "the line is not in the one form of an export"},
    {"a key less",
     [](Lines& lines) -> std::size_t {
       const std::size_t at = line_with(lines, "\"sequence\":2,");
       replace_in(lines[at], "{\"actor\":\"test\",", "{");
       return at + 1;
     },
     "not_an_export_line", "the line lacks something"},
    {"a hash of another form",
     [](Lines& lines) -> std::size_t {
       const std::size_t at = line_with(lines, "\"sequence\":2,");
       replace_in(lines[at], "\"hash\":\"sha256:", "\"hash\":\"sha256;");
       return at + 1;
     },
     "not_an_export_line", "expected `sha256:` and 64 hexadecimal digits"},
    {"a line that is no JSON",
     [](Lines& lines) -> std::size_t {
       lines[2] = "and so on\n";
       return 3;
     },
     "not_an_export_line", "the line is no JSON object"},
    {"an empty line",
     [](Lines& lines) -> std::size_t {
       lines.insert(lines.begin() + 2, "\n");
       return 3;
     },
     "not_an_export_line", "the line is no JSON object"},
    {"the size on the last line",
     [](Lines& lines) -> std::size_t {
       replace_in(lines.back(), "\"size\":", "\"size\":1");
       return lines.size();
     },
     "export_altered", "the last line is not that of the entries before it"},
    {"the number of documents on the last line",
     [](Lines& lines) -> std::size_t {
       replace_in(lines.back(), "{\"documents\":", "{\"documents\":1");
       return lines.size();
     },
     "export_altered", "the last line is not that of the documents before it"},
    {"something after the last line",
     [](Lines& lines) -> std::size_t {
       lines.push_back("{}\n");
       return lines.size();
     },
     "export_altered", "the export ended on a line before this one"},
};

}  // namespace

TEST_CASE("an export that was altered is refused with its line, and nothing is left", "[export]") {
  const Alteration row = GENERATE(from_range(std::begin(alterations), std::end(alterations)));
  INFO(row.because);
  TemporaryLedger unit;
  tell_a_story(unit);
  Lines lines = lines_of(exported(unit.ledger));
  const std::size_t line = row.alter(lines);
  const std::string copy = unit.folder.file("copy.ledger");
  const auto refused = imported(copy, joined(lines));
  REQUIRE_FALSE(refused);
  const engine::Error& error = refused.errors().front();
  INFO(engine::text_of(error));
  CHECK(error.code == row.code);
  CHECK_THAT(error.message, Catch::Matchers::Contains(row.words));
  CHECK(error.place.source == "unit.export");
  CHECK(error.place.line == line);
  CHECK_FALSE(error.help.empty());
  CHECK(is_free(copy));
}

TEST_CASE("an export that was cut anywhere is refused, and nothing is left", "[export][slow]") {
  TemporaryLedger unit;
  tell_a_story(unit);
  const std::string text = exported(unit.ledger);
  const std::string copy = unit.folder.file("copy.ledger");
  // Every length around the ends of lines, and every 97th between.
  for (std::size_t length = 0; length < text.size(); ++length) {
    const bool near_an_end =
        text.substr(length, 2).find('\n') != std::string::npos || (length > 0 && text[length - 1] == '\n');
    if (!near_an_end && length % 97 != 0) continue;
    INFO(length << " of " << text.size() << " bytes");
    const auto refused = imported(copy, text.substr(0, length));
    REQUIRE_FALSE(refused);
    const std::string code = refused.errors().front().code;
    CHECK((code == "export_cut" || code == "not_an_export_line" || code == "not_an_export"));
    CHECK(refused.errors().front().place.line > 0);
    CHECK(is_free(copy));
  }
}

TEST_CASE("any changed byte of an export is found out", "[export][slow]") {
  TemporaryLedger unit;
  value_of(ledger::issue_checkpoint(unit.ledger, unit.author));
  value_of(ledger::record(unit.ledger, unit.author, unit.protocol, "no record", "x"));
  value_of(ledger::record(unit.ledger, unit.author, unit.protocol, "no \xff record", "x"));
  const std::string text = exported(unit.ledger);
  const std::string copy = unit.folder.file("copy.ledger");
  for (std::size_t at = 0; at < text.size(); ++at) {
    std::string changed = text;
    changed[at] = static_cast<char>(changed[at] ^ (1 << (at % 8)));
    if (imported(copy, changed))
      FAIL_CHECK("byte " << at << ", `" << text.substr(at, 30) << "`, is not found out");
    if (!is_free(copy)) FAIL("byte " << at << ": something is left");
  }
}

TEST_CASE("what an account might not write is not imported", "[export]") {
  TemporaryLedger unit;
  const ledger::Author consultant{"rao", unit.clock};
  value_of(ledger::name_account(unit.ledger, consultant, {"rao", "Dr Rao", ledger::Role::consultant},
                                "the first"));
  // Past the program: the right hash for what no one may write.
  ledger::Entry forged{2,
                       "2026-03-20T09:00:00.000Z",
                       "stranger",
                       "checkpoint",
                       "ledger",
                       R"({"head":"sha256:00","size":1})",
                       value_of(unit.ledger.checkpoint()).head,
                       {}};
  forged.hash = ledger::hash_of(forged);
  Lines lines = lines_of(exported(unit.ledger));
  lines.insert(lines.end() - 1, ledger::line_of(forged));
  lines.back() = ledger::line_of(ledger::EndOfExport{0, {2, forged.hash}});
  const auto refused = imported(unit.folder.file("copy.ledger"), joined(lines));
  REQUIRE(code_of(refused) == "export_altered");
  CHECK(refused.errors().front().place.line == 3);
  CHECK_THAT(refused.errors().front().message, Catch::Matchers::StartsWith("entry 2: "));
}

TEST_CASE("a kind of entry that is not known is of a newer program", "[export]") {
  TemporaryLedger unit;
  ledger::Entry next{1, "2026-03-20T09:00:00.000Z", "test", "moon observed", "ledger", "{}", {}, {}};
  next.hash = ledger::hash_of(next);
  const std::string text =
      ledger::header_line() + ledger::line_of(next) + ledger::line_of(ledger::EndOfExport{0, {1, next.hash}});
  const auto refused = imported(unit.folder.file("copy.ledger"), text);
  REQUIRE(code_of(refused) == "newer_export");
  CHECK(refused.errors().front().place.line == 2);
  CHECK(refused.errors().front().help == "use the version of the program that wrote it, or a later one");
}

TEST_CASE("a body that is not what its kind asks for is refused with its line", "[export]") {
  TemporaryLedger unit;
  ledger::Entry entry{1, "2026-03-20T09:00:00.000Z", "test", "recall closed", "recall:R1", "{}", {}, {}};
  entry.hash = ledger::hash_of(entry);
  const std::string text = ledger::header_line() + ledger::line_of(entry) +
                           ledger::line_of(ledger::EndOfExport{0, {1, entry.hash}});
  const auto refused = imported(unit.folder.file("copy.ledger"), text);
  REQUIRE(code_of(refused) == "export_altered");
  CHECK(refused.errors().front().place.line == 2);
  CHECK_THAT(refused.errors().front().message,
             Catch::Matchers::StartsWith("entry 1 is not what its kind asks for: "));
}
