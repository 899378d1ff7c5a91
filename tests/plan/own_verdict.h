#pragma once

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <vector>

#include "plan/own_drying.h"
#include "plan/verdict.h"

/// Verdicts reckoned once more, from docs/formulas.md and docs/commands/coat.md, by integrals of
/// our own: nothing of src/drying but the recipes' parameters.
namespace own_verdict {

using namespace coatwright;
using std::chrono::hours;
using std::chrono::minutes;
using std::chrono::seconds;

inline constexpr hours kHorizon{24 * 28};
inline constexpr seconds kSlack{60};
inline constexpr double kChanceSlack = 0.01;

inline double hours_at(const DurationRange& range, double deviate) {
  const double low = range.low().hours();
  const double high = range.high().hours();
  return std::sqrt(low * high) * std::pow(high / low, deviate / own::normal_deviate(0.9) / 2.0);
}

/// The deviate of a duration; a range without a spread is passed or it is not.
inline double deviate_of(const DurationRange& range, double passed) {
  if (passed <= 0.0) {
    return -8.0;
  }
  const double low = range.low().hours();
  const double high = range.high().hours();
  if (high <= low) {
    return passed >= low - 1e-6 ? 8.0 : -8.0;
  }
  const double halves = 2.0 * std::log(passed / std::sqrt(low * high)) / std::log(high / low);
  return std::clamp(halves * own::normal_deviate(0.9), -8.0, 8.0);
}

/// P(X <= opening and Y >= closing), X and Y standard normal with the correlation 1/2 that half of
/// the variance in common gives: the integral over X of its density and P(Y >= closing | X).
inline double chance_of_both(double opening, double closing) {
  const double step = 0.002;
  double sum = 0.0;
  for (double x = -8.0 + step / 2.0; x < opening; x += step) {
    sum += std::exp(-0.5 * x * x) * own::normal_probability((0.5 * x - closing) / std::sqrt(0.75));
  }
  return sum * step / std::sqrt(2.0 * 3.14159265358979);
}

struct Coat {
  const Product* product;
  Time begun;
  Time ended;
  double film_ratio = 1.0;
};

struct Window {
  bool abrade = false;
  std::optional<Time> opens;
  std::optional<Time> closes;
  double open_chance = 0.0;
  double unclosed_chance = 1.0;
  double inside_chance = 0.0;

  [[nodiscard]] bool early(Time at) const { return !opens || at < *opens; }
  [[nodiscard]] bool late(Time at) const { return closes && at > *closes; }
  [[nodiscard]] bool is_sure_somewhen() const { return opens && (!closes || *opens <= *closes); }
  /// So near to an edge that seconds decide.
  [[nodiscard]] bool is_on_edge(Time at) const {
    return (opens && std::chrono::abs(at - *opens) <= kSlack) ||
           (closes && std::chrono::abs(at - *closes) <= kSlack);
  }
};

class Reckoning {
 public:
  Reckoning(const AirRecord& air, Time start) : air_(air), start_(start), walk_(air, start) {}

  /// When a stage is reached at a deviate of its ranges.
  std::optional<Time> opens(const Coat& coat,
                            const StageTiming& timing,
                            double deviate,
                            Time latest) {
    Time at = coat.ended;
    for (const Phase& phase : timing.phases) {
      const auto next = walk_.reached(phase.law,
                                      gate_of(coat),
                                      at,
                                      film_factor(coat, phase) * hours_at(phase.duration, deviate),
                                      latest);
      if (!next) {
        return std::nullopt;
      }
      at = *next;
    }
    return at;
  }

  double opening_deviate(const Coat& coat, const StageTiming& timing, Time at) {
    if (timing.phases.size() == 1) {
      const Phase& phase = timing.phases.front();
      return deviate_of(
          phase.duration,
          walk_.earned(phase.law, gate_of(coat), coat.ended, at) / film_factor(coat, phase));
    }
    double low = -8.0;
    double high = 8.0;
    for (int i = 0; i < 30; ++i) {
      const double middle = (low + high) / 2.0;
      (at > coat.ended && opens(coat, timing, middle, at) ? low : high) = middle;
    }
    return low;
  }

