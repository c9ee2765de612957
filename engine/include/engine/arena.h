// Memory for the values of one evaluation, or of one loaded model: given out from blocks, freed all at once.
//
// A Value is a plain 16-byte handle that may point into an arena; it is valid as long as that arena is
// neither cleared nor destroyed. Nothing in an arena has a destructor that needs running.

#pragma once

#include <algorithm>
#include <cstddef>
#include <cstring>
#include <functional>
#include <memory>
#include <new>
#include <span>
#include <string_view>
#include <type_traits>
#include <vector>

namespace engine {

class Arena {
 public:
  Arena() = default;
  Arena(const Arena&) = delete;
  Arena& operator=(const Arena&) = delete;
  Arena(Arena&&) = default;
  Arena& operator=(Arena&&) = default;

  /// Memory for `count` objects, not initialised.
  template <class T>
  T* allocate(std::size_t count) {
    static_assert(std::is_trivially_destructible_v<T>);
    return static_cast<T*>(bytes(count * sizeof(T), alignof(T)));
  }

  template <class T, class... Arguments>
  T* make(Arguments&&... arguments) {
    return new (allocate<T>(1)) T{std::forward<Arguments>(arguments)...};
  }

  /// A copy of `text` that lives as long as the arena.
  std::string_view keep(std::string_view text) {
    if (text.empty()) return {};
    char* copy = allocate<char>(text.size());
    std::memcpy(copy, text.data(), text.size());
    return {copy, text.size()};
  }

  template <class T>
  std::span<T> keep(std::span<const T> items) {
    if (items.empty()) return {};
    T* copy = allocate<T>(items.size());
    std::memcpy(static_cast<void*>(copy), items.data(), items.size() * sizeof(T));
    return {copy, items.size()};
  }

  /// Whether `memory` was given out by this arena.
  bool owns(const void* memory) const {
    const auto* byte = static_cast<const std::byte*>(memory);
    const std::less_equal<const std::byte*> up_to;
    return std::any_of(blocks_.begin(), blocks_.end(), [&](const Block& block) {
      return up_to(block.memory.get(), byte) && !up_to(block.memory.get() + block.size, byte);
    });
  }

  /// Bytes given out since the last clear; evaluation budgets are checked against it.
  std::size_t used() const { return used_; }

  /// Forgets everything and keeps the first block for reuse.
  void clear() {
    used_ = 0;
    if (blocks_.size() > 1) blocks_.resize(1);
    if (blocks_.empty()) return;
    free_ = blocks_.front().memory.get();
    left_ = blocks_.front().size;
  }

 private:
  struct Block {
    std::unique_ptr<std::byte[]> memory;
    std::size_t size;
  };

  void* bytes(std::size_t size, std::size_t alignment) {
    const std::size_t offset = (alignment - reinterpret_cast<std::uintptr_t>(free_) % alignment) % alignment;
    if (size + offset > left_) return fresh(size, alignment);
    std::byte* start = free_ + offset;
    free_ = start + size;
    left_ -= size + offset;
    used_ += size + offset;
    return start;
  }

  void* fresh(std::size_t size, std::size_t alignment) {
    const std::size_t wanted = size + alignment > block_size ? size + alignment : block_size;
    // make_unique would set every byte to zero first.
    blocks_.push_back({std::unique_ptr<std::byte[]>(new std::byte[wanted]), wanted});
    free_ = blocks_.back().memory.get();
    left_ = wanted;
    return bytes(size, alignment);
  }

  static constexpr std::size_t block_size = 64 * 1024;
  std::vector<Block> blocks_;
  std::byte* free_ = nullptr;
  std::size_t left_ = 0;
  std::size_t used_ = 0;
};

}  // namespace engine
