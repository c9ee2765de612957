// Records out of files and standard input, one after the other, each as soon as it is complete.
//
// JSON Lines: one record a line. A record written over several lines is read too: it goes on as long as its
// first line ends within it. A broken line is a record of its own, so that every line has its answer.

#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "engine/result.h"

namespace cli {

struct RawRecord {
  std::string_view text;   ///< Valid until the next call.
  std::uint64_t line = 0;  ///< Where it begins, from 1.
};

class RecordStream {
 public:
  /// `path` may be `-`. Fails when it cannot be opened.
  static engine::Result<RecordStream> open(const std::string& path);
  RecordStream(RecordStream&&) noexcept;
  RecordStream& operator=(RecordStream&&) = delete;
  ~RecordStream();

  /// The next record; none at the end. Blank lines are passed over.
  engine::Result<std::optional<RawRecord>> next();

  /// True when `next` would have to wait for the writer: the time to flush what was answered.
  bool is_drained() const { return buffer_.find('\n', position_) == std::string::npos; }

 private:
  explicit RecordStream(int descriptor, std::string path) : descriptor_(descriptor), path_(std::move(path)) {}
  engine::Result<bool> read_line(std::size_t from);

  int descriptor_;
  std::string path_;
  std::string buffer_;
  std::size_t position_ = 0;  // of the next record in buffer_
  std::size_t line_end_ = 0;  // set by read_line: after the line's last character
  std::uint64_t line_ = 0;
  bool ended_ = false;
};

}  // namespace cli
