#include <algorithm>
#include <charconv>
#include <cmath>
#include <optional>

#include <fmt/format.h>

#include "air/air_record.h"
#include "base/quantity_text.h"

namespace coatwright {
namespace {

using std::chrono::hours;
using std::chrono::minutes;
using std::chrono::seconds;

std::string_view trim(std::string_view text) {
  constexpr std::string_view kBlank = " \t\r\n";
  const auto first = text.find_first_not_of(kBlank);
  if (first == std::string_view::npos) {
    return {};
  }
  return text.substr(first, text.find_last_not_of(kBlank) - first + 1);
}

std::optional<int> digits(std::string_view text) {
  int value = 0;
  const auto [end, failure] = std::from_chars(text.data(), text.data() + text.size(), value);
  const bool whole = failure == std::errc() && end == text.data() + text.size() && text[0] != '-';
  return whole ? std::optional(value) : std::nullopt;
}

std::optional<minutes> clock_of(std::string_view text) {
  const auto colon = text.find(':');
  if (colon == std::string_view::npos || colon == 0 || colon > 2 || text.size() - colon != 3) {
    return std::nullopt;
  }
  const auto hour = digits(text.substr(0, colon));
  const auto minute = digits(text.substr(colon + 1));
  if (!hour || !minute || *hour > 23 || *minute > 59) {
    return std::nullopt;
  }
  return hours(*hour) + minutes(*minute);
}

std::string show_clock_of(minutes of_day) {
  return fmt::format("{:02}:{:02}", of_day.count() / 60, of_day.count() % 60);
}

tl::unexpected<Error> unreadable(std::string_view part) {
  return fail(ErrorCode::kUsage,
              fmt::format("usual day: '{}' cannot be read: write a time from 0:00 to 23:59, a "
                          "temperature and a humidity, as in \"7:00 19C 50%; 22:00 15C 60%\"",
                          part));
}

Result<UsualDay::Point> point_of(std::string_view part) {
  const auto cut = part.find_first_of(" \t");
  const auto of_day = clock_of(part.substr(0, cut));
  if (!of_day || cut == std::string_view::npos) {
    return unreadable(part);
  }
  const auto air = parse_air(trim(part.substr(cut)));
  if (!air) {
    return pass_on(air.error(), fmt::format("usual day: '{}'", part));
  }
  return UsualDay::Point{*of_day, air->temperature, air->humidity};
}

bool earlier(const UsualDay::Point& a, const UsualDay::Point& b) {
  return a.of_day < b.of_day;
}

TemperatureAndRatio air_of(const UsualDay::Point& point) {
  return {point.temperature,
          humidity_ratio_from_relative_humidity(point.temperature, point.humidity)};
}

TemperatureAndRatio between(const TemperatureAndRatio& a, const TemperatureAndRatio& b, double x) {
  return {Temperature::from_kelvin(std::lerp(a.temperature.kelvin(), b.temperature.kelvin(), x)),
          HumidityRatio::from_kg_per_kg(std::lerp(a.ratio.kg_per_kg(), b.ratio.kg_per_kg(), x))};
}

double share(seconds part, seconds whole) {
  return static_cast<double>(part.count()) / static_cast<double>(whole.count());
}

// The first moment after `low` with the offset of `high`; the two lie around one change of the
// clocks.
Time change_between(Time low, Time high, const Zone& zone) {
  const auto offset = zone.offset_at(high);
  while (high - low > seconds(1)) {
    const Time middle = low + (high - low) / 2;
    (zone.offset_at(middle) == offset ? high : low) = middle;
  }
  return high;
}

seconds time_of_day(Time time, const Zone& zone) {
  const auto local = zone.to_local(time);
  return local - date::floor<date::days>(local);
}

// To four decimals, without the residue of conversions and without a sign on zero.
double rounded(double value) {
  return std::round(value * 1e4) / 1e4 + 0.0;
}

std::string show_point(const UsualDay::Point& point, UnitSystem units) {
  const bool us = units == UnitSystem::kUs;
  return fmt::format("{} {}{} {}%",
                     show_clock_of(point.of_day),
                     rounded(us ? point.temperature.fahrenheit() : point.temperature.celsius()),
                     us ? "F" : "C",
                     rounded(point.humidity.percent()));
}

}  // namespace

UsualDay UsualDay::constant(Temperature temperature, RelativeHumidity humidity) {
  UsualDay day;
  day.points_.push_back({minutes(0), temperature, humidity});
  return day;
}

Result<UsualDay> UsualDay::parse(std::string_view text) {
  UsualDay day;
  for (std::string_view rest = text; !rest.empty();) {
    const auto cut = rest.find(';');
    const auto part = trim(rest.substr(0, cut));
    rest = cut == std::string_view::npos ? std::string_view() : rest.substr(cut + 1);
    if (part.empty()) {
      continue;  // a semicolon at the end
    }
    const auto point = point_of(part);
    if (!point) {
      return pass_on(point.error());
    }
    day.points_.push_back(*point);
  }
  if (day.points_.empty()) {
    return unreadable(text);
  }
  std::stable_sort(day.points_.begin(), day.points_.end(), earlier);
  const auto twice = std::adjacent_find(
      day.points_.begin(), day.points_.end(), [](const Point& a, const Point& b) {
        return a.of_day == b.of_day;
      });
  if (twice != day.points_.end()) {
    return fail(ErrorCode::kUsage,
                fmt::format("usual day: {} is given twice in '{}'; each time may stand once",
                            show_clock_of(twice->of_day),
                            text));
  }
  return day;
}

std::string UsualDay::text(UnitSystem units) const {
  std::string whole;
  for (const Point& point : points_) {
    whole += (whole.empty() ? "" : "; ") + show_point(point, units);
  }
  return whole;
}

TemperatureAndRatio UsualDay::at(Time time, const Zone& zone) const {
  const Time before = corner_not_after(time, zone);
  const auto start = at_corner(before, zone);
  if (before == time) {
    return start;
  }
  const Time after = corner_after(time, zone);
  return between(start, at_corner(after, zone), share(time - before, after - before));
}

Time UsualDay::corner_after(Time time, const Zone& zone) const {
  const seconds of_day = time_of_day(time, zone);
  seconds next = date::floor<hours>(of_day) + hours(1);
  for (const Point& point : points_) {
    if (point.of_day > of_day) {
      next = std::min<seconds>(next, point.of_day);
    }
  }
  const Time corner = time + (next - of_day);
  const bool same_clock = zone.offset_at(corner) == zone.offset_at(time);
  return same_clock ? corner : change_between(time, corner, zone);
}

Time UsualDay::corner_not_after(Time time, const Zone& zone) const {
  const seconds of_day = time_of_day(time, zone);
  seconds last = date::floor<hours>(of_day);
  for (const Point& point : points_) {
    if (point.of_day <= of_day) {
      last = std::max<seconds>(last, point.of_day);
    }
  }
  const Time corner = time - (of_day - last);
  const bool same_clock = zone.offset_at(corner) == zone.offset_at(time);
  return same_clock ? corner : change_between(corner, time, zone);
}

TemperatureAndRatio UsualDay::at_corner(Time corner, const Zone& zone) const {
  constexpr seconds kDay = hours(24);
  const seconds of_day = time_of_day(corner, zone);
  const auto found = std::find_if(
      points_.begin(), points_.end(), [&](const Point& point) { return point.of_day > of_day; });
  // The points go round: before the first of the day comes the last of the day before.
  const Point& after = found == points_.end() ? points_.front() : *found;
  const Point& before = found == points_.begin() ? points_.back() : *(found - 1);
  const seconds whole = (after.of_day - before.of_day + kDay) % kDay;
  const seconds part = (of_day - before.of_day + kDay) % kDay;
  return whole == seconds(0) ? air_of(before)  // one point alone
                             : between(air_of(before), air_of(after), share(part, whole));
}

AirEntry shop_air_from_outdoors(const AirEntry& outdoors, const UsualDay& usual, const Zone& zone) {
  AirEntry shop = outdoors;
  shop.temperature = std::max(outdoors.temperature, usual.at(outdoors.at, zone).temperature);
  // Heating leaves the humidity ratio as it is: [ashrae2017] ch. 1.
  shop.humidity = relative_humidity_from_humidity_ratio(
      shop.temperature,
      humidity_ratio_from_relative_humidity(outdoors.temperature, outdoors.humidity));
  return shop;
}

}  // namespace coatwright
