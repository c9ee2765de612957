#include "ledger/import.h"

#include <algorithm>
#include <filesystem>
#include <variant>
#include <vector>

#include "database/connection.h"
#include "database/copy.h"
#include "database/file.h"
#include "database/rights_check.h"
#include "database/store.h"
#include "database/transaction.h"
#include "digest_text.h"
#include "export_format.h"
#include "ledger/chain.h"
#include "ledger/export.h"
#include "ledger/ledger.h"
#include "ledger/new_file.h"
#include "named_documents.h"
#include "places.h"

namespace ledger {

using engine::Done;
using engine::Error;
using engine::Result;
using nlohmann::json;

namespace {

Error altered(std::string message) {
  return {"export_altered",
          std::move(message),
          {},
          "the export was altered, or lines were taken out or moved: take another copy of it"};
}

std::string named(const Entry& entry) {
  return "entry " + std::to_string(entry.sequence);
}

std::string read_and_expected(const std::string& read, const std::string& expected) {
  return "`" + read + "` was read and `" + expected + "` expected";
}

Error more_than_expected() {
  return altered("the export ended on a line before this one, and nothing more was expected");
}

Error cut_after(std::uint64_t entry) {
  return {"export_cut",
          entry == 0 ? std::string("the export holds no entry, and not its last line")
                     : "the export ends after entry " + std::to_string(entry) +
                           "; its last line, with size and head, was expected",
          {},
          "it was cut: take another copy of it, or export again"};
}

/// What is wrong with the entry as the one after `chain`; nothing when it is the next.
std::optional<Error> misfit(const ChainFollower& chain, const Entry& entry) {
  if (entry.sequence != chain.size() + 1) {
    return altered("of the entries, " +
                   read_and_expected(std::to_string(entry.sequence), std::to_string(chain.size() + 1)));
  }
  if (entry.previous != chain.head()) {
    return altered(named(entry) + " does not link to the one before: as `previous`, " +
                   read_and_expected(text_of(entry.previous), text_of(chain.head())));
  }
  if (const engine::Digest hash = hash_of(entry); hash != entry.hash) {
    return altered(named(entry) + " does not say what was hashed: as `hash`, " +
                   read_and_expected(text_of(entry.hash), text_of(hash)));
  }
  return std::nullopt;
}

/// The lines into a ledger without entries, each checked before it goes in.
class Import {
 public:
  explicit Import(Transaction& transaction) : transaction_(transaction) {}

  /// Takes the next line. Errors have no place: the caller knows it.
  Result<Done> take(std::string_view line);
  /// There are no more lines.
  Result<Done> end() const;

  const EndOfExport& totals() const { return totals_; }

 private:
  Result<Done> part(const KeptDocument& document);
  Result<Done> part(const Entry& entry);
  Result<Done> part(const EndOfExport& end);
  Result<Done> check_documents(const Entry& entry, const json& body);
  Result<Done> adopt(const Entry& entry, const json& body);

