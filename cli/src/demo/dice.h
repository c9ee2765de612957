// The same throws every time: the invented unit looks alike on every machine.

#pragma once

#include <cstddef>
#include <cstdint>

namespace cli {

/// SplitMix64 (Steele, Lea and Flood 2014): small, and its numbers are the same everywhere.
class Dice {
 public:
  explicit Dice(std::uint64_t seed) : state_(seed) {}

  /// From `least` to `most`, both included.
  int between(int least, int most) {
    return least + static_cast<int>(next() % static_cast<std::uint64_t>(most - least + 1));
  }

  template <class T, std::size_t n>
  const T& one_of(const T (&items)[n]) {
    return items[next() % n];
  }

 private:
  std::uint64_t next() {
    std::uint64_t mixed = state_ += 0x9E3779B97F4A7C15;
    mixed = (mixed ^ (mixed >> 30)) * 0xBF58476D1CE4E5B9;
    mixed = (mixed ^ (mixed >> 27)) * 0x94D049BB133111EB;
    return mixed ^ (mixed >> 31);
  }

  std::uint64_t state_;
};

}  // namespace cli
