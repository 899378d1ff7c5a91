#include "air/atmosphere.h"

#include <cmath>

#include <fmt/format.h>

#include "air/moist_air.h"

namespace coatwright {
namespace {

// Validity of the equation, m. Source: [ashrae2017] ch. 1 eq. 3.
constexpr double kLowest = -5000.0;
constexpr double kHighest = 11000.0;

// Source: [ashrae2017] ch. 1 eq. 3: lapse of temperature per temperature at sea level, and g over
// gas constant and lapse.
constexpr double kRelativeLapse = 2.25577e-5;  // 1/m
constexpr double kExponent = 5.2559;           // 1

}  // namespace

Result<Pressure> pressure_at_altitude(Length altitude) {
  const double z = altitude.metres();
  if (!(z >= kLowest && z <= kHighest)) {
    return fail(ErrorCode::kOutOfRange,
                fmt::format("the altitude {:.0f} m is out of range: {:.0f} m to {:.0f} m is "
                            "allowed, where the standard atmosphere's formula holds",
                            z,
                            kLowest,
                            kHighest));
  }
  const double p =  // [ashrae2017] ch. 1 eq. 3
      kSeaLevelPressure.pascal() * std::pow(1.0 - kRelativeLapse * z, kExponent);
  return Pressure::from_pascal(p);
}

}  // namespace coatwright