  Transaction& transaction_;
  ChainFollower chain_;
  std::vector<std::string> waiting_;  // documents since the last entry
  std::uint64_t lines_ = 0, documents_ = 0;
  EndOfExport totals_;
  bool has_ended_ = false;
};

Result<Done> Import::take(std::string_view line) {
  if (++lines_ == 1) return read_header_line(line);
  if (has_ended_) return more_than_expected();
  const auto read = read_export_line(line);
  if (!read) return read.errors();
  return std::visit([&](const auto& found) { return part(found); }, *read);
}

Result<Done> Import::part(const KeptDocument& document) {
  const std::string digest = engine::digest_text(document.bytes);
  if (digest != document.digest)
    return altered("the document is not the one that was kept: as its digest, " +
                   read_and_expected(document.digest, digest));
  if (transaction_.keeps(digest)) return altered("the document `" + digest + "` came on a line before");
  transaction_.keep(document.bytes);
  waiting_.push_back(digest);
  ++documents_;
  return Done{};
}

/// Those that came since the last entry must be those that this one is the first to name, in its order.
Result<Done> Import::check_documents(const Entry& entry, const json& body) {
  std::size_t met = 0;
  for (const std::string& digest : documents_named_in(body)) {
    if (met < waiting_.size() && waiting_[met] == digest) {
      ++met;
    } else if (!transaction_.keeps(digest)) {
      return altered("the document `" + digest + "` was expected before " + named(entry) +
                     ", which names it");
    } else if (std::find(waiting_.begin() + static_cast<std::ptrdiff_t>(met), waiting_.end(), digest) !=
               waiting_.end()) {
      return altered("before " + named(entry) + ", of the documents that it names, " +
                     read_and_expected(waiting_[met], digest));
    }
  }
  if (met < waiting_.size())
    return altered(named(entry) + " does not name the document `" + waiting_[met] + "` that came before it");
  waiting_.clear();
  return Done{};
}

Result<Done> Import::adopt(const Entry& entry, const json& body) {
  const auto kind = kind_of(entry.kind);
  if (!kind) {
    return Error{"newer_export",
                 named(entry) + " is of a kind that this program does not know: `" + entry.kind + "`",
                 {},
                 "use the version of the program that wrote it, or a later one"};
  }
  if (const auto refused = objection(transaction_.connection(), entry.actor, *kind, body))
    return altered(named(entry) + ": " + refused->message);
  transaction_.adopt(entry, *kind, body);
  return Done{};
}

Result<Done> Import::part(const Entry& entry) {
  if (auto wrong = misfit(chain_, entry)) return *wrong;
  chain_.next(entry);
  const json body = json::parse(entry.body);
  if (!body.is_object()) return altered(named(entry) + ": the body is no JSON object");
  try {
    if (auto checked = check_documents(entry, body); !checked) return checked;
    return adopt(entry, body);
  } catch (const json::exception& fault) {
    return altered(named(entry) + " is not what its kind asks for: " + fault.what());
  } catch (const std::invalid_argument& fault) {
    return altered(named(entry) + " is not what its kind asks for: " + fault.what());
  }
}

Result<Done> Import::part(const EndOfExport& end) {
  has_ended_ = true;
  totals_ = end;
  if (!waiting_.empty()) return altered("no entry names the document `" + waiting_.front() + "`");
  const Checkpoint read{chain_.size(), chain_.head()};
  if (end.checkpoint != read) {
    return altered("the last line is not that of the entries before it: " +
                   read_and_expected(text_of(end.checkpoint), text_of(read)));
  }
  if (end.documents != documents_) {
    return altered("the last line is not that of the documents before it: " +
                   read_and_expected(std::to_string(end.documents), std::to_string(documents_)));
  }
  return Done{};
}

Result<Done> Import::end() const {
  if (has_ended_) return Done{};
  return cut_after(chain_.size());
}

/// The lines of the export, counted.
class Lines {
 public:
  Lines(const ImportSource& next, const std::string& source) : next_(next), source_(source) {}

  Result<std::optional<std::string>> next() {
    auto line = next_();
    if (line) ++number_;
    return line;
  }
  /// Puts the place of the line that was read last into errors that have none.
  engine::Errors at_this_line(engine::Errors errors) const {
    for (Error& error : errors) {
      if (!error.place.source.empty()) continue;
      error.place.source = source_;
      error.place.line = number_;
    }
    return errors;
  }

 private:
  const ImportSource& next_;
  const std::string& source_;
  std::uint32_t number_ = 0;
};

Result<Done> take_all(Import& import, Lines& lines) {
  for (;;) {
    const auto line = lines.next();
    if (!line) return line.errors();
    auto done = *line ? import.take(**line) : import.end();
    if (!done) return lines.at_this_line(done.errors());
    if (!*line) return Done{};
  }
}

/// One transaction, in a file that no other process knows of yet.
Result<EndOfExport> fill(const std::string& part, const std::string& path, Lines lines) {
  EndOfExport totals;
  const auto filled = at_the_border(path, [&]() -> Result<Done> {
    Connection connection(part, SQLite::OPEN_READWRITE);
    make_tables(connection);
    connection.execute("BEGIN IMMEDIATE");
    Transaction transaction(connection);
    Import import(transaction);
    if (auto taken = take_all(import, lines); !taken) return taken;
    connection.execute("COMMIT");
    totals = import.totals();
    return Done{};
  });
  if (!filled) return filled.errors();
  return totals;
}

Result<Imported> make(const std::string& path, Lines lines) {
  Draft draft(path);
  if (auto begun = draft.begin(); !begun) return begun.errors();
  const auto filled = fill(draft.path(), path, lines);
  if (!filled) return filled.errors();
  if (const auto sound = checked(draft.path(), path, "ledger_not_sound"); !sound) return sound.errors();
  if (auto placed = draft.put_in_place(); !placed) return placed.errors();
  return Imported{filled->checkpoint, filled->documents, true, 0};
}

/// Compares the lines with those that an export of the ledger has.
class Comparison {
 public:
  Comparison(const std::string& path, Lines& lines) : path_(path), lines_(lines) {}

