#include "plan/coat_release.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace coatwright {
namespace {

using std::chrono::seconds;

/// In cold air the clock may not come to a stage; then it counts as reached after so long.
constexpr std::chrono::hours kLongest{24 * 7};
/// Of the tail an e^-kTailPower is left at its end, which counts as all of it.
constexpr double kTailPower = 3.0;
/// Straight stretches that stand for the tail's curve: each a little late, on the cautious side.
constexpr int kTailStretches = 20;

/// When the first of these stages that the product has is reached.
std::optional<Time> reached(const LaidCoat& coat,
                            std::initializer_list<Stage> stages,
                            DryingClocks& clocks,
                            double deviate) {
  for (const Stage stage : stages) {
    if (const auto timing = coat.timing(stage)) {
      const Time latest = coat.ended + kLongest;
      return coat.since_end(clocks).opens(*timing, deviate, latest).value_or(latest);
    }
  }
  return std::nullopt;
}

seconds scaled(seconds span, double factor) {
  return seconds(std::llround(static_cast<double>(span.count()) * factor));
}

}  // namespace

std::vector<ReleasePoint> release_of(const LaidCoat& coat,
                                     Interval applied,
                                     double on_the_wood,
                                     DryingClocks& clocks,
                                     double deviate) {
  const Time last_stroke = std::max(applied.end, applied.start + seconds(60));
  const Time set =
      std::max(last_stroke + seconds(60),
               reached(coat, {Stage::kDustFree, Stage::kTackFree, Stage::kRecoat}, clocks, deviate)
                   .value_or(last_stroke));
  const Time least_end = set + scaled(set - last_stroke, 1.0);
  const Time end =
      std::max(least_end,
               reached(coat, {Stage::kPrintFree, Stage::kHandle, Stage::kRecoat}, clocks, deviate)
                   .value_or(least_end));
  // While it is put on, the film is half that time old on average.
  const double half = static_cast<double>((last_stroke - applied.start).count()) / 2.0;
  const double while_applied =
      kOutWhenSet * std::min(1.0, half / static_cast<double>((set - last_stroke).count()));
  const auto share = [&](double of_film) { return 1.0 - on_the_wood + on_the_wood * of_film; };
  std::vector<ReleasePoint> points = {
      {applied.start, 0.0}, {last_stroke, share(while_applied)}, {set, share(kOutWhenSet)}};
  const double whole = 1.0 - std::exp(-kTailPower);
  for (int i = 1; i <= kTailStretches; ++i) {
    const double at = static_cast<double>(i) / kTailStretches;
    const double gone = (1.0 - std::exp(-kTailPower * at)) / whole;
    points.push_back(
        {set + scaled(end - set, at), share(kOutWhenSet + (1.0 - kOutWhenSet) * gone)});
  }
  return points;
}

}  // namespace coatwright
