#include <algorithm>
#include <optional>
#include <random>
#include <set>

#include <catch2/catch.hpp>

#include "air/air_record.h"

using namespace coatwright;
using std::chrono::hours;
using std::chrono::minutes;

// The air record against a second, slow telling of its rules that looks at every entry and walks
// the usual day minute by minute.
namespace {

struct NaiveAir {
  double kelvin;
  double ratio;
};

NaiveAir mix(const NaiveAir& a, const NaiveAir& b, double share) {
  return {a.kelvin * (1 - share) + b.kelvin * share, a.ratio * (1 - share) + b.ratio * share};
}

double minutes_between(Time from, Time to) {
  return static_cast<double>((to - from).count()) / 60.0;
}

NaiveAir air_of(Temperature temperature, RelativeHumidity humidity) {
  return {temperature.kelvin(),
          humidity_ratio_from_relative_humidity(temperature, humidity).kg_per_kg()};
}

int trust(AirOrigin origin) {
  return origin == AirOrigin::kReading ? static_cast<int>(AirOrigin::kLogger)
                                       : static_cast<int>(origin);
}

class NaiveRecord {
 public:
  NaiveRecord(const std::vector<AirEntry>& entries, UsualDay usual, Zone zone)
      : usual_(std::move(usual)), zone_(zone) {
    for (const AirOrigin level : {AirOrigin::kLogger, AirOrigin::kForecast, AirOrigin::kOutdoors}) {
      const auto trusted = used_;
      for (AirEntry entry : entries) {
        const auto near = [&](const AirEntry& other) {
          return std::chrono::abs(other.at - entry.at) <= minutes(90);
        };
        if (trust(entry.origin) != static_cast<int>(level) ||
            std::any_of(trusted.begin(), trusted.end(), near)) {
          continue;
        }
        used_.push_back(entry);
      }
    }
  }

  [[nodiscard]] NaiveAir at(Time time) const {
    const auto before = last_entry(time);
    const auto after = next_entry(time);
    if (before && after && minutes_between(before->at, after->at) <= 180) {
      return mix(shop_air(*before), shop_air(*after), share(before->at, time, after->at));
    }
    if (before && minutes_between(before->at, time) <= 90) {
      const Time end = before->at + minutes(90);
      return mix(shop_air(*before), usual(end), minutes_between(before->at, time) / 90);
    }
    if (after && minutes_between(time, after->at) <= 90) {
      const Time begin = after->at - minutes(90);
      return mix(usual(begin), shop_air(*after), minutes_between(begin, time) / 90);
    }
    return usual(time);
  }

  // Of the stretch that begins at or holds `time`.
  [[nodiscard]] AirOrigin stretch(Time time) const {
    const auto before = last_entry(time);
    const auto after = next_entry(time);
    const bool bridged = before && after && minutes_between(before->at, after->at) <= 180;
    return bridged ? before->origin : AirOrigin::kUsualDay;
  }

 private:
  static double share(Time from, Time time, Time to) {
    return minutes_between(from, time) / minutes_between(from, to);
  }

  [[nodiscard]] std::optional<AirEntry> last_entry(Time time) const {
    std::optional<AirEntry> found;
    for (const AirEntry& entry : used_) {
      if (entry.at <= time && (!found || entry.at > found->at)) {
        found = entry;
      }
    }
    return found;
  }

  [[nodiscard]] std::optional<AirEntry> next_entry(Time time) const {
    std::optional<AirEntry> found;
    for (const AirEntry& entry : used_) {
      if (entry.at > time && (!found || entry.at < found->at)) {
        found = entry;
      }
    }
    return found;
  }

  [[nodiscard]] NaiveAir shop_air(const AirEntry& entry) const {
    NaiveAir air = air_of(entry.temperature, entry.humidity);
    if (entry.origin == AirOrigin::kOutdoors) {
      air.kelvin = std::max(air.kelvin, usual(entry.at).kelvin);
    }
    return air;
  }

  [[nodiscard]] std::chrono::seconds clock(Time time) const {
    const auto local = zone_.to_local(time);
    return local - date::floor<date::days>(local);
  }

  [[nodiscard]] bool is_corner(Time time) const {
    const auto of_day = clock(time);
    const auto at_point = [&](const UsualDay::Point& point) { return point.of_day == of_day; };
    return of_day % hours(1) == minutes(0) ||
           zone_.offset_at(time) != zone_.offset_at(time - minutes(1)) ||
           std::any_of(usual_.points().begin(), usual_.points().end(), at_point);
  }

  // By the clock: walks back to a point and on to the next, minute by minute of the clock's face.
  [[nodiscard]] NaiveAir on_clock(minutes of_day) const {
    const auto point_at = [&](minutes face) -> const UsualDay::Point* {
      for (const UsualDay::Point& point : usual_.points()) {
        if (point.of_day == (face + hours(48)) % hours(24)) {
          return &point;
        }
      }
      return nullptr;
    };
    minutes back{0};
    while (point_at(of_day - back) == nullptr) {
      ++back;
    }
    minutes on{1};
    while (point_at(of_day + on) == nullptr) {
      ++on;
    }
    const UsualDay::Point& from = *point_at(of_day - back);
    const UsualDay::Point& to = *point_at(of_day + on);
    return mix(air_of(from.temperature, from.humidity),
               air_of(to.temperature, to.humidity),
               static_cast<double>(back.count()) / static_cast<double>((back + on).count()));
  }

