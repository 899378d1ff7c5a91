#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/time.h"
#include "safety/coat_vapour.h"
#include "safety/ventilation.h"

/// What the air of the finishing room holds, minute by minute, while coats are put on and dry in
/// it. Well mixed; near the gun and low over the floor there is more.
namespace coatwright {

/// Whether a fan may stand in flammable vapour.
enum class FanRating { kRated, kNotRated, kUnknown };

/// "yes", "no", "unknown".
[[nodiscard]] std::string_view name_of(FanRating rating);

/// The room as the shop states it; what it did not say is not there.
struct FinishingRoom {
  std::optional<AirVolume> volume;
  std::optional<AirFlow> fan;  ///< What it moves, as stated; none: no exhaust fan.
  FanRating rating = FanRating::kUnknown;
  MixingFactor mixing = MixingFactor::assumed();
  std::string
      ignition;  ///< What could ignite vapour in it, in the shop's words; empty: none named.

  /// What the fan may be reckoned with: nothing for flammable vapour unless it is rated for it.
  [[nodiscard]] AirFlow flow_for(bool flammable) const;
};

/// How much of a coat's vapour is out of it by a moment; linear in between.
struct ReleasePoint {
  Time at;
  double share = 0;  ///< 0 at the first point, never falling, 1 at the last.
};

/// One coat whose vapour goes into the room.
struct RoomSource {
  CoatVapour coat;
  Interval applied;  ///< From the first stroke to the last, with wiping.
  std::vector<ReleasePoint> points;
};

/// The room's air through one minute.
struct RoomMinute {
  double of_explosive_limit = 0;  ///< All vapours together, each over its own lower limit.
  double of_exposure_limits = 0;  ///< The same over the limits of exposure.
  bool fan = false;
};

/// A stretch in which the fan runs.
struct FanRun {
  Time on;
  std::optional<Time> off;         ///< Not before; none: not in sight.
  std::optional<Time> breathable;  ///< Not before: within the limits of exposure from here until
                                   ///< the next coat; none: not in sight, or no figure may say so.
};

struct RoomCourse {
  Time from;
  std::vector<RoomMinute> minutes;
  std::vector<FanRun> runs;  ///< In order; none where nothing evaporates or there is no fan.

  struct Peak {
    double value = 0;
    Time at;
  };
  [[nodiscard]] Peak peak_of_explosive_limit(Interval within) const;
  [[nodiscard]] Peak peak_of_exposure_limits(Interval within) const;
};

/// A closed room loses at least so many times its air in an hour; reckoned with while no fan runs,
/// and never to say that a fan may be off. Source: judgement.
inline constexpr double kLeaks = 0.1;

/// Follows the room from the first stroke until nothing evaporates any more. The fan is on from a
/// coat's first stroke, and off as soon as what is in the air and what is still in the films would
/// together stay below a quarter of the explosive limit and within the limits of exposure with no
/// air changed at all. @param sources in any order.
/// Source: [acgih_ventilation] build-up and decay; when the fan is off, judgement on the cautious
/// side.
[[nodiscard]] RoomCourse room_course(const FinishingRoom& room,
                                     const std::vector<RoomSource>& sources);

}  // namespace coatwright
