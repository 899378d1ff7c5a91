#include "base/content_hash.h"

#include <cstdint>

#include <fmt/format.h>

namespace coatwright {

std::string content_hash(std::string_view text) {
  constexpr std::uint64_t kOffsetBasis = 0xcbf29ce484222325U;  // [fnv_draft] section 5
  constexpr std::uint64_t kPrime = 0x00000100000001b3U;        // [fnv_draft] section 5
  std::uint64_t hash = kOffsetBasis;
  for (const char c : text) {
    hash ^= static_cast<unsigned char>(c);
    hash *= kPrime;
  }
  return fmt::format("{:016x}", hash);
}

}  // namespace coatwright
