// Properties of the drying clock over airs that a shop can have.
#include <catch2/catch.hpp>
#include <rapidcheck.h>

#include "drying/drying_clock.h"

using namespace coatwright;
using std::chrono::hours;
using std::chrono::minutes;
using std::chrono::seconds;

namespace {

const Time kStart = Time(hours(24 * 20000));
constexpr int kDays = 6;

/// Six days of entries some minutes apart, each shifted by so much.
AirRecord any_air(const std::vector<int>& celsius,
                  const std::vector<int>& percent,
                  double warmer = 0.0,
                  double drier = 0.0) {
  std::vector<AirEntry> entries;
  for (std::size_t i = 0; i < celsius.size(); ++i) {
    const double damp = std::clamp(percent[i] - drier, 1.0, 99.0);
    entries.push_back({kStart + hours(2 * i),
                       Temperature::from_celsius(celsius[i] + warmer),
                       RelativeHumidity::from_percent(damp),
                       AirOrigin::kLogger});
  }
  return {entries,
          UsualDay::constant(Temperature::from_celsius(18.0 + warmer),
                             RelativeHumidity::from_percent(60.0 - drier)),
          *Zone::find("UTC")};
}

std::vector<int> any_values(int low, int high) {
  return *rc::gen::container<std::vector<int>>(kDays * 12, rc::gen::inRange(low, high));
}

RateLaw any_law() {
  switch (*rc::gen::inRange(0, 5)) {
    case 0:
      return rate_law_of(Mechanism::kEvaporation, antoine_of("n-butyl acetate"));
    case 1:
      return rate_law_of(Mechanism::kWaterLoss);
    case 2:
      return rate_law_of(Mechanism::kOxidation);
    case 3:
      return rate_law_of(Mechanism::kAcidCure);
    default:
      return rate_law_of(Mechanism::kTwoPart);
  }
}

Time any_moment() {
  return kStart + seconds(*rc::gen::inRange(0, kDays * 24 * 3600));
}

}  // namespace

// EVIDENCE: definition of an integral
TEST_CASE("Hours earned add up over split intervals", "[drying]") {
  REQUIRE(rc::check("a to b and b to c make a to c", [] {
    const AirRecord air = any_air(any_values(2, 33), any_values(20, 95));
    DryingClock clock(air, any_law(), Temperature::from_celsius(13.0), kStart);
    std::vector<Time> moments = {any_moment(), any_moment(), any_moment()};
    std::sort(moments.begin(), moments.end());
    const double parts =
        clock.earned(moments[0], moments[1]).hours() + clock.earned(moments[1], moments[2]).hours();
    RC_ASSERT(std::abs(clock.earned(moments[0], moments[2]).hours() - parts) < 1e-9);
  }));
}

// EVIDENCE: definition of an inverse
TEST_CASE("The moment found has earned what was asked, and the second before had not", "[drying]") {
  REQUIRE(rc::check("round trip", [] {
    const AirRecord air = any_air(any_values(2, 33), any_values(20, 95));
    DryingClock clock(air, any_law(), std::nullopt, kStart);
    const Time from = any_moment();
    const Hours needed = Hours::from_hours(*rc::gen::inRange(1, 4000) / 100.0);
    const auto at = clock.reached(from, needed, from + hours(24 * 60));
    RC_PRE(at.has_value());
    RC_ASSERT(clock.earned(from, *at).hours() >= needed.hours() - 1e-6);
    RC_ASSERT(clock.earned(from, *at - seconds(2)).hours() < needed.hours());
  }));
}

// EVIDENCE: freiesleben1977 and the definition of vapour pressure: warmer is faster
TEST_CASE("Warmer air of the same humidity never earns less", "[drying]") {
  REQUIRE(rc::check("two kelvins warmer", [] {
    const auto celsius = any_values(2, 31);
    const auto percent = any_values(20, 95);
    const AirRecord cold = any_air(celsius, percent);
    const AirRecord warm = any_air(celsius, percent, 2.0);
    const RateLaw law = any_law();
    const Time from = any_moment();
    const Time to = from + minutes(*rc::gen::inRange(1, 6000));
    DryingClock slow(cold, law, Temperature::from_celsius(13.0), kStart);
    DryingClock fast(warm, law, Temperature::from_celsius(13.0), kStart);
    RC_ASSERT(fast.earned(from, to).hours() >= slow.earned(from, to).hours() - 1e-9);
  }));
}

// EVIDENCE: definition of the vapour-pressure deficit: drier air takes up water faster
TEST_CASE("Drier air never slows water or oxidation", "[drying]") {
  REQUIRE(rc::check("ten per cent drier", [] {
    const auto celsius = any_values(5, 31);
    const auto percent = any_values(25, 95);
    const AirRecord damp = any_air(celsius, percent);
    const AirRecord dry = any_air(celsius, percent, 0.0, 10.0);
    const RateLaw law =
        rate_law_of(*rc::gen::arbitrary<bool>() ? Mechanism::kWaterLoss : Mechanism::kOxidation);
    const Time from = any_moment();
    const Time to = from + minutes(*rc::gen::inRange(1, 6000));
    DryingClock slow(damp, law, std::nullopt, kStart);
    DryingClock fast(dry, law, std::nullopt, kStart);
    RC_ASSERT(fast.earned(from, to).hours() >= slow.earned(from, to).hours() - 1e-6);
  }));
}
