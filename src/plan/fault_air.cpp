#include "plan/fault_air.h"

#include <algorithm>
#include <functional>

#include <fmt/format.h>

#include "air/surface.h"
#include "base/zone.h"
#include "plan/air_limits.h"

namespace coatwright {
namespace {

constexpr std::chrono::minutes kGrain{5};
// Air that stands on a limit keeps it, whatever interpolation does to its last digits: in K or %.
constexpr double kSlack = 0.05;
// So much in an hour brings air out of the pores. Source: judgement, as for planning.
constexpr auto kWarms = TemperatureDifference::from_kelvin(1.0);
constexpr std::chrono::hours kWarmingWatched{1};

/// One look at the air.
struct Sight {
  Time at;
  AirState air;
  Temperature surface;
};

/// A limit's shortfall at a moment, above 0 where it is not kept.
using Measure = std::function<double(const Sight&)>;

class Watch {
 public:
  Watch(const Product& product, const OpenFilm& film, const AirRecord& air)
      : product_(product), film_(film), air_(air) {
    const Time end = std::max(film.from, std::min(film.to, film.now));
    for (Time at = film.from; at < end; at += kGrain) {
      look(at);
    }
    look(end);
    Sight& first = sights_.front();
    if (film.at_coat && film.at_coat->origin <= first.air.origin) {
      first.air = *film.at_coat;
      first.surface = first.air.temperature;
    }
  }

  std::vector<AirShortfall> shortfalls() {
    look_at_cold();
    look_at_heat();
    look_at_damp();
    look_at_dew();
    look_at_warming();
    return std::move(found_);
  }

 private:
  void look(Time at) { sights_.push_back({at, air_.at(at), surface_temperature(air_, at)}); }

  /// The sight at which a measure is largest; nothing where the limit is kept.
  [[nodiscard]] const Sight* worst(const Measure& beyond) const {
    const auto found =
        std::max_element(sights_.begin(), sights_.end(), [&](const auto& a, const auto& b) {
          return beyond(a) < beyond(b);
        });
    return beyond(*found) > kSlack ? &*found : nullptr;
  }

  /// "when it went on", "5 min after it went on, its film still open".
  [[nodiscard]] std::string when(const Sight& sight) const {
    return sight.at == film_.from
               ? "when it went on"
               : show_duration(sight.at - film_.from) + " after it went on, its film still open";
  }

  [[nodiscard]] static std::string both(TemperatureDifference value) {
    return fmt::format("{:.1f} C ({:.0f} F)", value.kelvin(), value.fahrenheit_degrees());
  }

  /// "82 % and 1.4 C (3 F) above its dew point".
  [[nodiscard]] static std::string dampness(const Sight& sight) {
    return fmt::format("{:.0f} % and {} above its dew point",
                       sight.air.humidity.percent(),
                       both(sight.air.spread()));
  }

  void add(FaultSign sign,
           const Sight& sight,
           double by,
           bool clear,
           const std::string& limit,
           const std::string& source) {
    const bool damp = sign == FaultSign::kHumidAir || sign == FaultSign::kNearDewPoint;
    found_.push_back({sign,
                      sight.at,
                      by,
                      clear,
                      sight.air.origin != AirOrigin::kUsualDay,
                      fmt::format("the air was at {}{} ({}) {}; {} {}",
                                  in_both_units(sight.air.temperature),
                                  damp ? ", " + dampness(sight) : "",
                                  name_of(sight.air.origin),
                                  when(sight),
                                  product_.title,
                                  limit),
                      source});
  }

  void look_at_cold() {
    const Limits& limits = product_.limits;
    const auto& least = limits.temperature_min ? limits.temperature_min : limits.film_formation_min;
    if (!least) {
      return;
    }
    const Measure beyond = [&](const Sight& one) {
      return (least->value - one.air.temperature).kelvin();
    };
    if (const Sight* coldest = worst(beyond)) {
      add(FaultSign::kColdAir,
          *coldest,
          beyond(*coldest),
          true,
          fmt::format("needs {}", in_both_units(least->value)),
          least->source);
    }
  }

  void look_at_heat() {
    const auto& most = product_.limits.temperature_max;
    if (!most) {
      return;
    }
    const Measure beyond = [&](const Sight& one) {
      return (one.air.temperature - most->value).kelvin();
    };
    if (const Sight* hottest = worst(beyond)) {
      add(FaultSign::kHotAir,
          *hottest,
          beyond(*hottest),
          false,
          fmt::format("goes on well up to {}", in_both_units(most->value)),
          most->source);
    }
  }

  void look_at_damp() {
    const auto& most = product_.limits.humidity_max;
    if (!most) {
      return;
    }
    const Measure beyond = [&](const Sight& one) {
      return one.air.humidity.percent() - most->value.percent();
    };
    if (const Sight* dampest = worst(beyond)) {
      add(FaultSign::kHumidAir,
          *dampest,
          beyond(*dampest),
          true,
          fmt::format("takes up to {:.0f} %", most->value.percent()),
          most->source);
    }
  }

  /// The distance that bars a coat is the surface's; that at which a film may blush is the air's,
  /// and speaks clearly when less than half of it was left. Source: judgement.
  void look_at_dew() {
    const Limits& limits = product_.limits;
    if (const auto& least = limits.dew_point_spread_min) {
      const Measure beyond = [&](const Sight& one) {
        return least->value.kelvin() - (one.surface - one.air.dew_point).kelvin();
      };
      if (const Sight* nearest = worst(beyond)) {
        add(FaultSign::kNearDewPoint,
            *nearest,
            beyond(*nearest),
            true,
            fmt::format("needs {} between its surface and the dew point", both(least->value)),
            least->source);
        return;
      }
    }
    if (const auto& least = limits.blush_spread) {
      const Measure beyond = [&](const Sight& one) {
        return least->value.kelvin() - one.air.spread().kelvin();
      };
      if (const Sight* nearest = worst(beyond)) {
        add(FaultSign::kNearDewPoint,
            *nearest,
            beyond(*nearest),
            2.0 * beyond(*nearest) > least->value.kelvin(),
            fmt::format("may blush below {} without a retarder", both(least->value)),
            least->source);
      }
    }
  }

  void look_at_warming() {
    const Time later = film_.from + kWarmingWatched;
    const auto rise = surface_temperature(air_, later) - surface_temperature(air_, film_.from);
    if (later <= film_.now && rise >= kWarms) {
      found_.push_back({FaultSign::kWarmingWood,
                        film_.from,
                        rise.kelvin(),
                        false,
                        true,
                        fmt::format("the wood warmed by {} in the hour after it", both(rise)),
                        "common-practice"});
    }
  }

  const Product& product_;
  const OpenFilm& film_;
  const AirRecord& air_;
  std::vector<Sight> sights_;
  std::vector<AirShortfall> found_;
};

}  // namespace

std::vector<AirShortfall> air_shortfalls(const Product& product,
                                         const OpenFilm& film,
                                         const AirRecord& air) {
  return Watch(product, film, air).shortfalls();
}

}  // namespace coatwright