  [[nodiscard]] NaiveAir usual(Time time) const {
    Time from = date::floor<minutes>(time);
    while (!is_corner(from)) {
      from -= minutes(1);
    }
    Time to = date::floor<minutes>(time) + minutes(1);
    while (!is_corner(to)) {
      to += minutes(1);
    }
    const auto corner = [&](Time t) { return on_clock(date::floor<minutes>(clock(t))); };
    return mix(corner(from), corner(to), share(from, time, to));
  }

  std::vector<AirEntry> used_;
  UsualDay usual_;
  Zone zone_;
};

class Dice {
 public:
  explicit Dice(unsigned number) : engine_(number) {}
  int whole(int low, int high) { return std::uniform_int_distribution<int>(low, high)(engine_); }
  double real(double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(engine_);
  }

 private:
  std::mt19937 engine_;
};

constexpr int kMinutes = 4 * 24 * 60;

std::vector<AirEntry> thrown_entries(Dice& dice, Time start) {
  std::set<int> used;
  std::vector<AirEntry> entries;
  const int count = dice.whole(0, 40);
  while (static_cast<int>(entries.size()) < count) {
    const int minute = dice.whole(0, kMinutes / 10) * 10;
    if (!used.insert(minute).second) {
      continue;
    }
    entries.push_back({start + minutes(minute),
                       Temperature::from_celsius(dice.real(-10, 35)),
                       RelativeHumidity::from_percent(dice.real(5, 100)),
                       static_cast<AirOrigin>(dice.whole(0, 3))});
  }
  return entries;
}

UsualDay thrown_day(Dice& dice) {
  std::set<int> minutes_of_day;
  for (int count = dice.whole(1, 5); count > 0; --count) {
    minutes_of_day.insert(dice.whole(0, 24 * 60 - 1));
  }
  std::string text;
  for (const int minute : minutes_of_day) {
    const std::string digits = std::to_string(minute % 60);
    text += std::to_string(minute / 60) + (digits.size() == 1 ? ":0" : ":") + digits + " " +
            std::to_string(dice.whole(5, 30)) + "C " + std::to_string(dice.whole(20, 90)) + "%;";
  }
  return UsualDay::parse(text).value();
}

NaiveAir along(const std::vector<AirKnot>& knots, Time time) {
  const auto after = std::find_if(
      knots.begin() + 1, knots.end() - 1, [&](const AirKnot& knot) { return knot.at >= time; });
  const AirKnot& from = *(after - 1);
  return mix({from.temperature.kelvin(), from.ratio.kg_per_kg()},
             {after->temperature.kelvin(), after->ratio.kg_per_kg()},
             minutes_between(from.at, time) / minutes_between(from.at, after->at));
}

void check_corners(const std::vector<AirKnot>& knots, const NaiveRecord& naive) {
  REQUIRE(knots.size() >= 2);
  for (std::size_t i = 0; i < knots.size(); ++i) {
    CAPTURE(show_utc(knots[i].at));
    CHECK((i == 0 || knots[i - 1].at < knots[i].at));
    CHECK(knots[i].origin == naive.stretch(knots[i].at));
  }
}

void check_moment(const AirRecord& air,
                  const std::vector<AirKnot>& knots,
                  const NaiveRecord& naive,
                  Time time) {
  CAPTURE(show_utc(time));
  const NaiveAir expected = naive.at(time);
  const NaiveAir by_corners = along(knots, time);
  CHECK(by_corners.kelvin == Approx(expected.kelvin).epsilon(1e-9));
  CHECK(by_corners.ratio == Approx(expected.ratio).epsilon(1e-9));
  const AirState state = air.at(time);
  CHECK(state.temperature.kelvin() == Approx(expected.kelvin).epsilon(1e-9));
  CHECK(state.humidity.fraction() <= 1.0);
  const auto humidity = relative_humidity_from_humidity_ratio(
      state.temperature, HumidityRatio::from_kg_per_kg(expected.ratio));
  CHECK(state.humidity.fraction() == Approx(humidity.fraction()).epsilon(1e-9));
}

void check_thrown_record(unsigned number, Time start, const Zone& zone) {
  Dice dice(number);
  const auto entries = thrown_entries(dice, start);
  const UsualDay usual = thrown_day(dice);
  const AirRecord air(entries, usual, zone);
  const NaiveRecord naive(entries, usual, zone);
  const Time from = start + std::chrono::seconds(dice.whole(-36000, 36000));
  const Time to = from + std::chrono::seconds(dice.whole(1, kMinutes * 60));
  const auto knots = air.knots(from, to);
  CHECK(knots.front().at == from);
  CHECK(knots.back().at == to);
  check_corners(knots, naive);
  for (int i = 0; i < 40; ++i) {
    check_moment(air,
                 knots,
                 naive,
                 from + std::chrono::seconds(dice.whole(0, static_cast<int>((to - from).count()))));
  }
}

}  // namespace

TEST_CASE("Thrown air records agree with a slow telling of the rules", "[air]") {
  // Consistency check against a second implementation, over both changes of the clocks.
  const auto new_york = Zone::find("America/New_York").value();
  const auto kolkata = Zone::find("Asia/Kolkata").value();
  for (unsigned number = 1; number <= 60; ++number) {
    CAPTURE(number);
    check_thrown_record(number, parse_rfc3339("2026-10-30T12:00:00Z").value(), new_york);
    check_thrown_record(number, parse_rfc3339("2027-03-12T12:00:00Z").value(), new_york);
    check_thrown_record(number, parse_rfc3339("2027-07-01T00:00:00Z").value(), kolkata);
  }
}
