#include "base/special_days.h"

#include <catch2/catch.hpp>

using namespace coatwright;
using std::chrono::minutes;

namespace {

date::local_days day(int year, unsigned month, unsigned of_month) {
  return date::local_days(date::year(year) / month / of_month);
}

}  // namespace

TEST_CASE("A day and a range of days are read, both ends included", "[base]") {
  const auto one = parse_day_range("2027-05-01");
  REQUIRE(one);
  CHECK(*one == DayRange{day(2027, 5, 1), day(2027, 5, 1)});
  const auto many = parse_day_range("2027-12-24..2028-01-02");
  REQUIRE(many);
  CHECK(many->last - many->first == date::days(9));
  CHECK(date_text(many->last) == "2028-01-02");
  CHECK(parse_day_range("2028-02-29"));
}

TEST_CASE("Days that cannot be read are named", "[base]") {
  for (const std::string_view text : {"",
                                      "1 May",
                                      "2027-5-1",
                                      "2027-02-29",
                                      "2027-13-01",
                                      "2027-05-01..",
                                      "..2027-05-01",
                                      "2027-05-02..2027-05-01",
                                      "2027-05-01...2027-05-03",
                                      "2027-01-01..2028-01-02"}) {
    CAPTURE(text);
    const auto wrong = parse_day_range(text);
    REQUIRE_FALSE(wrong);
    CHECK(wrong.error().code == ErrorCode::kUsage);
  }
}

TEST_CASE("A day with hours of its own is read, with people where they are others", "[base]") {
  const auto plain = parse_open_day("2027-05-08 9:00-13:00");
  REQUIRE(plain);
  CHECK(plain->day == day(2027, 5, 8));
  CHECK_FALSE(plain->special.people);
  CHECK(plain->special.open == std::vector<ClockSpan>{{minutes(540), minutes(780)}});

  const auto full = parse_open_day("2027-05-08  14:00-16:00, 9:00-13:00 2");
  REQUIRE(full);
  CHECK(full->special.people == 2);
  CHECK(day_hours_text(full->special.open) == "09:00-13:00, 14:00-16:00");
  CHECK(parse_day_hours(day_hours_text(full->special.open)).value() == full->special.open);
}

TEST_CASE("A day with hours that cannot be read is named", "[base]") {
  for (const std::string_view text : {"",
                                      "2027-05-08",
                                      "2027-05-08 2",
                                      "2027-05-08 9:00",
                                      "2027-05-08 13:00-9:00",
                                      "2027-05-08 9:00-13:00 0",
                                      "2027-05-08 9:00-13:00 many",
                                      "2027-05-08 9:00-13:00, 12:00-14:00",
                                      "Sat 9:00-13:00",
                                      "2027-05-08..2027-05-09 9:00-13:00"}) {
    CAPTURE(text);
    const auto wrong = parse_open_day(text);
    REQUIRE_FALSE(wrong);
    CHECK(wrong.error().code == ErrorCode::kUsage);
  }
}
