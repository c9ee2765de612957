// The faults found while one record is read: all of them, up to a limit.

#pragma once

#include <string>
#include <string_view>

#include "engine/result.h"
#include "record/path.h"

namespace engine {

class Faults {
 public:
  /// `source` names the text; it must outlive this object.
  explicit Faults(std::string_view source) : source_(source) {}

  void add(std::string_view code, const Path& path, std::string message, std::string help = {});

  bool empty() const { return errors_.empty(); }
  Errors take() { return std::move(errors_); }

 private:
  // Nobody reads more, and a hostile text must not cost a hundred times its size.
  static constexpr std::size_t most = 100;

  std::string_view source_;
  Errors errors_;
};

/// The words of the person who wrote the record, in backquotes, fit to stand in a message.
std::string quoted(std::string_view words);

}  // namespace engine
