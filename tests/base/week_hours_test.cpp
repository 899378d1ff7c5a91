#include "base/week_hours.h"

#include <catch2/catch.hpp>

using namespace coatwright;
using namespace std::chrono_literals;
using Catch::Contains;

namespace {

WeekHours hours(std::string_view text) {
  return WeekHours::parse(text).value();
}
Time moment(std::string_view text) {
  return parse_rfc3339(text).value();
}

std::vector<std::string> shown(const std::vector<Interval>& intervals, const Zone& zone) {
  std::vector<std::string> texts;
  for (const Interval& one : intervals) {
    texts.push_back(show_rfc3339(one.start, zone) + " " + show_rfc3339(one.end, zone));
  }
  return texts;
}

std::string refusal(std::string_view text) {
  const auto result = WeekHours::parse(text);
  INFO(text);
  REQUIRE_FALSE(result.has_value());
  CHECK(result.error().code == ErrorCode::kUsage);
  return result.error().text();
}

const Zone& new_york() {
  static const Zone zone = Zone::find("America/New_York").value();
  return zone;
}

using Texts = std::vector<std::string>;

}  // namespace

TEST_CASE("A week's hours are read and written back", "[base]") {
  const WeekHours week = hours("Sat 9:00-13:00, 14:00-16:00; mon-Wednesday 8:00-17:00");
  CHECK(week.text() ==
        "Mon 08:00-17:00; Tue 08:00-17:00; Wed 08:00-17:00; Sat 09:00-13:00, 14:00-16:00");
  CHECK(hours(week.text()).openings() == week.openings());
  CHECK(hours("Fri-Mon 8:00-9:00").text() ==
        "Mon 08:00-09:00; Fri 08:00-09:00; Sat 08:00-09:00; Sun 08:00-09:00");
  CHECK(hours("Tue-Mon 8:00-9:00").openings().size() == 7);
  CHECK(hours("Sun 0:00-24:00;").text() == "Sun 00:00-24:00");
  CHECK(hours("Mon 13:00-17:00, 8:00-13:00").openings().size() == 2);  // they touch
}

TEST_CASE("Hours that cannot be read are named", "[base]") {
  for (const std::string_view text : {"",
                                      " ",
                                      ";",
                                      "Mon",
                                      "Mon 8:00",
                                      "Mon 8-17",
                                      "Mon 17:00-8:00",
                                      "Mon 8:00-8:00",
                                      "Mon 8:00-24:01",
                                      "Mon 8:60-9:00",
                                      "Mon -1:00-9:00",
                                      "Mon 8:00-9:00-10:00",
                                      "Xyz 8:00-9:00",
                                      "Mo 8:00-9:00",
                                      "Monkey 8:00-9:00",
                                      "Mondays 8:00-9:00",
                                      "Mon-Tue-Wed 8:00-9:00",
                                      "Mon- 8:00-9:00",
                                      "8:00-17:00",
                                      "Mon 8:00-9:00,",
                                      "Mon 8:00-99999999999:00",
                                      "Mon 8:00-40000000:00",
                                      "Mon 8:00-9:99999999999",
                                      "Mon 8:00-9:00x",
                                      "\xFF\xFE",
                                      "M\xC3\xB6n 8:00-9:00"}) {
    CHECK_THAT(refusal(text), Contains("cannot be read: write \"Mon-Fri 8:00-17:00"));
  }
  CHECK_THAT(refusal("Mon 8:00-9:00; Tue 9:00-8:00"), Contains("shop hours 'Tue 9:00-8:00'"));
}

TEST_CASE("Openings of one day that overlap are refused with both", "[base]") {
  CHECK(refusal("Mon-Fri 8:00-17:00; Wed 16:00-20:00") ==
        "shop hours overlap on Wed: 08:00-17:00 and 16:00-20:00");
  CHECK_THAT(refusal("Mon 8:00-17:00; Sun-Tue 8:00-9:00"), Contains("overlap on Mon"));
}

