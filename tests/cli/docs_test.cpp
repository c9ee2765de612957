// The pages say what is there: links, paths, codes, commands, named tests, and the examples, which are run.

#include <algorithm>
#include <catch2/catch.hpp>
#include <cctype>
#include <filesystem>
#include <regex>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include "support/places.h"
#include "support/run_program.h"
#include "support/temporary_unit.h"

namespace fs = std::filesystem;
using support::Finished;
using support::read_text;
using support::run_program;

namespace {

const fs::path root = support::source();

std::string page(const std::string& name) {
  return read_text(root / "docs" / name);
}

/// Files of the tree, without what is hidden or built.
std::vector<fs::path> files_of(const fs::path& folder, const std::set<std::string>& extensions) {
  std::vector<fs::path> files;
  for (auto entry = fs::recursive_directory_iterator(folder); entry != fs::recursive_directory_iterator();
       ++entry) {
    if (entry->path().filename().string().starts_with(".")) {
      entry.disable_recursion_pending();
    } else if (entry->is_regular_file() && extensions.contains(entry->path().extension().string())) {
      files.push_back(entry->path());
    }
  }
  std::sort(files.begin(), files.end());
  REQUIRE_FALSE(files.empty());
  return files;
}

/// The first group of every match.
std::vector<std::string> all_in(const std::string& text, const std::string& pattern) {
  const std::regex regex(pattern);
  std::vector<std::string> found;
  for (std::sregex_iterator match(text.begin(), text.end(), regex), end; match != end; ++match) {
    found.push_back((*match)[1]);
  }
  return found;
}

std::set<std::string> set_in(const std::string& text, const std::string& pattern) {
  const std::vector<std::string> found = all_in(text, pattern);
  return {found.begin(), found.end()};
}

/// From the heading that begins with `heading` to the next one of its rank or above.
std::string section(const std::string& text, const std::string& heading) {
  const std::size_t start = text.find("\n" + heading);
  REQUIRE(start != std::string::npos);
  const std::string rank = heading.substr(0, heading.find(' ') + 1);
  return text.substr(start, text.find("\n" + rank, start + 1) - start);
}

/// What stands between the fences that open with ``` and `language`, the first after `from`.
std::string fenced(const std::string& text, const std::string& language, std::size_t from = 0) {
  const std::string opening = "\n```" + language + "\n";
  const std::size_t start = text.find(opening, from);
  REQUIRE(start != std::string::npos);
  const std::size_t first = start + opening.size();
  return text.substr(first, text.find("\n```\n", first) + 1 - first);
}

/// As links write a heading: small letters, no punctuation, hyphens for spaces.
std::string anchor_of(const std::string& heading) {
  std::string anchor;
  for (const char c : heading) {
    if (c == ' ') {
      anchor += '-';
    } else if (std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '-' || c == '_') {
      anchor += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    }
  }
  return anchor;
}

bool has_anchor(const std::string& text, const std::string& wanted) {
  const std::vector<std::string> headings = all_in("\n" + text, "\n#+ ([^\n]+)");
  return std::any_of(headings.begin(), headings.end(),
                     [&](const std::string& heading) { return anchor_of(heading) == wanted; });
}

}  // namespace

TEST_CASE("every link in the pages leads somewhere", "[docs]") {
  for (const fs::path& file : files_of(root, {".md"})) {
    const std::string text = read_text(file);
    for (const std::string& link : all_in(text, R"(\]\(([^)\s]+)\))")) {
      if (link.find("://") != std::string::npos) continue;
      INFO(fs::relative(file, root).string() << " links to " << link);
      const std::size_t hash = link.find('#');
      const fs::path target = hash == 0 ? file : file.parent_path() / link.substr(0, hash);
      const bool exists = fs::exists(target);
      CHECK(exists);
      if (exists && hash != std::string::npos) CHECK(has_anchor(read_text(target), link.substr(hash + 1)));
    }
  }
}

TEST_CASE("every file that a page names is there", "[docs]") {
  const std::string path = R"(`([a-z_]+(?:/[A-Za-z0-9_.-]+)+\.(?:cpp|h|md|sql|dmn|jsonl|sh|py)))";
  std::size_t named = 0;
  for (const fs::path& file : files_of(root, {".md"})) {
    for (const std::string& name : all_in(read_text(file), path)) {
      INFO(fs::relative(file, root).string() << " names " << name);
      const fs::path places[] = {root, root / "engine/src", root / "docs", file.parent_path()};
      CHECK(std::any_of(std::begin(places), std::end(places),
                        [&](const fs::path& place) { return fs::exists(place / name); }));
      ++named;
    }
  }
  CHECK(named > 50);
}

