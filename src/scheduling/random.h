#pragma once

#include <cstdint>

namespace coatwright {

/// Random numbers that are the same on every machine. Source: splitmix64 [steele2014].
class Random {
 public:
  explicit Random(std::uint64_t seed) : state_(seed) {}

  std::uint64_t next() {
    state_ += 0x9e3779b97f4a7c15ULL;
    std::uint64_t mixed = state_;
    mixed = (mixed ^ (mixed >> 30)) * 0xbf58476d1ce4e5b9ULL;
    mixed = (mixed ^ (mixed >> 27)) * 0x94d049bb133111ebULL;
    return mixed ^ (mixed >> 31);
  }

  /// @param count 1 or more. @return 0 .. count - 1.
  int below(int count) { return static_cast<int>(next() % static_cast<std::uint64_t>(count)); }
  /// @return a number from 0 up to, and without, 1.
  double fraction() { return static_cast<double>(next() >> 11) * 0x1p-53; }

 private:
  std::uint64_t state_;
};

}  // namespace coatwright
