// Which candidates of an open fact are still possible: a set of up to 256 positions.

#pragma once

#include <array>
#include <bit>
#include <cstdint>

namespace engine {

class CandidateSet {
 public:
  static constexpr std::uint32_t capacity = 256;

  static CandidateSet first(std::uint32_t count) {
    CandidateSet all;
    for (std::uint32_t i = 0; i < count; ++i) all.insert(i);
    return all;
  }

  void insert(std::uint32_t i) { words_[i / 64] |= std::uint64_t{1} << (i % 64); }
  bool has(std::uint32_t i) const { return (words_[i / 64] >> (i % 64) & 1) != 0; }

  bool empty() const { return (words_[0] | words_[1] | words_[2] | words_[3]) == 0; }

  std::uint32_t size() const {
    int count = 0;
    for (const auto word : words_) count += std::popcount(word);
    return static_cast<std::uint32_t>(count);
  }

  /// Only when not empty.
  std::uint32_t lowest() const {
    std::uint32_t word = 0;
    while (words_[word] == 0) ++word;
    return word * 64 + static_cast<std::uint32_t>(std::countr_zero(words_[word]));
  }

  template <class Use>
  void each(Use&& use) const {
    for (std::uint32_t word = 0; word < words_.size(); ++word) {
      for (std::uint64_t left = words_[word]; left != 0; left &= left - 1) {
        use(word * 64 + static_cast<std::uint32_t>(std::countr_zero(left)));
      }
    }
  }

  bool meets(const CandidateSet& other) const { return !(*this & other).empty(); }

  friend CandidateSet operator&(CandidateSet a, const CandidateSet& b) {
    for (std::size_t i = 0; i < a.words_.size(); ++i) a.words_[i] &= b.words_[i];
    return a;
  }
  friend CandidateSet operator|(CandidateSet a, const CandidateSet& b) {
    for (std::size_t i = 0; i < a.words_.size(); ++i) a.words_[i] |= b.words_[i];
    return a;
  }
  /// What is in `a` and not in `b`.
  friend CandidateSet operator-(CandidateSet a, const CandidateSet& b) {
    for (std::size_t i = 0; i < a.words_.size(); ++i) a.words_[i] &= ~b.words_[i];
    return a;
  }
  /// Any total order.
  friend auto operator<=>(const CandidateSet&, const CandidateSet&) = default;

 private:
  std::array<std::uint64_t, capacity / 64> words_{};
};

}  // namespace engine
