// dueward import: a new ledger from an export. Idempotent: a ledger that holds it already is not changed.

#include "ledger/import.h"

#include <CLI/CLI.hpp>
#include <fstream>
#include <iostream>
#include <memory>
#include <nlohmann/json.hpp>

#include "commands/commands.h"
#include "engine/canonical.h"
#include "ledger_access.h"
#include "report/layout.h"
#include "system/files.h"

namespace cli {

namespace {

struct ImportOptions : LedgerOptions {
  std::string file;
};

// One line at a time, each with its line feed where it has one.
ledger::ImportSource lines_of(std::istream& stream, const std::string& name) {
  return [&stream, name]() -> engine::Result<std::optional<std::string>> {
    std::string line;
    if (std::getline(stream, line)) {
      if (!stream.eof()) line += '\n';
      return std::optional(std::move(line));
    }
    if (stream.bad()) return system_error("unreadable_file", "cannot be read", name, errno);
    return std::optional<std::string>{};
  };
}

std::string said(const ledger::Imported& imported, const std::string& path) {
  const std::string holds = std::to_string(imported.checkpoint.size) + " entries, " +
                            std::to_string(imported.documents) + " documents";
  if (imported.is_new) return "a new ledger was made: `" + path + "`, " + holds;
  std::string text = "nothing changed: `" + path + "` holds all of it, " + holds;
  if (imported.further > 0) text += ", and " + std::to_string(imported.further) + " entries more";
  return text;
}

ExitCode read_export(const ImportOptions& options) {
  std::ifstream file;
  if (options.file != "-") {
    file.open(options.file, std::ios::binary);
    if (!file)
      fail(ExitCode::unreadable_input,
           system_error("unreadable_file", "cannot be read", options.file, errno));
  }
  const std::string path = ledger_path(options);
  const std::string name = source_name(options.file);
  const auto imported = from_ledger(
      ledger::import_lines(path, lines_of(options.file == "-" ? std::cin : file, options.file), name));
  if (options.json) {
    std::cout << engine::canonical_json({{"checkpoint", ledger::text_of(imported.checkpoint)},
                                         {"documents", imported.documents},
                                         {"new", imported.is_new},
                                         {"further", imported.further}})
              << '\n';
  } else {
    std::cout << wrapped(said(imported, path)) << ledger::text_of(imported.checkpoint) << '\n';
  }
  return ExitCode::done;
}

}  // namespace

void add_import(CLI::App& program, Run& run) {
  const auto options = std::make_shared<ImportOptions>();
  CLI::App* command = program.add_subcommand("import", "A new ledger from an export");
  command->add_option("file", options->file, "The export; - is standard input")
      ->required()
      ->type_name("FILE");
  add_ledger_option(*command, *options);
  add_json_option(*command, *options);
  when_asked(*command, run, [options] { return read_export(*options); });
}

}  // namespace cli
