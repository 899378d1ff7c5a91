#include "drying/coat_progress.h"

#include <algorithm>
#include <cmath>

namespace coatwright {
namespace {

constexpr double kWidest = 8.0;  // deviates beyond it have a probability below 1e-15

/// Bisects a condition that holds below some deviate and fails above it.
template <class Holds>
double last_deviate(Holds holds) {
  double low = -kWidest;
  double high = kWidest;
  if (!holds(low)) {
    return low;
  }
  for (int i = 0; i < 45; ++i) {
    const double middle = (low + high) / 2.0;
    (holds(middle) ? low : high) = middle;
  }
  return low;
}

/// The coat's part of a deviate, where the shop's part is known.
double of_coat(double deviate, double shop_share, double shop) {
  return (deviate - std::sqrt(shop_share) * shop) / std::sqrt(1.0 - shop_share);
}

}  // namespace

std::optional<Time> CoatProgress::opens(const StageTiming& timing, double deviate, Time latest) {
  Time at = applied_;
  for (const Phase& phase : timing.phases) {
    const auto reached =
        clocks_.of(phase.law, minimum_).reached(at, phase.duration.at_deviate(deviate), latest);
    if (!reached) {
      return std::nullopt;
    }
    at = *reached;
  }
  return at;
}

Hours CoatProgress::earned(const StageTiming& timing, double deviate, Time at) {
  Hours sum = Hours::from_hours(0);
  Time from = applied_;
  for (std::size_t i = 0; i < timing.phases.size(); ++i) {
    const Phase& phase = timing.phases[i];
    DryingClock& clock = clocks_.of(phase.law, minimum_);
    const Hours needed = phase.duration.at_deviate(deviate);
    const auto reached = clock.reached(from, needed, at);
    if (!reached || i + 1 == timing.phases.size()) {
      return sum + clock.earned(from, at);
    }
    sum = sum + needed;
    from = *reached;
  }
  return sum;
}

double CoatProgress::opening_deviate(const StageTiming& timing, Time at) {
  if (timing.phases.size() == 1) {
    const Phase& phase = timing.phases.front();
    const Hours earned = clocks_.of(phase.law, minimum_).earned(applied_, at);
    return std::clamp(phase.duration.deviate_of(earned), -kWidest, kWidest);
  }
  return last_deviate([&](double deviate) { return opens(timing, deviate, at).has_value(); });
}

Time CoatProgress::closes(const StageTiming& closing, double deviate, Time latest) {
  const Phase& phase = closing.phases.back();
  const Hours hours = phase.duration.at_deviate(deviate);
  const Time by_label =
      applied_ + std::chrono::seconds(std::llround(std::floor(hours.hours() * 3600.0)));
  const auto by_clock = clocks_.of(phase.law, std::nullopt).reached(applied_, hours, latest);
  return by_clock ? std::min(by_label, *by_clock) : by_label;
}

double CoatProgress::closing_deviate(const StageTiming& closing, Time at) {
  const Phase& phase = closing.phases.back();
  const Hours by_clock = clocks_.of(phase.law, std::nullopt).earned(applied_, at);
  const Hours by_label = Hours::from_seconds(at - applied_);
  return std::clamp(phase.duration.deviate_of(std::max(by_clock, by_label)), -kWidest, kWidest);
}

double CoatProgress::chance_inside(const StageTiming& opening,
                                   const StageTiming* closing,
                                   Time at) {
  WindowDeviates window{opening_deviate(opening, at)};
  if (closing == nullptr) {
    return normal_probability(window.opening);
  }
  window.opening_share = opening.shop_share();
  window.closing = closing_deviate(*closing, at);
  window.closing_share = closing->shop_share();
  return joint_chance({&window, 1});
}

double joint_chance(std::span<const WindowDeviates> windows) {
  // Over the shop's part s, on which all depend: a trapezoid sum, which converges at once for a
  // smooth integrand that vanishes at both ends.
  constexpr double kStep = 0.125;
  double sum = 0.0;
  double weights = 0.0;
  for (double s = -kWidest; s <= kWidest; s += kStep) {
    const double weight = std::exp(-0.5 * s * s);
    double all = 1.0;
    for (const WindowDeviates& window : windows) {
      all *= normal_probability(of_coat(window.opening, window.opening_share, s)) *
             normal_probability(-of_coat(window.closing, window.closing_share, s));
    }
    sum += weight * all;
    weights += weight;
  }
  return sum / weights;
}

}  // namespace coatwright
