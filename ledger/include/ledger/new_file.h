// A file that gets its name only when it is whole, and that nobody but its owner can read: copies and exports
// of a ledger, and new ledgers.

#pragma once

#include <string>
#include <string_view>

#include "engine/result.h"

namespace ledger {

/// Renames in one step where no file has the name yet. Sets errno to EEXIST where one has.
bool rename_if_free(const std::string& from, const std::string& to);

/// Makes an empty file with the rights 0600, less what the umask takes away. False, with errno, when it
/// cannot be made or is there already.
bool make_private(const std::string& path);

/// Written as `FILE.part`, which replaces one that was left by an interruption. Whatever has not been put in
/// place is removed when the draft goes.
///
/// Fails with `file_exists` (there is a file of that name) and `file_not_written` (no room, no such folder).
class Draft {
 public:
  explicit Draft(std::string file);
  ~Draft();
  Draft(const Draft&) = delete;
  Draft& operator=(const Draft&) = delete;

  /// `FILE.part`.
  const std::string& path() const { return part_; }

  /// Makes it, empty and private, when `FILE` is free: no log of another database lies there either, which
  /// SQLite would take for the new file's.
  engine::Result<engine::Done> begin();
  /// The same when `FILE` is only to be free once this is put in place.
  engine::Result<engine::Done> make();

  /// Adds bytes at the end. They are collected, and written in large pieces.
  engine::Result<engine::Done> write(std::string_view bytes);

  /// Flushes it to the disk and gives it its name, unless another file took that meanwhile; the name outlasts
  /// a power failure too.
  engine::Result<engine::Done> put_in_place();

 private:
  engine::Error not_written(const std::string& why) const;
  engine::Result<engine::Done> flush_written();
  void remove();

  std::string file_, part_;
  std::string waiting_;  // for the disk
  bool is_ours_ = false;
};

}  // namespace ledger
