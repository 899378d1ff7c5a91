#pragma once

#include <functional>
#include <map>
#include <optional>
#include <tuple>
#include <utility>
#include <vector>

#include "plan/bench_session.h"
#include "plan/shop_request.h"
#include "plan/shop_ticks.h"
#include "plan/stage_lags.h"

/// When work of a shop's plan may begin, whatever else is planned: hours, the air, what the log
/// says.
namespace coatwright {

/// The hours in which anybody is there, those that touch joined.
[[nodiscard]] std::vector<Interval> openings_of(const std::vector<StaffedHours>& hours);

/// How many people are there, less those whom a list of spans keeps busy.
[[nodiscard]] std::vector<CapacityStep> people_over_time(const std::vector<StaffedHours>& hours,
                                                         const std::vector<Interval>& busy,
                                                         TickScale ticks);

/// The starts at which work of a length lies inside one opening.
struct StartRule {
  Tick length = 0;
  Tick first = 0;                         ///< No start before it.
  Tick last = kNeverTick;                 ///< No start after it.
  std::function<bool(Tick)> allows = {};  ///< Asked of each start on the grain; none: all are.
};
[[nodiscard]] StartSet starts_in(const std::vector<Interval>& openings,
                                 const StartRule& rule,
                                 TickScale ticks);

/// Asks whether the air bears a coat or a glue-up. Remembers what it found of the air.
class AirForWork {
 public:
  AirForWork(DryingClocks& clocks, WaitRule rule, TickScale ticks)
      : clocks_(clocks), rule_(rule), ticks_(ticks) {}

  /// @param coat with its film; its times are not used.
  /// @return whether a coat may be begun then: the air keeps the product's limits from the first
  /// stroke until the film is past its critical stage, what is to be wiped and what was mixed is so
  /// in time.
  [[nodiscard]] bool allows(const LaidCoat& coat, const BenchSession& session, Tick start);
  /// @return whether the air is within a glue's limits from the start until the clamps may come
  /// off.
  [[nodiscard]] bool allows(const Glue& glue, Tick start, Tick clamped_until);
  /// @return how long a glue may lie open from a moment on: the low end of its label's time, or
  /// sooner in warm air.
  [[nodiscard]] std::chrono::seconds open_time(const Glue& glue, Tick start);

 private:
  /// Where between two corners of the air a product's limits may not be kept.
  struct Doubt {
    std::vector<int> before;  ///< By corner: how many stretches before it are in doubt.
  };

  /// Coats that the air treats alike: product, film, thinner, and where in their sessions the
  /// strokes lie.
  using Alike = std::tuple<const Product*, double, double, double, long, long, std::size_t>;

  [[nodiscard]] bool reckon(const LaidCoat& coat, const BenchSession& session, Tick start);
  [[nodiscard]] bool is_breach(const Product& product, Tick at);
  [[nodiscard]] bool keeps_limits(const Product& product, Tick applied, Time set);
  [[nodiscard]] const Doubt& doubt_of(const Product& product);
  /// Whether any moment of a span lies in a stretch in doubt.
  [[nodiscard]] bool in_doubt(const Product& product, Time from, Time to);
  [[nodiscard]] bool may_break(const Limits& limits, std::size_t stretch) const;
  [[nodiscard]] Temperature temperature_at(Tick at);
  [[nodiscard]] bool in_time(const Product& product, const BenchSession& session, Time start);

  DryingClocks& clocks_;
  WaitRule rule_;
  TickScale ticks_;
  /// By product and minute past the grain; each by the number of the grain: unknown, kept, broken.
  std::map<std::pair<const Product*, Tick>, std::vector<char>> breaches_;
  std::vector<std::optional<Temperature>> temperatures_;  ///< By the number of the grain.
  std::vector<AirKnot> corners_;  ///< From some hours before the plan to its horizon.
  std::vector<Temperature> dew_points_;
  std::map<const Product*, Doubt> doubts_;
  std::map<Alike, std::vector<char>> answers_;  ///< By the number of the grain.
};

/// How long a build work is attended.
[[nodiscard]] std::chrono::seconds span_of(const BuildWork& work);

/// Whether a glue-up can be closed within the low end of its open time at the reference.
[[nodiscard]] bool fits_open_time(const BuildWork& work);

/// What of a glue is clamped: its range of times in clamps at the reference, by its law.
[[nodiscard]] StageTiming clamp_timing(const Glue& glue);

/// When a joint may be sanded or planed, from closing it, by the glue's law. @return none: as soon
/// as the clamps are off.
[[nodiscard]] std::optional<StageTiming> surface_timing(const Glue& glue);

}  // namespace coatwright
