#include "system/files.h"

#include <catch2/catch.hpp>
#include <filesystem>

#include "support/temporary_unit.h"

namespace fs = std::filesystem;

TEST_CASE("a file is written whole or not at all", "[cli]") {
  const support::TemporaryFolder folder;
  const fs::path path = folder.file("list.csv");
  support::write_file(path, "old");

  SECTION("the new bytes take the old one's place and leave no draft") {
    REQUIRE(cli::write_atomically(path, "new"));
    CHECK(support::read_text(path) == "new");
    CHECK(std::distance(fs::directory_iterator(path.parent_path()), {}) == 1);
  }
  SECTION("where it cannot be written, the error names it") {
    const auto written = cli::write_atomically("/nowhere/list.csv", "new");
    REQUIRE_FALSE(written);
    CHECK(written.errors().front().message ==
          "`/nowhere/list.csv` cannot be written: no such file or directory");
  }
}

TEST_CASE("a moved file overwrites nothing", "[cli]") {
  const support::TemporaryFolder folder;
  fs::create_directory(folder.file("done"));
  for (const char* name : {"a.json", "a.json.2", "a.json.3"}) {
    support::write_file(folder.file("a.json"), name);
    const auto moved = cli::move_into(folder.file("a.json"), folder.file("done"));
    REQUIRE(moved);
    REQUIRE(*moved);
    CHECK((*moved)->filename() == name);
    CHECK(support::read_text(**moved) == name);
  }
}

TEST_CASE("a file that another process took is no fault", "[cli]") {
  const support::TemporaryFolder folder;
  fs::create_directory(folder.file("done"));
  const auto moved = cli::move_into(folder.file("gone.json"), folder.file("done"));
  REQUIRE(moved);
  CHECK_FALSE(moved->has_value());
}

TEST_CASE("files come by name, without folders and without drafts", "[cli]") {
  const support::TemporaryFolder folder;
  for (const char* name : {"b.json", "a.json", ".draft"}) support::write_file(folder.file(name), "");
  fs::create_directory(folder.file("done"));
  const auto files = cli::files_in(fs::path(folder.file("b.json")).parent_path());
  REQUIRE(files);
  REQUIRE(files->size() == 2);
  CHECK((*files)[0].filename() == "a.json");
  CHECK((*files)[1].filename() == "b.json");
}
