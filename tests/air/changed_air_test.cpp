#include "air/changed_air.h"

#include <cmath>
#include <vector>

#include <catch2/catch.hpp>

using namespace coatwright;
using std::chrono::hours;

namespace {

constexpr Time kFrom{std::chrono::seconds(1'804'000'000)};
constexpr Time kKnown = kFrom - hours(6);
constexpr Interval kDuring = {kFrom, kFrom + hours(72)};

Zone zone() {
  return *Zone::find("America/New_York");
}

AirRecord usual(const std::string& day) {
  return {{}, *UsualDay::parse(day), zone()};
}

/// Vapour pressure over water in hPa. EVIDENCE: buck1981 eq. 8 (ew4), another fit than the
/// program's; the two agree within 0.1 % from 0 to 30 C.
double buck_hectopascal(double celsius) {
  return 6.1121 * std::exp((18.729 - celsius / 227.3) * celsius / (celsius + 257.87));
}

/// Mass of vapour over mass of dry air by the ideal gas law, at the standard atmosphere.
double ratio_by_buck(const AirState& air) {
  const double vapour = air.humidity.fraction() * buck_hectopascal(air.temperature.celsius());
  return 0.62198 * vapour / (1013.25 - vapour);
}

AirEntry measured(Time at, double celsius, double percent) {
  return {at,
          Temperature::from_celsius(celsius),
          RelativeHumidity::from_percent(percent),
          AirOrigin::kLogger};
}

}  // namespace

TEST_CASE("Saturated air at 10 C that is warmed to 20 C is at 52.5 percent", "[air]") {
  // EVIDENCE: ashrae2017 ch. 1 table 2: saturated at 10 C 7.661 g/kg, at 20 C 14.758 g/kg, and at
  // 20 C 2.3389 kPa (values from memory). Degree of saturation 0.5191; eq. 12 and 20 make it 52.5.
  const AirRecord air =
      warmed(usual("0:00 10C 100%"), kKnown, kDuring, TemperatureDifference::from_kelvin(10));
  const AirState state = air.at(kFrom + hours(30));
  CHECK(state.temperature.celsius() == Approx(20.0));
  CHECK(state.humidity.percent() == Approx(52.5).margin(0.1));
}

TEST_CASE("Warming changes no humidity ratio, and no hour beyond 30 C", "[air]") {
  const AirRecord before = usual("6:00 9C 80%; 15:00 27C 45%; 22:00 18C 60%");
  for (const double rise : {1.0, 5.0, 12.0}) {
    const AirRecord after =
        warmed(before, kKnown, kDuring, TemperatureDifference::from_kelvin(rise));
    for (Time at = kFrom; at <= kDuring.end; at += std::chrono::minutes(17)) {
      const AirState was = before.at(at);
      const AirState is = after.at(at);
      INFO("rise " << rise << ", " << (at - kFrom).count() << " s after the start");
      CHECK(ratio_by_buck(is) == Approx(ratio_by_buck(was)).epsilon(0.003));
      CHECK(is.temperature.celsius() ==
            Approx(std::min(was.temperature.celsius() + rise, 30.0)).margin(0.5));
    }
  }
}

TEST_CASE("What lies before and after the change stays as it was", "[air]") {
  std::vector<AirEntry> entries;
  for (int hour = -6; hour <= 20; ++hour) {
    entries.push_back(measured(kFrom + hours(hour), 15.0 + std::sin(hour), 60.0 + hour % 5));
  }
  const AirRecord before(entries, *UsualDay::parse("0:00 12C 70%; 12:00 16C 60%"), zone());
  const AirRecord warm = warmed(before, kKnown, kDuring, TemperatureDifference::from_kelvin(6));
  const AirRecord dry = dried(before, kKnown, kDuring, RelativeHumidity::from_percent(40));
  for (Time at = kKnown; at < kDuring.end + hours(24); at += std::chrono::minutes(13)) {
    if (at >= kFrom && at <= kDuring.end) {
      continue;
    }
    for (const AirRecord* air : {&warm, &dry}) {
      CHECK(air->at(at).temperature.celsius() ==
            Approx(before.at(at).temperature.celsius()).margin(0.01));
      CHECK(air->at(at).humidity.percent() == Approx(before.at(at).humidity.percent()).margin(0.1));
    }
  }
}

TEST_CASE("Dried air is at or below its limit, as warm as before, and elsewhere no drier",
          "[air]") {
  const AirRecord before = usual("6:00 9C 80%; 15:00 27C 35%; 22:00 18C 60%");
  const AirRecord after = dried(before, kKnown, kDuring, RelativeHumidity::from_percent(50));
  for (Time at = kFrom; at <= kDuring.end; at += std::chrono::minutes(11)) {
    const AirState was = before.at(at);
    const AirState is = after.at(at);
    CHECK(is.humidity.percent() <= 50.2);
    CHECK(is.temperature.kelvin() == Approx(was.temperature.kelvin()));
    if (was.humidity.percent() < 47) {
      CHECK(is.humidity.percent() == Approx(was.humidity.percent()).margin(0.1));
    }
  }
}
