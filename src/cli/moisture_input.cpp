#include "cli/moisture_input.h"

#include <fmt/format.h>

#include "base/quantity_text.h"

namespace coatwright {

Result<double> parse_wood_moisture(const std::string& text, const std::string& what) {
  constexpr double kLeast = 0.01;  // no wood in a shop is so dry
  constexpr double kMost = 0.35;   // green wood is beyond it, and nobody finishes that
  const auto percent = parse_humidity(text);
  if (!percent) {
    return fail(ErrorCode::kUsage, fmt::format("{} '{}' is no percentage: write 9%", what, text));
  }
  if (percent->fraction() < kLeast || percent->fraction() > kMost) {
    return fail(ErrorCode::kOutOfRange,
                fmt::format("{} '{}' is out of range: 1% to 35% is allowed", what, text));
  }
  return percent->fraction();
}

}  // namespace coatwright
