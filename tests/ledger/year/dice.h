// The same throws on every machine: the standard fixes what std::mt19937_64 gives, not what its distributions
// make of it.

#pragma once

#include <random>
#include <vector>

namespace year {

class Dice {
 public:
  explicit Dice(std::uint64_t seed) : random_(seed) {}

  /// From `least` to `most`, both included.
  int between(int least, int most) {
    return least + static_cast<int>(random_() % static_cast<std::uint64_t>(most - least + 1));
  }
  /// In so many of a hundred throws.
  bool percent(int of_hundred) { return between(1, 100) <= of_hundred; }

  template <class T>
  const T& one_of(const std::vector<T>& items) {
    return items[random_() % items.size()];
  }

 private:
  std::mt19937_64 random_;
};

}  // namespace year
