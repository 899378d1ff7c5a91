#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "air/moist_air.h"
#include "base/result.h"
#include "base/time.h"
#include "base/zone.h"

namespace coatwright {

/// What an hour of air rests on, most trusted first.
enum class AirOrigin {
  kReading,   ///< A maker read an instrument.
  kLogger,    ///< A logger stood in the shop.
  kForecast,  ///< Somebody's expectation of the shop's air.
  kOutdoors,  ///< Outdoor air, measured or forecast, turned into shop air by
              ///< shop_air_from_outdoors().
  kUsualDay,  ///< Nothing else is known.
};

/// "reading", "logger", "forecast", "outdoors", "usual day".
[[nodiscard]] std::string_view name_of(AirOrigin origin);

/// One entry: what the air was, or is expected to be, at a moment.
struct AirEntry {
  Time at;
  Temperature temperature;
  RelativeHumidity humidity;
  AirOrigin origin = AirOrigin::kReading;
};

/// What runs linearly between two entries.
struct TemperatureAndRatio {
  Temperature temperature;
  HumidityRatio ratio;
};

/// The shop's air through day and night where nothing else is known: points on the local clock,
/// between which temperature and humidity ratio run linearly, around midnight too.
///
/// As a course over time it has its corners at the points and at each whole local hour, and runs
/// linearly between them; where the clocks are changed, the moment of the change is a corner too.
/// So the air has no jump in such a night: it stands at the repeated hour's value for an hour, or
/// runs through the left-out hour's change within the hour before.
class UsualDay {
 public:
  struct Point {
    std::chrono::minutes of_day;
    Temperature temperature;
    RelativeHumidity humidity;
  };

  /// The same air all day.
  [[nodiscard]] static UsualDay constant(Temperature temperature, RelativeHumidity humidity);
  /// Reads "7:00 19C 50%; 22:00 15C 60%" (also "7:00 19C,50%"), at least one point, 0:00 to 23:59,
  /// each time once. Errors: kUsage, kOutOfRange naming the part.
  [[nodiscard]] static Result<UsualDay> parse(std::string_view text);

  [[nodiscard]] const std::vector<Point>& points() const { return points_; }
  /// The text form that parse() reads back, to four decimals.
  [[nodiscard]] std::string text(UnitSystem units) const;
  [[nodiscard]] TemperatureAndRatio at(Time time, const Zone& zone) const;
  /// @return the first corner later than `time`; at most an hour later.
  [[nodiscard]] Time corner_after(Time time, const Zone& zone) const;

 private:
  UsualDay() = default;
  [[nodiscard]] Time corner_not_after(Time time, const Zone& zone) const;
  [[nodiscard]] TemperatureAndRatio at_corner(Time corner, const Zone& zone) const;

  std::vector<Point> points_;  // by time of day, at least one
};

/// Outdoor air as it becomes in the shop: the vapour comes in as it is, the temperature is the
/// shop's usual one at that hour, or the outdoor one when that is warmer. Source: heating at
/// constant humidity ratio, [ashrae2017] ch. 1; that the shop keeps its usual temperature is
/// judgement.
[[nodiscard]] AirEntry shop_air_from_outdoors(const AirEntry& outdoors,
                                              const UsualDay& usual,
                                              const Zone& zone);

/// The air at one moment, with what follows from it.
struct AirState {
  Temperature temperature;
  RelativeHumidity humidity;
  Temperature dew_point;
  AirOrigin origin;  ///< At an entry's own moment the entry's, else that of the stretch.

  [[nodiscard]] TemperatureDifference spread() const { return temperature - dew_point; }
};

/// A corner of the air record; between two corners temperature and humidity ratio run linearly.
struct AirKnot {
  Time at;
  Temperature temperature;
  HumidityRatio ratio;
  AirOrigin origin;  ///< Of the stretch that begins here.
};

/// The shop's temperature and humidity over time: entries, and the usual day where they end.
/// Between entries up to kLongestGap apart temperature and humidity ratio run linearly, and the
/// stretch has the origin of the entry it starts from. A longer gap is filled by the usual day and
/// marked so throughout; over kReach from an entry the air runs linearly between the two. Before
/// the first and after the last entry it is the same. Humidity is capped at saturation in an
/// AirState; a corner's humidity ratio is as interpolated.
class AirRecord {
 public:
  static constexpr std::chrono::hours kLongestGap{3};
  static constexpr std::chrono::minutes kReach{90};

  /// @param entries in any order and of any origin but kUsualDay; kOutdoors entries are still
  /// outdoor air. Where origins overlap in time the more trusted one is used alone: measured
  /// (reading, logger) before forecast before outdoors; an entry covers kReach around itself. Of
  /// measured entries of one moment a reading is used before a logger, and of equals the last
  /// given.
  AirRecord(std::vector<AirEntry> entries, UsualDay usual, Zone zone);

  [[nodiscard]] AirState at(Time time) const;
  /// @param to at or after `from`.
  /// @return the corners from `from` to `to`, both included (interpolated where no corner lies), in
  /// order; at least two when from < to, one when they are equal.
  [[nodiscard]] std::vector<AirKnot> knots(Time from, Time to) const;
  [[nodiscard]] const UsualDay& usual_day() const { return usual_; }
  [[nodiscard]] const Zone& zone() const { return zone_; }
  [[nodiscard]] bool has_entries() const { return !entries_.empty(); }

 private:
  using Knots = std::vector<AirKnot>;

  [[nodiscard]] AirKnot usual_knot(Time time) const;
  [[nodiscard]] AirKnot knot_at(Time time) const;
  [[nodiscard]] bool usual_rules_before(Knots::const_iterator next) const;
  [[nodiscard]] Interval usual_stretch(Knots::const_iterator next) const;
  void add_corners_before(Knots::const_iterator next, Interval within, Knots& into) const;

  Knots entries_;  // by time, one layer; the origin is the entry's own
  UsualDay usual_;
  Zone zone_;
};

}  // namespace coatwright