  /// Takes the next line of the ledger's own export.
  Result<Done> take(const std::string& own);
  /// That export has no more lines.
  Result<Done> end();
  const EndOfExport& totals() const { return totals_; }

 private:
  Result<Done> nothing_more();
  Error differs(std::string_view read, std::string_view own) const;
  void count(const std::string& own);

  const std::string& path_;
  Lines& lines_;
  EndOfExport totals_;       // of the lines that were the same
  bool at_an_entry_ = true;  // no document has come since the last one
  bool has_ended_ = false;   // the export that is compared is shorter, and is over
};

void Comparison::count(const std::string& own) {
  const auto part = read_export_line(own);
  if (!part) return;
  at_an_entry_ = !std::holds_alternative<KeptDocument>(*part);
  if (!at_an_entry_) ++totals_.documents;
  if (const Entry* entry = std::get_if<Entry>(&*part)) totals_.checkpoint = {entry->sequence, entry->hash};
}

Error Comparison::differs(std::string_view read, std::string_view own) const {
  if (own == line_of(totals_)) {
    return {"export_is_longer",
            "the export goes on where the ledger `" + path_ + "` ends, after entry " +
                std::to_string(totals_.checkpoint.size),
            {},
            "nothing was changed: name a file that is not there yet to make a ledger of the export"};
  }
  constexpr std::size_t shown = 60;
  const auto same = std::mismatch(read.begin(), read.end(), own.begin(), own.end()).first - read.begin();
  const auto at = static_cast<std::size_t>(same);
  return {"another_ledger",
          "the export is not of the ledger `" + path_ + "`: from byte " + std::to_string(at + 1) + " on " +
              read_and_expected(std::string(read.substr(at, shown)), std::string(own.substr(at, shown))),
          {},
          "nothing was changed: name a file that is not there yet to make a ledger of the export"};
}

Result<Done> Comparison::nothing_more() {
  const auto line = lines_.next();
  if (!line) return line.errors();
  if (*line) return lines_.at_this_line({more_than_expected()});
  return Done{};
}

Result<Done> Comparison::take(const std::string& own) {
  if (has_ended_) return Done{};
  const auto line = lines_.next();
  if (!line) return line.errors();
  if (!*line) return lines_.at_this_line({cut_after(totals_.checkpoint.size)});
  if (own == header_line()) {
    const auto header = read_header_line(**line);
    return header ? header : lines_.at_this_line(header.errors());
  }
  if (**line == own) {
    count(own);
    return Done{};
  }
  has_ended_ = at_an_entry_ && **line == line_of(totals_);
  if (!has_ended_) return lines_.at_this_line({differs(**line, own)});
  return nothing_more();
}

Result<Done> Comparison::end() {
  return has_ended_ ? Done{} : nothing_more();
}

Result<Imported> compare(const std::string& path, Lines lines) {
  const auto ledger = Ledger::open(path, Ledger::Access::read);
  if (!ledger) return ledger.errors();
  Comparison comparison(path, lines);
  const auto own = export_lines(*ledger, [&](const std::string& line) { return comparison.take(line); });
  if (!own) return own.errors();
  if (auto ended = comparison.end(); !ended) return ended.errors();
  const EndOfExport& totals = comparison.totals();
  return Imported{totals.checkpoint, totals.documents, false, own->size - totals.checkpoint.size};
}

}  // namespace

Result<Imported> import_lines(const std::string& path, const ImportSource& next, const std::string& source) {
  std::error_code ignored;
  const bool is_there = std::filesystem::exists(path, ignored);
  return is_there ? compare(path, Lines(next, source)) : make(path, Lines(next, source));
}

}  // namespace ledger
