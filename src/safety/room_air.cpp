#include "safety/room_air.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace coatwright {
namespace {

using std::chrono::seconds;

constexpr seconds kMinute{60};
/// The room is followed for so long after the last vapour has left its film.
constexpr std::chrono::hours kAfterLast{12};

bool is_never_cleared(const Product& product) {
  return product.hazards.isocyanates || product.hazards.formaldehyde;
}

/// Of the explosive limit in the air, from products that are flammable: below it the room counts as
/// free of flammable vapour for a fan that is not rated for it. Source: judgement, a 25th of the
/// rule's quarter.
constexpr double kFreeOfFlammable = 0.01;

/// One substance in the room, that of flammable products apart from that of others.
struct Vapours {
  const Substance* substance;
  bool of_flammable;
  std::vector<double> set_free;  ///< m3, by minute.
  std::vector<double> begun;     ///< m3, all that coats begun in a minute will set free.
  double in_air = 0;             ///< Fraction.
  double in_films = 0;           ///< m3
};

class RoomModel {
 public:
  RoomModel(const FinishingRoom& room, const std::vector<RoomSource>& sources)
      : room_(room), sources_(sources) {
    Time first = sources.front().applied.start;
    Time last = first;
    for (const RoomSource& source : sources) {
      first = std::min(first, source.applied.start);
      last = std::max(last, source.points.back().at);
    }
    course_.from = std::chrono::floor<std::chrono::minutes>(first);
    count_ = minute_of(last + kAfterLast) + 1;
    flammable_.resize(count_);
    never_cleared_.resize(count_);
    applied_.resize(count_);
    for (const RoomSource& source : sources) {
      add(source);
    }
  }

  RoomCourse follow() {
    course_.minutes.reserve(count_);
    for (minute_ = 0; minute_ < count_; ++minute_) {
      begin_coats();
      pass_minute();
      end_run();
    }
    return std::move(course_);
  }

 private:
  [[nodiscard]] std::size_t minute_of(Time at) const {
    return static_cast<std::size_t>((at - course_.from) / kMinute);
  }
  [[nodiscard]] Time time_of(std::size_t minute) const {
    return course_.from + kMinute * static_cast<std::int64_t>(minute);
  }

  void add(const RoomSource& source) {
    const std::size_t first = minute_of(source.applied.start);
    const std::size_t strokes_end = minute_of(source.applied.end);
    const std::size_t last = minute_of(source.points.back().at);
    const Product& product = *source.coat.product;
    for (std::size_t i = first; i <= last; ++i) {
      flammable_[i] = flammable_[i] || product.hazards.flammable;
      never_cleared_[i] = never_cleared_[i] || is_never_cleared(product);
      applied_[i] = applied_[i] || i <= strokes_end;
    }
    for (const VapourPart& part : source.coat.parts) {
      Vapours& vapours = of(*part.substance, product.hazards.flammable);
      vapours.begun[first] += part.vapour.cubic_metres();
      spread(source.points, part.vapour.cubic_metres(), vapours.set_free);
    }
  }

  Vapours& of(const Substance& substance, bool of_flammable) {
    const auto found = std::find_if(vapours_.begin(), vapours_.end(), [&](const Vapours& one) {
      return one.substance == &substance && one.of_flammable == of_flammable;
    });
    if (found != vapours_.end()) {
      return *found;
    }
    const std::vector<double> none(count_);
    vapours_.push_back({&substance, of_flammable, none, none, 0.0, 0.0});
    return vapours_.back();
  }

  /// Adds to each minute what is set free in it.
  void spread(const std::vector<ReleasePoint>& points, double total, std::vector<double>& into) {
    for (std::size_t i = 1; i < points.size(); ++i) {
      const double share = points[i].share - points[i - 1].share;
      const auto span = std::max(seconds(1), points[i].at - points[i - 1].at);
      for (Time at = points[i - 1].at; at < points[i - 1].at + span;) {
        const std::size_t minute = minute_of(at);
        const Time next = std::min(time_of(minute + 1), points[i - 1].at + span);
        into[minute] += total * share * static_cast<double>((next - at).count()) /
                        static_cast<double>(span.count());
        at = next;
      }
    }
  }

  void begin_coats() {
    for (Vapours& one : vapours_) {
      one.in_films += one.begun[minute_];
    }
    const bool counts = fan().cubic_metres_per_second() > 0.0;
    if (running_ && !counts) {  // flammable vapour comes, and it is not rated for that
      course_.runs.back().off = time_of(minute_);
      running_ = false;
    }
    if (applied_[minute_] && counts) {
      if (!running_) {
        course_.runs.push_back({time_of(minute_), std::nullopt, std::nullopt});
        running_ = true;
        cleared_ = true;
      }
      course_.runs.back().breathable.reset();
    }
    cleared_ = cleared_ && !never_cleared_[minute_];
  }