TEST_CASE("Openings between two moments are cut to them", "[base]") {
  // 1 March 2027 is a Monday (any calendar).
  const auto intervals =
      hours("Mon-Fri 8:00-12:00, 13:00-17:00")
          .between(
              moment("2027-03-01T10:00:00-05:00"), moment("2027-03-02T14:00:00-05:00"), new_york());
  CHECK(shown(intervals, new_york()) ==
        Texts{"2027-03-01T10:00:00-05:00 2027-03-01T12:00:00-05:00",
              "2027-03-01T13:00:00-05:00 2027-03-01T17:00:00-05:00",
              "2027-03-02T08:00:00-05:00 2027-03-02T12:00:00-05:00",
              "2027-03-02T13:00:00-05:00 2027-03-02T14:00:00-05:00"});
}

TEST_CASE("Nothing lies between moments in the wrong order or on closed days", "[base]") {
  const WeekHours week = hours("Mon-Fri 8:00-17:00");
  const Time monday = moment("2027-03-01T10:00:00-05:00");
  CHECK(week.between(monday, monday, new_york()).empty());
  CHECK(week.between(monday, monday - 24h * 7, new_york()).empty());
  CHECK(week.between(moment("2027-03-05T17:00:00-05:00"),
                     moment("2027-03-08T08:00:00-05:00"),
                     new_york())
            .empty());
}

TEST_CASE("Hours that meet at midnight are one opening", "[base]") {
  const auto night =
      hours("Mon 20:00-24:00; Tue 0:00-4:00")
          .between(
              moment("2027-03-01T00:00:00-05:00"), moment("2027-03-03T00:00:00-05:00"), new_york());
  CHECK(shown(night, new_york()) == Texts{"2027-03-01T20:00:00-05:00 2027-03-02T04:00:00-05:00"});
  const auto always =
      hours("Mon-Sun 0:00-24:00")
          .between(
              moment("2027-01-01T00:00:00-05:00"), moment("2028-01-01T00:00:00-05:00"), new_york());
  REQUIRE(always.size() == 1);
  CHECK(always[0].end - always[0].start == 24h * 365);
}

TEST_CASE("A day open throughout has 23 or 25 hours when the clocks change", "[base]") {
  // EVIDENCE: iana_tzdb (zdump): America/New_York, forward 2027-03-14, back 2027-11-07
  const WeekHours week = hours("Sun 0:00-24:00");
  const auto length = [&](std::string_view from) {
    const auto days = week.between(moment(from), moment(from) + 24h * 3, new_york());
    REQUIRE(days.size() == 1);
    return days[0].end - days[0].start;
  };
  CHECK(length("2027-03-06T00:00:00-05:00") == 24h);
  CHECK(length("2027-03-13T00:00:00-05:00") == 23h);
  CHECK(length("2027-11-06T00:00:00-04:00") == 25h);
}

TEST_CASE("Openings in the skipped hour begin when it is over or fall out", "[base]") {
  const Time saturday = moment("2027-03-13T00:00:00-05:00");
  CHECK(shown(hours("Sun 2:30-6:00").between(saturday, saturday + 48h, new_york()), new_york()) ==
        Texts{"2027-03-14T03:00:00-04:00 2027-03-14T06:00:00-04:00"});
  CHECK(hours("Sun 2:10-2:50").between(saturday, saturday + 48h, new_york()).empty());
}

TEST_CASE("Shop hours keep to the clock on the wall all year", "[base]") {
  const auto intervals =
      hours("Mon-Fri 8:00-17:00")
          .between(
              moment("2027-01-01T00:00:00-05:00"), moment("2028-01-01T00:00:00-05:00"), new_york());
  CHECK(intervals.size() == 261);  // weekdays of a year that begins on a Friday: 52 * 5 + 1
  for (const Interval& one : intervals) {
    CHECK(show_clock(one.start, new_york()) == "08:00");
    CHECK(show_clock(one.end, new_york()) == "17:00");
  }
}