  Window window(const Coat& coat, const RecoatInterval& interval, double confidence, Time at) {
    const double deviate = own::normal_deviate(confidence);
    Window window;
    window.abrade = interval.condition == RecoatCondition::kAbrade;
    window.opens = opens(coat, interval.opens, deviate, at + kHorizon);
    const double opening = opening_deviate(coat, interval.opens, at);
    window.open_chance = own::normal_probability(opening);
    window.inside_chance = window.open_chance;
    if (interval.closes) {
      const Phase& phase = interval.closes->phases.back();
      const double needed = hours_at(phase.duration, -deviate);
      const Time label = coat.begun + seconds(std::llround(needed * 3600.0));
      window.closes =
          walk_.reached(phase.law, std::nullopt, coat.begun, needed, label).value_or(label);
      const double passed = static_cast<double>((at - coat.begun).count()) / 3600.0;
      const double closing = deviate_of(
          phase.duration, std::max(passed, walk_.earned(phase.law, std::nullopt, coat.begun, at)));
      window.unclosed_chance = own::normal_probability(-closing);
      window.inside_chance = chance_of_both(opening, closing);
    }
    return window;
  }

  /// Whether the air keeps a product's limits until its critical stage; nothing where some air is
  /// within a hair of a limit.
  std::optional<bool> keeps_limits(const Product& product, Time at, double confidence) {
    const DryingStage* critical = product.stage(product.limits.critical_stage);
    Time until = at;
    if (critical != nullptr) {
      until =
          opens(
              {&product, at, at}, critical->timing, own::normal_deviate(confidence), at + kHorizon)
              .value_or(at + kHorizon);
    }
    bool doubtful = false;
    double surface = 0.0;
    // A board follows the air with a lag of 20 minutes: dTs/dt = (Ta - Ts) / lag.
    const Time from = std::max(start_, at - hours(4));
    for (Time time = from; time <= until + minutes(1); time += minutes(1)) {
      const own::Walk::Air air = walk_.at(time);
      surface = time == from ? air.kelvin : surface + (air.kelvin - surface) * (1.0 / 20.0);
      if (time < at) {
        continue;
      }
      const double margin = margin_of(product.limits, air, surface);
      // The film is set between two whole minutes.
      if (margin < -0.1 && time <= until) {
        return false;
      }
      doubtful = doubtful || margin < 0.1;
    }
    return doubtful ? std::nullopt : std::optional(true);
  }

 private:
  static std::optional<double> gate_of(const Coat& coat) {
    const auto& minimum = coat.product->limits.temperature_min;
    return minimum ? std::optional(minimum->value.kelvin()) : std::nullopt;
  }
  static double film_factor(const Coat& coat, const Phase& phase) {
    return std::pow(coat.film_ratio, phase.film_exponent);
  }

  /// The least distance to a limit: kelvins, or percents of humidity.
  static double margin_of(const Limits& limits, own::Walk::Air air, double surface) {
    double margin = 100.0;
    for (const auto& least : {limits.temperature_min, limits.film_formation_min}) {
      margin = least ? std::min(margin, air.kelvin - least->value.kelvin() + 0.11) : margin;
    }
    if (limits.humidity_max) {
      const double left = limits.humidity_max->value.fraction() - air.humidity;
      margin = std::min(margin, left * 100.0 + 0.11);
    }
    // Only where it may matter, since the dew point is found by halving: a cold board in air that
    // warms fast comes near it in dry air too.
    if (limits.dew_point_spread_min && (air.humidity > 0.6 || air.kelvin - surface > 1.0)) {
      const double spread = surface - own::dew_point(air.kelvin, air.humidity);
      margin = std::min(margin, (spread - limits.dew_point_spread_min->value.kelvin()) * 0.5);
    }
    return margin;
  }

