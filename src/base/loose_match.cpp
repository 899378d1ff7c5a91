#include "base/loose_match.h"

#include <cctype>
#include <string>

namespace coatwright {
namespace {

std::string bare(std::string_view text) {
  std::string letters;
  for (const char each : text) {
    const auto byte = static_cast<unsigned char>(each);
    if (std::isspace(byte) == 0 && each != '-' && each != '_') {
      letters += static_cast<char>(std::tolower(byte));
    }
  }
  return letters;
}

}  // namespace

bool matches_loosely(std::string_view a, std::string_view b) {
  return bare(a) == bare(b);
}

}  // namespace coatwright
