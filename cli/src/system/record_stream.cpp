#include "system/record_stream.h"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>

#include "system/files.h"

namespace cli {

using engine::Result;

namespace {

constexpr std::string_view blanks = " \t\r";

bool is_blank(std::string_view line) {
  return line.find_first_not_of(blanks) == std::string_view::npos;
}

// A line that was cut off ends anywhere; one that its writer broke ends behind one of these.
bool goes_on(std::string_view first_line) {
  const std::size_t last = first_line.find_last_not_of(blanks);
  return last != std::string_view::npos &&
         std::string_view("{[,").find(first_line[last]) != std::string_view::npos;
}

// Braces and brackets that `line` leaves open, on top of `depth` before it. A string never reaches over a
// line's end.
int nesting_after(std::string_view line, int depth) {
  bool in_string = false;
  for (std::size_t i = 0; i < line.size(); ++i) {
    const char c = line[i];
    if (in_string) {
      i += c == '\\' ? 1 : 0;
      in_string = c != '"';
    } else {
      in_string = c == '"';
      depth += c == '{' || c == '[' ? 1 : 0;
      depth -= c == '}' || c == ']' ? 1 : 0;
    }
  }
  return depth;
}

}  // namespace

Result<RecordStream> RecordStream::open(const std::string& path) {
  const int descriptor = path == "-" ? STDIN_FILENO : ::open(path.c_str(), O_RDONLY | O_CLOEXEC);
  if (descriptor < 0) return system_error("unreadable_file", "cannot be read", path, errno);
  return RecordStream(descriptor, path);
}

RecordStream::RecordStream(RecordStream&& other) noexcept
    : descriptor_(other.descriptor_),
      path_(std::move(other.path_)),
      buffer_(std::move(other.buffer_)),
      position_(other.position_),
      line_end_(other.line_end_),
      line_(other.line_),
      ended_(other.ended_) {
  other.descriptor_ = -1;
}

RecordStream::~RecordStream() {
  if (descriptor_ > STDIN_FILENO) ::close(descriptor_);
}

// Makes sure that the line that begins at `from` stands in the buffer. False at the end of the input.
Result<bool> RecordStream::read_line(std::size_t from) {
  std::size_t searched = from;
  for (;;) {
    const std::size_t found = buffer_.find('\n', searched);
    if (found != std::string::npos) {
      line_end_ = found;
      return true;
    }
    searched = buffer_.size();
    if (ended_) {
      line_end_ = buffer_.size();
      return from < buffer_.size();
    }
    char block[64 * 1024];
    const ssize_t count = ::read(descriptor_, block, sizeof block);
    if (count > 0) {
      buffer_.append(block, static_cast<std::size_t>(count));
    } else if (count == 0) {
      ended_ = true;
    } else if (errno != EINTR) {
      return system_error("unreadable_file", "cannot be read", path_, errno);
    }
  }
}

Result<std::optional<RawRecord>> RecordStream::next() {
  if (position_ > buffer_.size() / 2) {  // the earlier half is answered
    buffer_.erase(0, position_);
    position_ = 0;
  }
  std::size_t begin = position_;
  for (;;) {
    const Result<bool> more = read_line(begin);
    if (!more) return more.errors();
    if (!*more) return std::optional<RawRecord>{};
    ++line_;
    if (!is_blank(std::string_view(buffer_).substr(begin, line_end_ - begin))) break;
    begin = line_end_ + 1;
  }
  const std::uint64_t first_line = line_;
  std::size_t end = line_end_;
  const std::string_view first(buffer_.data() + begin, end - begin);
  int depth = goes_on(first) ? nesting_after(first, 0) : 0;
  while (depth > 0) {
    const std::size_t next_begin = end + 1;
    const Result<bool> more = read_line(next_begin);
    if (!more) return more.errors();
    if (!*more || buffer_[next_begin] == '{') break;  // a new record at the margin: this one stays unfinished
    ++line_;
    end = line_end_;
    depth = nesting_after(std::string_view(buffer_).substr(next_begin, end - next_begin), depth);
  }
  position_ = end < buffer_.size() ? end + 1 : end;
  return std::optional(RawRecord{std::string_view(buffer_).substr(begin, end - begin), first_line});
}

}  // namespace cli
