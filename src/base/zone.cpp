#include "base/zone.h"

#include <array>
#include <cstdlib>
#include <stdexcept>
#include <string_view>

#include <date/tz.h>
#include <fmt/format.h>

#include "base/long_date.h"

namespace coatwright {
namespace {

using std::chrono::hours;
using std::chrono::minutes;
using std::chrono::seconds;

constexpr std::array<const char*, 7> kDays = {
    "Sunday", "Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday"};
constexpr std::array<const char*, 12> kMonths = {"January",
                                                 "February",
                                                 "March",
                                                 "April",
                                                 "May",
                                                 "June",
                                                 "July",
                                                 "August",
                                                 "September",
                                                 "October",
                                                 "November",
                                                 "December"};

struct Civil {
  explicit Civil(LocalTime local)
      : day(date::floor<date::days>(local)), date(day), of_day(local - day) {}
  date::local_days day;
  date::year_month_day date;
  date::hh_mm_ss<seconds> of_day;

  [[nodiscard]] std::string_view whole_weekday() const {
    return kDays[date::weekday(day).c_encoding()];
  }
  [[nodiscard]] std::string_view weekday() const { return whole_weekday().substr(0, 3); }
  [[nodiscard]] const char* month() const {
    return kMonths[static_cast<unsigned>(date.month()) - 1];
  }
};

std::string show_offset(seconds offset) {
  const char sign = offset < seconds(0) ? '-' : '+';
  const auto span = std::chrono::abs(std::chrono::duration_cast<minutes>(offset));
  return fmt::format("{}{:02}:{:02}", sign, span.count() / 60, span.count() % 60);
}

std::string show_local(LocalTime local) {
  const Civil c(local);
  return fmt::format("{:04}-{:02}-{:02}T{:02}:{:02}:{:02}",
                     static_cast<int>(c.date.year()),
                     static_cast<unsigned>(c.date.month()),
                     static_cast<unsigned>(c.date.day()),
                     c.of_day.hours().count(),
                     c.of_day.minutes().count(),
                     c.of_day.seconds().count());
}

}  // namespace

Result<Zone> Zone::find(const std::string& name) {
  try {
    return Zone(date::locate_zone(name));
  } catch (const std::exception&) {
    return fail(ErrorCode::kTime,
                fmt::format("the system knows no time zone '{}': write an IANA name such as "
                            "America/New_York or Europe/Berlin",
                            name));
  }
}

Zone Zone::of_machine() {
  try {
    if (const char* name = std::getenv("TZ"); name != nullptr && *name != '\0') {
      return Zone(date::locate_zone(*name == ':' ? name + 1 : name));
    }
    return Zone(date::current_zone());
  } catch (const std::exception&) {
    return Zone(date::locate_zone("UTC"));
  }
}

const std::string& Zone::name() const {
  return zone_->name();
}

seconds Zone::offset_at(Time time) const {
  return zone_->get_info(time).offset;
}

LocalTime Zone::to_local(Time time) const {
  return zone_->to_local(time);
}

std::vector<Time> Zone::moments_of(LocalTime local) const {
  const auto info = zone_->get_info(local);
  const auto as_time = [&](seconds offset) { return Time(local.time_since_epoch() - offset); };
  switch (info.result) {
    case date::local_info::unique:
      return {as_time(info.first.offset)};
    case date::local_info::ambiguous:
      return {as_time(info.first.offset), as_time(info.second.offset)};
    default:
      return {};
  }
}

Result<Time> Zone::to_time(LocalTime local) const {
  const auto moments = moments_of(local);
  if (moments.size() == 1) {
    return moments.front();
  }
  const Civil c(local);
  const std::string shown = fmt::format("{} {} {:02}:{:02}",
                                        c.weekday(),
                                        show_local(local).substr(0, 10),
                                        c.of_day.hours().count(),
                                        c.of_day.minutes().count());
  if (moments.empty()) {
    const Time after = to_time_leniently(local);
    return fail(ErrorCode::kTime,
                fmt::format("{} does not exist in {}: the clocks go forward that night, and the "
                            "first moment after it is {}",
                            shown,
                            name(),
                            show_rfc3339(after, *this)));
  }
  return fail(ErrorCode::kTime,
              fmt::format("{} exists twice in {}, because the clocks go back that night: write "
                          "{} for the first or {} for the second",
                          shown,
                          name(),
                          show_rfc3339(moments[0], *this),
                          show_rfc3339(moments[1], *this)));
}

Time Zone::to_time_leniently(LocalTime local) const {
  const auto info = zone_->get_info(local);
  if (info.result == date::local_info::nonexistent) {
    return info.first.end;
  }
  return Time(local.time_since_epoch() - info.first.offset);
}

std::string show_rfc3339(Time time, const Zone& zone) {
  return show_local(zone.to_local(time)) + show_offset(zone.offset_at(time));
}

std::string show_utc(Time time) {
  return show_local(LocalTime(time.time_since_epoch())) + "Z";
}

std::string show_clock(Time time, const Zone& zone) {
  const Civil c(zone.to_local(time));
  return fmt::format("{:02}:{:02}", c.of_day.hours().count(), c.of_day.minutes().count());
}

std::string show_day_and_time(Time time, const Zone& zone) {
  return fmt::format("{} {}", Civil(zone.to_local(time)).weekday(), show_clock(time, zone));
}

std::string show_date(Time time, const Zone& zone) {
  const Civil c(zone.to_local(time));
  return fmt::format("{} {} {} {}",
                     c.weekday(),
                     static_cast<unsigned>(c.date.day()),
                     c.month(),
                     static_cast<int>(c.date.year()));
}

std::string show_full(Time time, const Zone& zone) {
  return show_date(time, zone) + " " + show_clock(time, zone);
}

std::string show_duration(seconds span) {
  const auto total = (span.count() + (span.count() < 0 ? -30 : 30)) / 60;
  const auto left = std::abs(total);
  std::string text = total < 0 ? "-" : "";
  const auto days = left / (24 * 60);
  const auto whole_hours = left / 60 % 24;
  const auto whole_minutes = left % 60;
  if (days > 0) {
    text += fmt::format("{} d ", days);
  }
  if (whole_hours > 0) {
    text += fmt::format("{} h ", whole_hours);
  }
  if (whole_minutes > 0 || (days == 0 && whole_hours == 0)) {
    text += fmt::format("{} min ", whole_minutes);
  }
  text.pop_back();
  return text;
}

std::string long_date(date::local_days day) {
  const Civil c{LocalTime(day)};
  return fmt::format("{} {} {} {}",
                     c.whole_weekday(),
                     static_cast<unsigned>(c.date.day()),
                     c.month(),
                     static_cast<int>(c.date.year()));
}

}  // namespace coatwright
