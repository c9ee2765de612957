#include "serve/inbox.h"

#include <nlohmann/json.hpp>
#include <string>
#include <string_view>

#include "ledger/reception.h"
#include "reception.h"
#include "report/errors.h"
#include "system/files.h"
#include "system/log.h"
#include "system/signals.h"

namespace cli {

namespace fs = std::filesystem;
using engine::Done;
using engine::Result;

namespace {

bool is_being_written(const fs::path& file) {
  return file.extension() == ".part" || file.extension() == ".tmp";
}

// A record holds its examination; a result only names it. What is neither is refused as a record.
bool holds_results(std::string_view bytes) {
  nlohmann::json first = nlohmann::json::parse(bytes.substr(0, bytes.find('\n')), nullptr, false);
  if (first.is_discarded()) first = nlohmann::json::parse(bytes, nullptr, false);
  if (!first.is_object() || first.contains("given")) return false;
  const auto exam = first.find("exam");
  return exam == first.end() || !exam->is_object();
}

}  // namespace

Inbox::Inbox(const fs::path& folder)
    : folder_(folder), claimed_(folder / "claimed"), done_(folder / "done"), failed_(folder / "failed") {}

Result<Inbox> Inbox::open(const fs::path& folder) {
  Inbox inbox(folder);
  for (const fs::path& needed : {inbox.claimed_, inbox.done_, inbox.failed_}) {
    const auto made = make_folder(needed);
    if (!made) return made.errors();
  }
  return inbox;
}

Result<Done> Inbox::work(ledger::Ledger& ledger, const ledger::Author& author,
                         const ledger::Protocol& protocol) {
  const auto interrupted = files_in(claimed_);
  if (!interrupted) return interrupted.errors();
  for (const fs::path& file : *interrupted) {
    if (stop_requested()) return Done{};
    const auto entered = enter(file, ledger, author, protocol);
    if (!entered) return entered;
  }
  const auto waiting = files_in(folder_);
  if (!waiting) return waiting.errors();
  for (const fs::path& file : *waiting) {
    if (stop_requested()) return Done{};
    if (is_being_written(file)) continue;
    const auto claimed = move_into(file, claimed_);
    if (!claimed) return claimed.errors();
    if (!*claimed) continue;
    const auto entered = enter(**claimed, ledger, author, protocol);
    if (!entered) return entered;
  }
  return Done{};
}

Result<Done> Inbox::enter(const fs::path& claimed_file, ledger::Ledger& ledger, const ledger::Author& author,
                          const ledger::Protocol& protocol) {
  const std::string name = claimed_file.filename().string();
  const auto bytes = read_file(claimed_file.string());
  if (!bytes)
    return fs::exists(claimed_file) ? file_under_failed(claimed_file, bytes.errors()) : Result<Done>(Done{});

  const Receive receive = holds_results(*bytes) ? ledger::result : ledger::record;
  const auto receipts = receive(ledger, author, protocol, *bytes, name);
  if (!receipts) return receipts.errors();
  engine::Errors refused;
  for (const ledger::Receipt& receipt : *receipts) {
    if (needs_a_person(receipt)) refused.insert(refused.end(), receipt.errors.begin(), receipt.errors.end());
  }
  log_event("file received", {{"file", name}, {"summary", summary_of(name, *receipts)}});
  if (!refused.empty()) return file_under_failed(claimed_file, refused);
  const auto moved = move_into(claimed_file, done_);
  if (!moved) return moved.errors();
  return Done{};
}

// The words go first: a file under failed always has its error beside it.
Result<Done> Inbox::file_under_failed(const fs::path& claimed_file, const engine::Errors& errors) {
  std::string name = claimed_file.filename().string();
  for (int number = 2; fs::exists(failed_ / name); ++number) {
    name = claimed_file.filename().string() + "." + std::to_string(number);
  }
  const auto written = write_atomically(failed_ / (name + ".error.txt"), text_of(errors));
  if (!written) return written;
  log_errors("file failed", errors, {{"file", claimed_file.filename().string()}});
  const auto moved = move_into(claimed_file, failed_);
  if (!moved) return moved.errors();
  return Done{};
}

}  // namespace cli
