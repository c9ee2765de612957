#include "ledger/backup.h"

#include <filesystem>

#include "database/copy.h"
#include "database/store.h"
#include "database/transaction.h"
#include "digest_text.h"
#include "ledger/new_file.h"
#include "utf8.h"

namespace ledger {

using engine::Done;
using engine::Result;

Result<Checkpoint> back_up(Ledger& ledger, const Author& author, const std::string& file) {
  Draft draft(file);
  if (auto begun = draft.begin(); !begun) return begun.errors();
  if (auto copied = copy_ledger(ledger.path(), draft.path(), file); !copied) return copied.errors();
  const auto checkpoint = checked(draft.path(), file, "backup_not_sound");
  if (!checkpoint) return checkpoint.errors();
  if (auto placed = draft.put_in_place(); !placed) return placed.errors();
  const auto noted = ledger.store().write([&](Transaction& transaction) -> Result<Done> {
    transaction.append(author, Kind::backup, "ledger",
                       {{"file", as_utf8(std::filesystem::path(file).filename().string())},
                        {"size", checkpoint->size},
                        {"head", text_of(checkpoint->head)}});
    return Done{};
  });
  if (!noted) return noted.errors();
  return checkpoint;
}

}  // namespace ledger
