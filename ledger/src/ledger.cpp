#include "ledger/ledger.h"

#include <utility>

#include "database/entries.h"
#include "database/file.h"
#include "database/store.h"
#include "database/transaction.h"
#include "places.h"

namespace ledger {

using engine::Done;
using engine::Result;

Ledger::Ledger(std::unique_ptr<Store> store) : store_(std::move(store)) {}
Ledger::Ledger(Ledger&&) noexcept = default;
Ledger& Ledger::operator=(Ledger&&) noexcept = default;
Ledger::~Ledger() = default;

const std::string& Ledger::path() const {
  return store_->path();
}

const std::string& Ledger::kept_before_upgrade() const {
  return store_->kept_before_upgrade();
}

Result<Ledger> Ledger::create(const std::string& path) {
  auto store = create_file(path);
  if (!store) return store.errors();
  return Ledger(std::move(*store));
}

Result<Ledger> Ledger::open(const std::string& path, Access access) {
  auto store = open_file(path, access);
  if (!store) return store.errors();
  return Ledger(std::move(*store));
}

Result<Ledger> Ledger::open_or_create(const std::string& path) {
  return is_to_be_made(path) ? create(path) : open(path, Access::write);
}

Moment::~Moment() {
  if (store_ != nullptr) store_->release();
}

Result<Moment> Ledger::moment() const {
  if (auto held = store_->hold(); !held) return held.errors();
  return Moment(*store_);
}

Result<Checkpoint> Ledger::checkpoint() const {
  Checkpoint checkpoint;
  const auto done = store_->read([&](Transaction& transaction) -> Result<Done> {
    checkpoint = transaction.head();
    return Done{};
  });
  if (!done) return done.errors();
  return checkpoint;
}

Result<Done> Ledger::each_entry(std::uint64_t from, const std::function<void(const Entry&)>& visit) const {
  return store_->read([&](Transaction& transaction) -> Result<Done> {
    transaction.connection().each(
        "SELECT sequence, at, actor, kind, subject, body, previous, hash FROM entries WHERE sequence >= ?"
        " ORDER BY sequence",
        [&](const Row& row) { visit(entry_of(row)); }, from);
    return Done{};
  });
}

Result<std::string> Ledger::document(const std::string& digest) const {
  std::string bytes;
  const auto done = store_->read([&](Transaction& transaction) -> Result<Done> {
    auto found = transaction.document(digest);
    if (!found) {
      return engine::Error{"unknown_document", "no document `" + digest + "` is kept", in_file(path()),
                           "digests have the form `sha256:` and 64 hexadecimal digits"};
    }
    bytes = std::move(*found);
    return Done{};
  });
  if (!done) return done.errors();
  return bytes;
}

}  // namespace ledger
