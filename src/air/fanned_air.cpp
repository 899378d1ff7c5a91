#include "air/fanned_air.h"

#include <algorithm>
#include <cmath>

namespace coatwright {
namespace {

constexpr std::chrono::minutes kStep{5};
/// After the last run the shop is followed for so long; then it counts as back.
constexpr std::chrono::hours kFollowed{4};

/// What is in the air of the room.
struct RoomState {
  double kelvin;
  double ratio;
};

RoomState state_at(const AirRecord& air, Time at) {
  const AirKnot knot = air.knots(at, at).front();
  return {knot.temperature.kelvin(), knot.ratio.kg_per_kg()};
}

bool is_measured(AirOrigin origin) {
  return origin == AirOrigin::kReading || origin == AirOrigin::kLogger;
}

class FanAir {
 public:
  FanAir(const AirRecord& shop,
         const AirRecord& outdoors,
         const std::vector<Interval>& runs,
         double changes_per_hour)
      : shop_(shop), outdoors_(outdoors), runs_(runs), changes_(changes_per_hour) {}

  /// What is known of the shop without the fan: what was measured, and all that lies outside of the
  /// fan's hours.
  void keep_known(Interval known) {
    for (const AirKnot& knot : shop_.knots(known.start, known.end)) {
      const AirOrigin origin = shop_.at(knot.at).origin;
      const RoomState state{knot.temperature.kelvin(), knot.ratio.kg_per_kg()};
      if (is_measured(origin) || (origin != AirOrigin::kUsualDay && !is_followed(knot.at))) {
        add(knot.at, state, origin);
      }
    }
  }

  void follow() {
    Time reached = Time::min();
    for (std::size_t i = 0; i < runs_.size(); ++i) {
      const Interval& run = runs_[i];
      if (run.start > reached) {  // not on the way back from the run before
        add(run.start - std::chrono::seconds(1),
            state_at(shop_, run.start - std::chrono::seconds(1)),
            AirOrigin::kForecast);
        state_ = state_at(shop_, run.start);
      }
      const Time back = run.end + kFollowed;
      reached = i + 1 < runs_.size() ? std::min(back, runs_[i + 1].start) : back;
      follow(run, reached);
    }
  }

  [[nodiscard]] AirRecord record() && {
    return {std::move(entries_), shop_.usual_day(), shop_.zone()};
  }

 private:
  [[nodiscard]] bool is_followed(Time at) const {
    return std::any_of(runs_.begin(), runs_.end(), [at](const Interval& run) {
      return run.start <= at && at <= run.end + kFollowed;
    });
  }

  void follow(const Interval& run, Time until) {
    for (Time at = run.start;;) {
      if (is_measured(shop_.at(at).origin)) {
        state_ = state_at(shop_, at);  // with the fan, as it was
      } else {
        add(at, state_, AirOrigin::kForecast);
      }
      if (at >= until) {
        return;
      }
      const bool fan = at < run.end;
      const Time next = std::min({at + kStep, until, fan ? run.end : until});
      pass(at, next - at, fan);
      at = next;
    }
  }

  void add(Time at, const RoomState& state, AirOrigin origin) {
    const auto temperature = Temperature::from_kelvin(state.kelvin);
    const auto humidity = relative_humidity_from_humidity_ratio(
        temperature, HumidityRatio::from_kg_per_kg(state.ratio));
    entries_.push_back(
        {at, temperature, std::min(humidity, RelativeHumidity::from_fraction(1.0)), origin});
  }

  void pass(Time at, std::chrono::seconds span, bool fan) {
    const RoomState without = state_at(shop_, at);
    RoomState goal = without;
    if (fan) {
      const RoomState drawn_in = state_at(outdoors_, at);
      goal.kelvin += kShareOfOutdoorTemperature * (drawn_in.kelvin - without.kelvin);
      goal.ratio = drawn_in.ratio;
    }
    const double hours = std::chrono::duration<double, std::ratio<3600>>(span).count();
    const double left = std::exp(-(fan ? changes_ : kComesBackPerHour) * hours);
    state_.kelvin = goal.kelvin + (state_.kelvin - goal.kelvin) * left;
    state_.ratio = goal.ratio + (state_.ratio - goal.ratio) * left;
  }

  const AirRecord& shop_;
  const AirRecord& outdoors_;
  const std::vector<Interval>& runs_;
  double changes_;
  RoomState state_{0.0, 0.0};
  std::vector<AirEntry> entries_;
};

}  // namespace

AirRecord fanned(const AirRecord& shop,
                 const AirRecord& outdoors,
                 const std::vector<Interval>& runs,
                 double changes_per_hour,
                 Interval known) {
  FanAir fan(shop, outdoors, runs, changes_per_hour);
  fan.keep_known(known);
  fan.follow();
  return std::move(fan).record();
}

}  // namespace coatwright
