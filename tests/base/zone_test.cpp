#include "base/zone.h"

#include <algorithm>
#include <array>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <memory>
#include <optional>
#include <string>

#include <catch2/catch.hpp>

using namespace coatwright;
using namespace std::chrono_literals;
using Catch::Contains;

namespace {

Zone zone_named(const std::string& name) {
  return Zone::find(name).value();
}
Time moment(std::string_view text) {
  return parse_rfc3339(text).value();
}

const std::vector<std::string>& tested_zones() {
  static const std::vector<std::string> zones = {"America/New_York",
                                                 "Europe/Berlin",
                                                 "Australia/Sydney",
                                                 "Australia/Lord_Howe",
                                                 "America/Sao_Paulo",
                                                 "America/Los_Angeles",
                                                 "Europe/Dublin",
                                                 "Pacific/Apia",
                                                 "Asia/Kolkata",
                                                 "Africa/Casablanca",
                                                 "America/St_Johns",
                                                 "UTC"};
  return zones;
}

struct Pipe {
  explicit Pipe(const std::string& command) : stream(popen(command.c_str(), "r"), &pclose) {}
  bool line(std::string& into) {
    std::array<char, 512> buffer{};
    if (!stream ||
        std::fgets(buffer.data(), static_cast<int>(buffer.size()), stream.get()) == nullptr) {
      return false;
    }
    into = buffer.data();
    return true;
  }
  std::unique_ptr<std::FILE, int (*)(std::FILE*)> stream;
};

/// A line of zdump -v: a second beside a change of clocks, and the offset at it.
struct DumpedSecond {
  Time at;
  std::chrono::seconds offset;
};

/// "ZONE  Sun Mar  8 06:59:59 2015 UT = Sun Mar  8 01:59:59 2015 EST isdst=0 gmtoff=-18000"
std::optional<DumpedSecond> parse_dumped(const std::string& line) {
  std::array<char, 4> month{};
  int day = 0;
  int hour = 0;
  int minute = 0;
  int second = 0;
  int year = 0;
  const auto offset = line.find("gmtoff=");
  if (offset == std::string::npos || std::sscanf(line.c_str(),
                                                 "%*s %*3s %3s %d %d:%d:%d %d UT",
                                                 month.data(),
                                                 &day,
                                                 &hour,
                                                 &minute,
                                                 &second,
                                                 &year) != 6) {
    return std::nullopt;
  }
  constexpr const char* kMonths = "JanFebMarAprMayJunJulAugSepOctNovDec";
  const char* const found = std::strstr(kMonths, month.data());
  REQUIRE(found != nullptr);
  const auto number = static_cast<unsigned>((found - kMonths) / 3 + 1);
  const date::year_month_day date{
      date::year(year), date::month(number), date::day(static_cast<unsigned>(day))};
  return DumpedSecond{date::sys_days(date) + std::chrono::hours(hour) +
                          std::chrono::minutes(minute) + std::chrono::seconds(second),
                      std::chrono::seconds(std::atoi(line.c_str() + offset + 7))};
}

}  // namespace

TEST_CASE("Offsets at every change of clocks agree with the system's zone dump", "[base]") {
  // EVIDENCE: iana_tzdb via zdump (tz project's own reader of the zone files)
  if (std::system("command -v zdump > /dev/null 2>&1") != 0) {
    WARN("skipped: no zdump on this machine");
    return;
  }
  std::size_t compared = 0;
  for (const std::string& name : tested_zones()) {
    const Zone zone = zone_named(name);
    Pipe dump("zdump -v -c 2015,2031 " + name);
    std::string line;
    while (dump.line(line)) {
      if (const auto second = parse_dumped(line)) {
        INFO(line);
        CHECK(zone.offset_at(second->at) == second->offset);
        CHECK(zone.to_local(second->at).time_since_epoch() ==
              second->at.time_since_epoch() + second->offset);
        ++compared;
      }
    }
  }
  // Four lines a year for each of the zones with daylight saving that are listed first.
  CHECK(compared > 3 * 4 * 15);
}

TEST_CASE("Every moment is among the moments of its local time", "[base]") {
  // Consistency check, by half hours through years with changes of clocks.
  for (const std::string& name : tested_zones()) {
    const Zone zone = zone_named(name);
    for (const std::string_view start : {"2018-01-01T00:00:00Z", "2026-01-01T00:00:00Z"}) {
      std::size_t failures = 0;
      for (Time at = moment(start); at < moment(start) + 24h * 400; at += 30min) {
        const auto moments = zone.moments_of(zone.to_local(at));
        const bool found = std::find(moments.begin(), moments.end(), at) != moments.end();
        const bool ordered = moments.size() < 2 || moments[0] < moments[1];
        failures += found && ordered && moments.size() <= 2 ? 0 : 1;
      }
      INFO(name);
      CHECK(failures == 0);
    }
  }
}