TEST_CASE("every test that the safety page names is there", "[docs]") {
  std::istringstream rows(page("safety.md"));
  std::size_t named = 0;
  for (std::string row; std::getline(rows, row);) {
    const std::regex proof(R"(`(tests/[^`]+)`: |\*([^*]+)\*)");
    std::string source;
    for (std::sregex_iterator match(row.begin(), row.end(), proof), end; match != end; ++match) {
      if ((*match)[1].matched) {
        source = read_text(root / (*match)[1].str());
        continue;
      }
      INFO((*match)[2].str());
      CHECK(source.find("TEST_CASE(\"" + (*match)[2].str() + "\"") != std::string::npos);
      ++named;
    }
  }
  CHECK(named > 40);
}

TEST_CASE("the diagnostics of FEEL and DMN are those of the page, and no others", "[docs]") {
  const std::string noted =
      R"re((?:\b(?:fault|refuse|complain|SyntaxFault|Error error)\s*[({][^;"]*|push_back\(\s*\{\s*)"([a-z][a-z_]*)")re";
  std::set<std::string> in_code;
  for (const char* folder : {"syntax", "evaluate", "builtins", "model"}) {
    for (const fs::path& file : files_of(root / "engine/src" / folder, {".cpp", ".h"})) {
      in_code.merge(set_in(read_text(file), noted));
    }
  }
  const std::string codes = section(page("feel.md"), "## 17.");
  std::set<std::string> on_page;
  for (const std::string& cell : all_in(codes, "\n\\| ((?:`[a-z_]+`(?:, )?)+) \\|"))
    on_page.merge(set_in(cell, "`([a-z_]+)`"));
  CHECK(on_page == in_code);
}

TEST_CASE("the built-in functions are those of the page, and no others", "[docs]") {
  std::set<std::string> in_code;
  for (const fs::path& file : files_of(root / "engine/src/builtins", {".cpp"})) {
    in_code.merge(set_in(read_text(file), "\n *\\{\"([a-z][a-z ]*)\",\\s+[a-z]"));
  }
  const std::string functions = section(page("feel.md"), "## 12.");
  std::set<std::string> on_page;
  for (const std::string& cell : all_in(functions, "\n\\| [a-z]+ \\| ([^|]+) \\|"))
    on_page.merge(set_in(cell, "`([^`]+)`"));
  CHECK(on_page == in_code);
}

TEST_CASE("every command of the program is on its page", "[docs]") {
  const std::string text = page("cli.md");
  const auto commands_of = [](const std::vector<std::string>& words) {
    const std::string help = run_program(words).out;
    return all_in(help.substr(help.find("Subcommands:")), "\n  ([a-z-]+) ");
  };
  for (const std::string& command : commands_of({"--help"})) {
    INFO(command);
    CHECK(std::regex_search(text, std::regex("`" + command + "[ `]")));
  }
  for (const char* group : {"rulesets", "advice", "audit", "letter"}) {
    for (const std::string& command : commands_of({group, "--help"})) {
      INFO(group << " " << command);
      CHECK(std::regex_search(text, std::regex("`" + std::string(group) + " " + command + "[ `]")));
    }
  }
  for (const std::string& move : commands_of({"recall", "--help"})) {
    INFO(move);
    CHECK(text.find("`" + move + "`") != std::string::npos);
  }
}

TEST_CASE("the example record is answered as it stands", "[docs]") {
  const Finished finished = run_program({"advise", "--ruleset", "uk-2020", "--today", "2026-03-20", "--json"},
                                        fenced(page("record-format.md"), "json"));
  INFO(finished.err);
  CHECK(finished.code == 0);
  CHECK(finished.out.find(R"("state":"awaiting pathology")") != std::string::npos);
}

TEST_CASE("the refused example is refused in the words of the page", "[docs]") {
  const std::string refusal = section(page("record-format.md"), "## Refusal");
  const std::vector<std::string> record = all_in(refusal, "From `([^`]+)`");
  REQUIRE(record.size() == 1);
  const Finished finished = run_program({"advise", "--ruleset", "uk-2020"}, record[0]);
  CHECK(finished.code == 1);
  CHECK((finished.out + finished.err).find(fenced(refusal, "")) != std::string::npos);
}

// Outside check: sha256sum of GNU coreutils gave the digest on the page.
TEST_CASE("the digest of the small record is the one of the page", "[docs]") {
  const std::string digests = section(page("record-format.md"), "## Canonical form");
  const std::vector<std::string> record = all_in(digests, R"(The record `([^`]+)`)");
  const std::vector<std::string> digest = all_in(digests, "\n([0-9a-f]{64})  -");
  REQUIRE(record.size() == 1);
  REQUIRE(digest.size() == 1);
  const Finished finished = run_program({"advise", "--ruleset", "uk-2020", "--json"}, record[0]);
  CHECK(finished.out.find("\"record\":\"sha256:" + digest[0] + "\"") != std::string::npos);
}
