#pragma once

#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "plan/own_drying.h"
#include "plan/plan.h"
#include "recipe/product.h"

/// The air of a finishing room once more, second by second, from what docs/formulas.md says: of the
/// program only the recipes' figures, the plan's steps and the air.
namespace own_room {

using namespace coatwright;
using std::chrono::seconds;

struct Coat {
  const Product* product = nullptr;
  std::string piece;
  double litres = 0;
  double on_the_wood = 1.0;
  double kelvin = 0;
  Time start;
  Time end;
  Time set;  ///< Four fifths of the film's solvent are out.
  Time dry;  ///< All of it is.

  [[nodiscard]] double share(Time at) const {
    const auto part = [at](Time from, Time to) {
      return static_cast<double>((at - from).count()) / static_cast<double>((to - from).count());
    };
    const double mist = 1.0 - on_the_wood;
    const double old = static_cast<double>((end - start).count()) / 2.0;
    const double at_end =
        mist + on_the_wood * 0.8 * std::min(1.0, old / static_cast<double>((set - end).count()));
    const double at_set = mist + on_the_wood * 0.8;
    if (at <= start) {
      return 0.0;
    }
    if (at <= end) {
      return at_end * part(start, end);
    }
    if (at <= set) {
      return at_end + (at_set - at_end) * part(end, set);
    }
    return at >= dry ? 1.0
                     : at_set + (1.0 - at_set) * (1.0 - std::exp(-3.0 * part(set, dry))) /
                                    (1.0 - std::exp(-3.0));
  }
};

/// When the first of these stages that the product has is reached, each of one phase or more.
inline std::optional<Time> reached(const Product& product,
                                   std::initializer_list<Stage> stages,
                                   Time from,
                                   double probability,
                                   own::Walk& walk) {
  std::optional<double> gate;
  if (product.limits.temperature_min) {
    gate = product.limits.temperature_min->value.kelvin();
  }
  for (const Stage stage : stages) {
    if (const DryingStage* found = product.stage(stage)) {
      Time at = from;
      for (const Phase& phase : found->timing.phases) {
        const double needed =
            own::quantile(phase.duration.low().hours(), phase.duration.high().hours(), probability);
        at = walk.reached(phase.law, gate, at, needed, from + std::chrono::hours(24 * 7)).value();
      }
      return at;
    }
  }
  return std::nullopt;
}

/// A litre of liquid as cubic metres of vapour, by the ideal gas.
inline double vapour_of_litre(const Substance& substance, double kelvin) {
  return substance.density->value.g_per_l() / substance.molar_mass.g_per_mol() * 8.314462618 *
         kelvin / 101325.0;
}

inline std::optional<double> explosive_limit(const Substance& substance) {
  std::optional<double> least;
  for (const auto& limit : substance.lower_explosive_limits) {
    least = std::min(least.value_or(1.0), limit.value.fraction());
  }
  return least;
}

/// The strictest of all, ceilings too.
inline std::optional<double> exposure_limit(const Substance& substance) {
  std::optional<double> least;
  for (const ExposureLimit& limit : substance.limits) {
    least = std::min(least.value_or(1.0), limit.at_most.value.fraction());
  }
  return least;
}

struct Level {
  double explosive = 0;
  double exposure = 0;
};

/// What the room's air was through the seconds.
struct Course {
  Time from;
  std::vector<Level> levels;  ///< At the end of each second.
  std::vector<bool> fan;

  [[nodiscard]] Level peak(Time begin, Time end) const {
    Level most;
    for (Time at = begin; at < end && at < from + seconds(levels.size()); at += seconds(1)) {
      const Level& level = levels[static_cast<std::size_t>((at - from).count())];
      most.explosive = std::max(most.explosive, level.explosive);
      most.exposure = std::max(most.exposure, level.exposure);
    }
    return most;
  }
};

/// @param fan m3/h over the mixing factor; 0: none. Without it a tenth of the air leaks an hour.
inline Course follow(const std::vector<Coat>& coats, double volume, double fan) {
  Course course;
  course.from = coats.front().start;
  Time last = course.from;
  for (const Coat& coat : coats) {
    last = std::max(last, coat.dry + std::chrono::hours(2));
  }
  std::map<const Substance*, double> in_air;  // m3
  bool on = false;
  for (Time at = course.from; at < last; at += seconds(1)) {
    const bool applying = std::any_of(coats.begin(), coats.end(), [at](const Coat& coat) {
      return coat.start <= at && at < coat.end;
    });
    on = fan > 0.0 && (on || applying);
    const double flow = (on ? fan : 0.1 * volume) / 3600.0;
    std::map<const Substance*, double> freed;
    std::map<const Substance*, double> in_films;
    for (const Coat& coat : coats) {
      if (at < coat.start) {
        continue;
      }
      const double after = coat.share(at + seconds(1));
      const double now = after - coat.share(at);
      for (const SolventShare& solvent : coat.product->vapour->solvents) {
        if (solvent.substance->density) {
          const double all = coat.litres * coat.product->vapour->volatile_share * solvent.share *
                             vapour_of_litre(*solvent.substance, coat.kelvin);
          freed[solvent.substance] += all * now;
          in_films[solvent.substance] += all * (1.0 - after);
        }
      }
    }
    Level level;
    Level still;
    for (const auto& [substance, amount] : freed) {
      double& held = in_air[substance];
      held += amount - flow * held / volume;
      const double later = held + in_films[substance];
      if (const auto limit = explosive_limit(*substance)) {
        level.explosive += held / volume / *limit;
        still.explosive += later / volume / *limit;
      }
      if (const auto limit = exposure_limit(*substance)) {
        level.exposure += held / volume / *limit;
        still.exposure += later / volume / *limit;
      }
    }
    course.levels.push_back(level);
    course.fan.push_back(on);
    on = on && (applying || still.explosive > 0.25 || still.exposure > 1.0);
  }
  return course;
}

/// The coats of a plan whose steps are sprayed or brushed in one go. @param square_metres of each
/// coat, by piece. @param rates square metres from a litre, by product.
inline std::vector<Coat> coats_of(const Plan& plan,
                                  const std::map<std::string, double>& square_metres,
                                  double m2_per_l,
                                  double on_the_wood,
                                  double probability,
                                  const RecipeBook& book,
                                  const AirRecord& air) {
  std::vector<Coat> coats;
  own::Walk walk(air, plan.from - std::chrono::hours(3));
  for (const PlanStep& step : plan.steps) {
    if (step.kind != StepKind::kApply) {
      continue;
    }
    Coat coat;
    coat.product = *book.product(step.product);
    coat.piece = step.piece;
    coat.litres = square_metres.at(step.piece) / m2_per_l;
    coat.on_the_wood = on_the_wood;
    coat.kelvin = air.at(step.start).temperature.kelvin();
    coat.start = step.start;
    coat.end = step.end;
    coat.set = reached(*coat.product,
                       {Stage::kDustFree, Stage::kTackFree, Stage::kRecoat},
                       coat.end,
                       probability,
                       walk)
                   .value();
    coat.set = std::max(coat.set, coat.end + seconds(60));
    coat.dry = std::max(coat.set + (coat.set - coat.end),
                        reached(*coat.product,
                                {Stage::kPrintFree, Stage::kHandle, Stage::kRecoat},
                                coat.end,
                                probability,
                                walk)
                            .value());
    coats.push_back(coat);
  }
  std::stable_sort(
      coats.begin(), coats.end(), [](const Coat& a, const Coat& b) { return a.start < b.start; });
  return coats;
}

}  // namespace own_room
