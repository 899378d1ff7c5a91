#include "base/shop_times.h"

#include <catch2/catch.hpp>

using namespace coatwright;
using namespace std::chrono_literals;

namespace {

const Zone& new_york() {
  static const Zone zone = Zone::find("America/New_York").value();
  return zone;
}

Time moment(std::string_view text) {
  return parse_rfc3339(text).value();
}

ShopTimes times(std::string_view hours, std::string_view people) {
  return {WeekHours::parse(hours).value(), WeekPeople::parse(people).value(), {}};
}

void close(ShopTimes& shop, std::string_view days) {
  const DayRange range = parse_day_range(days).value();
  for (auto day = range.first; day <= range.last; day += date::days(1)) {
    shop.special[day] = {};
  }
}

void open_once(ShopTimes& shop, std::string_view text) {
  const DatedDay dated = parse_open_day(text).value();
  shop.special[dated.day] = dated.special;
}

/// "Fri 08:00-Fri 17:00 x3", by the clock of New York.
std::vector<std::string> shown(const ShopTimes& shop, std::string_view from, std::string_view to) {
  std::vector<std::string> texts;
  for (const PeopledHours& one : shop.staffed(moment(from), moment(to), new_york())) {
    texts.push_back(show_day_and_time(one.open.start, new_york()) + "-" +
                    show_day_and_time(one.open.end, new_york()) + " x" +
                    std::to_string(one.people));
  }
  return texts;
}

using Texts = std::vector<std::string>;

}  // namespace

// Expected by hand from a calendar of 2027: 3 May is a Monday.
TEST_CASE("Hours are cut where the number of people changes", "[base]") {
  const ShopTimes shop = times("Mon-Fri 8:00-17:00", "3; Fri 2; Fri 15:00-24:00 0");
  CHECK(shown(shop, "2027-05-06T00:00:00-04:00", "2027-05-08T00:00:00-04:00") ==
        Texts{"Thu 08:00-Thu 17:00 x3", "Fri 08:00-Fri 15:00 x2"});
}

TEST_CASE("Closed days have no hours, and single days their own", "[base]") {
  ShopTimes shop = times("Mon-Fri 8:00-17:00", "3; Sat 2");
  close(shop, "2027-05-04..2027-05-06");
  open_once(shop, "2027-05-07 10:00-12:00");
  open_once(shop, "2027-05-08 9:00-13:00, 14:00-15:00");
  open_once(shop, "2027-05-09 9:00-10:00 1");
  CHECK(shown(shop, "2027-05-03T12:00:00-04:00", "2027-05-10T09:00:00-04:00") ==
        Texts{"Mon 12:00-Mon 17:00 x3",
              "Fri 10:00-Fri 12:00 x3",
              "Sat 09:00-Sat 13:00 x2",
              "Sat 14:00-Sat 15:00 x2",
              "Sun 09:00-Sun 10:00 x1",
              "Mon 08:00-Mon 09:00 x3"});
}

TEST_CASE("Openings that touch are one opening, whoever is there", "[base]") {
  const ShopTimes shop = times("Mon-Sun 0:00-24:00", "2; Tue 12:00-13:00 1");
  const Time from = moment("2027-05-03T00:00:00-04:00");
  const Time to = moment("2027-05-06T00:00:00-04:00");
  CHECK(shop.open(from, to, new_york()) == std::vector<Interval>{{from, to}});
  CHECK(shop.staffed(from, to, new_york()).size() == 3);
}

// EVIDENCE: iana_tzdb: in New York the clocks go forward at 2:00 on 14 March 2027 and back at 2:00
// on 7 November 2027, so that those days have 23 and 25 hours.
TEST_CASE("A day on which the clocks change is an hour shorter or longer", "[base]") {
  ShopTimes shop = times("Sun 0:00-24:00", "2");
  const auto length = [&](std::string_view from, std::string_view to) {
    std::chrono::seconds sum{0};
    for (const PeopledHours& one : shop.staffed(moment(from), moment(to), new_york())) {
      sum += one.open.end - one.open.start;
    }
    return sum;
  };
  CHECK(length("2027-03-13T12:00:00Z", "2027-03-15T12:00:00Z") == 23h);
  CHECK(length("2027-11-06T12:00:00Z", "2027-11-08T12:00:00Z") == 25h);
  open_once(shop, "2027-03-14 1:00-4:00");
  CHECK(length("2027-03-13T12:00:00Z", "2027-03-15T12:00:00Z") == 2h);
  // A change of people in the hour that there is not makes no hours of its own.
  shop.people = WeekPeople::parse("2; Sun 2:15-2:45 1").value();
  CHECK(length("2027-03-13T12:00:00Z", "2027-03-15T12:00:00Z") == 2h);
}

TEST_CASE("Nothing comes of nobody and of no time", "[base]") {
  const ShopTimes shop = times("Mon-Sun 8:00-17:00", "1; Mon-Sun 0");
  const Time from = moment("2027-05-03T00:00:00-04:00");
  CHECK(shop.staffed(from, from + 24h, new_york()).empty());
  CHECK(times("Mon 8:00-17:00", "1").staffed(from + 9h, from + 9h, new_york()).empty());
}