  const AirRecord& air_;
  Time start_;
  own::Walk walk_;
};

struct Expected {
  VerdictKind kind = VerdictKind::kInWindow;
  std::optional<Time> moment;
  double chance = 1.0;
  bool unabraded = false;
  bool on_edge = false;
};

inline bool likelier_late(const Window& window, Time at) {
  return window.late(at) && (!window.early(at) || window.open_chance > window.unclosed_chance);
}

/// What the windows say by docs/commands/coat.md: early, the coat beneath was not ready; late, the
/// window had closed and the face was not abraded.
inline Expected judged(const std::vector<Window>& windows, Time at) {
  Expected expected;
  const Window* best = nullptr;
  for (const Window& window : windows) {
    expected.on_edge = expected.on_edge || window.is_on_edge(at) ||
                       std::abs(window.open_chance - window.unclosed_chance) < 0.005;
    if (!window.early(at) && !window.late(at) &&
        (best == nullptr || window.inside_chance > best->inside_chance)) {
      best = &window;
    }
  }
  if (best != nullptr) {
    expected.moment = best->closes;
    expected.chance = best->inside_chance;
    return expected;
  }
  const bool can_wait_for_abraded = std::any_of(
      windows.begin(), windows.end(), [](const Window& window) { return window.abrade; });
  for (const Window& window : windows) {
    if (likelier_late(window, at)) {
      if (!can_wait_for_abraded) {
        expected.kind = VerdictKind::kLate;
        expected.moment = window.closes;
        expected.chance = window.inside_chance;
        return expected;
      }
      continue;
    }
    const bool sooner = best == nullptr ||
                        (window.is_sure_somewhen() && !best->is_sure_somewhen()) ||
                        (window.is_sure_somewhen() == best->is_sure_somewhen() && window.opens &&
                         (!best->opens || *window.opens < *best->opens));
    if (sooner) {
      best = &window;
    }
  }
  expected.kind = VerdictKind::kEarly;
  expected.moment = best->opens;
  expected.chance = best->inside_chance;
  return expected;
}

inline Expected verdict(Reckoning& reckoning,
                        const Coat& coat,
                        const PairRule& rule,
                        Time at,
                        bool abraded,
                        double confidence) {
  std::vector<Window> as_it_is;
  std::vector<Window> all;
  for (const RecoatInterval& interval : rule.intervals) {
    if (interval.condition == RecoatCondition::kNever) {
      continue;
    }
    all.push_back(reckoning.window(coat, interval, confidence, at));
    if (!all.back().abrade) {
      as_it_is.push_back(all.back());
    }
  }
  const bool unabraded = !abraded && as_it_is.empty();
  Expected expected = judged(abraded || unabraded ? all : as_it_is, at);
  expected.unabraded = unabraded;
  return expected;
}

inline const Finding* of_kind(const Verdict& verdict, VerdictKind kind) {
  const auto found = std::find_if(verdict.findings.begin(),
                                  verdict.findings.end(),
                                  [&](const Finding& one) { return one.kind == kind; });
  return found == verdict.findings.end() ? nullptr : &*found;
}

/// What holds of every verdict. Returns a sentence for each thing that does not.
inline std::vector<std::string> broken_rules(const Verdict& verdict) {
  std::vector<std::string> broken;
  if (verdict.findings.empty()) {
    return {"no finding"};
  }
  const std::vector<VerdictKind> worst_first = {VerdictKind::kForbidden,
                                                VerdictKind::kEarly,
                                                VerdictKind::kLate,
                                                VerdictKind::kUnabraded,
                                                VerdictKind::kOutsideLimits,
                                                VerdictKind::kInWindow};
  auto place = worst_first.begin();
  for (const Finding& finding : verdict.findings) {
    const auto next = std::find(worst_first.begin(), worst_first.end(), finding.kind);
    if (next < place) {
      broken.push_back("not worst first");
    }
    place = next;
    const bool in_window = finding.kind == VerdictKind::kInWindow;
    if (in_window && verdict.findings.size() > 1) {
      broken.push_back("in window does not stand alone");
    }
    if (finding.by < seconds(0)) {
      broken.push_back("by is negative");
    }
    if (!(finding.chance >= 0.0 && finding.chance <= 1.0)) {
      broken.push_back("chance is none");
    }
    if (finding.text.empty() ||
        (!in_window && (finding.to_do.empty() || finding.may_happen.empty()))) {
      broken.push_back("says too little");
    }
  }
  return broken;
}

}  // namespace own_verdict