  /// What the fan counts for in this minute.
  [[nodiscard]] AirFlow fan() const {
    return room_.flow_for(flammable_[minute_] || holds_flammable());
  }

  [[nodiscard]] bool holds_flammable() const {
    RoomMinute of_flammable;
    for (const Vapours& one : vapours_) {
      add_to(of_flammable, *one.substance, one.of_flammable ? one.in_air : 0.0);
    }
    return of_flammable.of_explosive_limit >= kFreeOfFlammable;
  }

  void pass_minute() {
    const AirVolume volume = *room_.volume;
    const MixedRoom mixed =
        running_ ? MixedRoom::with_fan(volume, fan(), room_.mixing)
                 : MixedRoom{volume,
                             AirFlow::from_cubic_metres_per_hour(kLeaks * volume.cubic_metres())};
    RoomMinute now{0.0, 0.0, running_};
    for (Vapours& one : vapours_) {
      const double freed = one.set_free[minute_];
      one.in_films = std::max(0.0, one.in_films - freed);
      one.in_air = fraction_after(mixed,
                                  VapourFraction::from_fraction(one.in_air),
                                  AirFlow::from_cubic_metres_per_second(freed / 60.0),
                                  kMinute)
                       .fraction();
      add_to(now, *one.substance, one.in_air);
    }
    course_.minutes.push_back(now);
  }

  static void add_to(RoomMinute& minute, const Substance& substance, double fraction) {
    if (const auto* limit = substance.lowest_explosive_limit()) {
      minute.of_explosive_limit += fraction / limit->value.fraction();
    }
    if (const auto* limit = substance.strictest_limit()) {
      minute.of_exposure_limits += fraction / limit->at_most.value.fraction();
    }
  }

  void end_run() {
    if (!running_ || applied_[minute_]) {
      return;
    }
    const Time now = time_of(minute_ + 1);
    FanRun& run = course_.runs.back();
    if (course_.minutes.back().of_exposure_limits > 1.0) {
      run.breathable.reset();  // the films set free more than they did while they were put on
    } else if (cleared_ && !run.breathable) {
      run.breathable = now;
    }
    if (may_stand_still()) {
      run.off = cleared_ ? std::optional(now) : std::nullopt;
      running_ = false;
    }
  }

  /// Whether all that is in the air and in the films may stay in the room.
  [[nodiscard]] bool may_stand_still() const {
    RoomMinute still;
    for (const Vapours& one : vapours_) {
      add_to(still, *one.substance, one.in_air + one.in_films / room_.volume->cubic_metres());
    }
    return still.of_explosive_limit <= kShareOfExplosiveLimit && still.of_exposure_limits <= 1.0;
  }

  const FinishingRoom& room_;
  const std::vector<RoomSource>& sources_;
  std::size_t count_ = 0;
  std::size_t minute_ = 0;
  std::vector<bool> flammable_;      ///< By minute: flammable vapour leaves a film.
  std::vector<bool> never_cleared_;  ///< By minute: something that no figure clears.
  std::vector<bool> applied_;        ///< By minute: a coat is being put on.
  std::vector<Vapours> vapours_;
  bool running_ = false;
  bool cleared_ = true;  ///< Of the run: nothing in it that no figure clears.
  RoomCourse course_;
};

template <class Value>
RoomCourse::Peak peak_of(const RoomCourse& course, Interval within, Value value) {
  RoomCourse::Peak peak{0.0, within.start};
  for (std::size_t i = 0; i < course.minutes.size(); ++i) {
    const Time at = course.from + kMinute * static_cast<std::int64_t>(i + 1);
    if (at > within.start && at < within.end + kMinute && value(course.minutes[i]) > peak.value) {
      peak = {value(course.minutes[i]), at};
    }
  }
  return peak;
}

}  // namespace

std::string_view name_of(FanRating rating) {
  switch (rating) {
    case FanRating::kRated:
      return "yes";
    case FanRating::kNotRated:
      return "no";
    case FanRating::kUnknown:
      break;
  }
  return "unknown";
}

AirFlow FinishingRoom::flow_for(bool flammable) const {
  const bool counts = fan && (!flammable || rating == FanRating::kRated);
  return counts ? *fan : AirFlow::from_cubic_metres_per_second(0);
}

RoomCourse::Peak RoomCourse::peak_of_explosive_limit(Interval within) const {
  return peak_of(*this, within, [](const RoomMinute& one) { return one.of_explosive_limit; });
}

RoomCourse::Peak RoomCourse::peak_of_exposure_limits(Interval within) const {
  return peak_of(*this, within, [](const RoomMinute& one) { return one.of_exposure_limits; });
}

RoomCourse room_course(const FinishingRoom& room, const std::vector<RoomSource>& sources) {
  return sources.empty() || !room.volume ? RoomCourse{} : RoomModel(room, sources).follow();
}

}  // namespace coatwright