TEST_CASE("Every local time has none, one or two moments that show it", "[base]") {
  // Consistency check; a year of Lord Howe has half an hour without and half an hour with two.
  // EVIDENCE: iana_tzdb (zdump): its clocks change by 30 min, others here by 60 min
  struct Case {
    const char* zone;
    int minutes;
  };
  for (const Case& one : {Case{"Australia/Lord_Howe", 30},
                          Case{"America/New_York", 60},
                          Case{"Europe/Berlin", 60},
                          Case{"Asia/Kolkata", 0}}) {
    const Zone zone = zone_named(one.zone);
    int without = 0;
    int twice = 0;
    const LocalTime start(moment("2027-01-01T00:00:00Z").time_since_epoch());
    for (LocalTime local = start; local < start + 24h * 365; local += 1min) {
      const auto moments = zone.moments_of(local);
      without += moments.empty() ? 1 : 0;
      twice += moments.size() == 2 ? 1 : 0;
      for (const Time at : moments) {
        if (zone.to_local(at) != local) {
          FAIL_CHECK(show_utc(at) << " does not show the local time asked for");
        }
      }
    }
    INFO(one.zone);
    CHECK(without == one.minutes);
    CHECK(twice == one.minutes);
  }
}

TEST_CASE("A local time in the gap or in the doubled hour is an error with both ways out",
          "[base]") {
  // EVIDENCE: iana_tzdb (zdump): Europe/Berlin, forward 2027-03-28 01:00Z, back 2027-10-31 01:00Z
  const Zone berlin = zone_named("Europe/Berlin");
  const LocalTime gap(moment("2027-03-28T02:30:00Z").time_since_epoch());
  const LocalTime twice(moment("2027-10-31T02:30:00Z").time_since_epoch());
  REQUIRE_FALSE(berlin.to_time(gap).has_value());
  CHECK(berlin.to_time(gap).error().code == ErrorCode::kTime);
  CHECK_THAT(berlin.to_time(gap).error().text(),
             Contains("Sun 2027-03-28 02:30 does not exist in Europe/Berlin") &&
                 Contains("2027-03-28T03:00:00+02:00"));
  REQUIRE_FALSE(berlin.to_time(twice).has_value());
  CHECK_THAT(berlin.to_time(twice).error().text(),
             Contains("2027-10-31T02:30:00+02:00 for the first") &&
                 Contains("2027-10-31T02:30:00+01:00 for the second"));
  CHECK(show_utc(berlin.to_time_leniently(gap)) == "2027-03-28T01:00:00Z");
  CHECK(show_utc(berlin.to_time_leniently(twice)) == "2027-10-31T00:30:00Z");
}

TEST_CASE("A day whose midnight is skipped begins an hour later", "[base]") {
  // EVIDENCE: iana_tzdb (zdump): America/Sao_Paulo, forward 2018-11-04 03:00Z at local midnight
  const Zone zone = zone_named("America/Sao_Paulo");
  const LocalTime midnight(moment("2018-11-04T00:00:00Z").time_since_epoch());
  CHECK(zone.moments_of(midnight).empty());
  CHECK(show_rfc3339(zone.to_time_leniently(midnight), zone) == "2018-11-04T01:00:00-02:00");
}

TEST_CASE("An unknown zone is refused with examples", "[base]") {
  for (const std::string& name : {std::string(),
                                  std::string("Mars/Olympus"),
                                  std::string("../etc/passwd"),
                                  std::string("America/New York"),
                                  std::string(10'000, 'x')}) {
    const auto zone = Zone::find(name);
    REQUIRE_FALSE(zone.has_value());
    CHECK(zone.error().code == ErrorCode::kTime);
    CHECK_THAT(zone.error().text(), Contains("write an IANA name such as America/New_York"));
  }
  CHECK(zone_named("Europe/Berlin").name() == "Europe/Berlin");
}

TEST_CASE("Times are shown in the shop's zone", "[base]") {
  // 5 March 2027 is a Friday (any calendar).
  const Zone zone = zone_named("America/New_York");
  const Time at = moment("2027-03-05T21:05:09Z");
  CHECK(show_rfc3339(at, zone) == "2027-03-05T16:05:09-05:00");
  CHECK(show_utc(at) == "2027-03-05T21:05:09Z");
  CHECK(show_clock(at, zone) == "16:05");
  CHECK(show_day_and_time(at, zone) == "Fri 16:05");
  CHECK(show_date(at, zone) == "Fri 5 March 2027");
  CHECK(show_full(at, zone) == "Fri 5 March 2027 16:05");
  CHECK(show_rfc3339(moment("2027-07-01T00:00:00Z"), zone_named("America/St_Johns")) ==
        "2027-06-30T21:30:00-02:30");
}

TEST_CASE("Spans are shown in days, hours and whole minutes", "[base]") {
  CHECK(show_duration(0s) == "0 min");
  CHECK(show_duration(29s) == "0 min");
  CHECK(show_duration(30s) == "1 min");
  CHECK(show_duration(45min) == "45 min");
  CHECK(show_duration(24h) == "1 d");
  CHECK(show_duration(51h + 20min) == "2 d 3 h 20 min");
  CHECK(show_duration(24h + 5min) == "1 d 5 min");
  CHECK(show_duration(59min + 59s) == "1 h");
  CHECK(show_duration(-90min) == "-1 h 30 min");
}
