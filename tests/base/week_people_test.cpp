#include "base/week_people.h"

#include <catch2/catch.hpp>

using namespace coatwright;
using std::chrono::minutes;

namespace {

WeekPeople people(std::string_view text) {
  return WeekPeople::parse(text).value();
}

/// Who is there at a clock time of a day, as on() says.
int at(const WeekPeople& week, date::weekday day, int hour, int minute = 0) {
  int found = -1;
  for (const WeekPeople::Stretch& stretch : week.on(day)) {
    if (stretch.span.start <= minutes(60 * hour + minute) &&
        minutes(60 * hour + minute) < stretch.span.end) {
      found = stretch.people;
    }
  }
  return found;
}

}  // namespace

TEST_CASE("People are read and written back", "[base]") {
  const WeekPeople week = people("3;fri 2; Sat-Sun 9:00-13:00, 14:00-16:00 1;");
  CHECK(week.text() == "3; Fri 2; Sat-Sun 09:00-13:00, 14:00-16:00 1");
  CHECK(people(week.text()) == week);
  CHECK(people("1").text() == "1");
  CHECK(people("1") == WeekPeople());
  CHECK(people("4; Mon 0").text() == "4; Mon 0");
}

TEST_CASE("People differ by day and by hour, and the later word counts", "[base]") {
  const WeekPeople week = people("3; Mon-Fri 12:00-13:00 1; Fri 2; Fri 15:00-24:00 0");
  CHECK(at(week, date::Tuesday, 11, 59) == 3);
  CHECK(at(week, date::Tuesday, 12) == 1);
  CHECK(at(week, date::Tuesday, 12, 59) == 1);
  CHECK(at(week, date::Tuesday, 13) == 3);
  CHECK(at(week, date::Friday, 12) == 2);  // "Fri 2" overrules the lunch hour
  CHECK(at(week, date::Friday, 14, 59) == 2);
  CHECK(at(week, date::Friday, 23, 59) == 0);
  CHECK(at(week, date::Sunday, 0) == 3);
}

TEST_CASE("Each day is covered from midnight to midnight, and neighbours differ", "[base]") {
  const WeekPeople week = people("2; Wed 8:00-10:00 3; Wed 10:00-12:00 3; Wed 9:00-9:30 2");
  for (unsigned day = 0; day < 7; ++day) {
    const auto stretches = week.on(date::weekday(day));
    REQUIRE_FALSE(stretches.empty());
    CHECK(stretches.front().span.start == minutes(0));
    CHECK(stretches.back().span.end == minutes(24 * 60));
    for (std::size_t i = 1; i < stretches.size(); ++i) {
      CHECK(stretches[i].span.start == stretches[i - 1].span.end);
      CHECK(stretches[i].people != stretches[i - 1].people);
    }
  }
  CHECK(week.on(date::Wednesday).size() == 5);
  CHECK(week.on(date::Monday).size() == 1);
}

TEST_CASE("People that cannot be read are named", "[base]") {
  for (const std::string_view text : {"",
                                      "0",
                                      "100",
                                      "-1",
                                      "three",
                                      "Fri 2",
                                      "3; Fri",
                                      "3; Fry 2",
                                      "3; Fri -1",
                                      "3; Fri 100",
                                      "3; Fri 9:00-8:00 2",
                                      "3; Fri 9:00 2",
                                      "3, Fri 2"}) {
    CAPTURE(text);
    const auto wrong = WeekPeople::parse(text);
    REQUIRE_FALSE(wrong);
    CHECK(wrong.error().code == ErrorCode::kUsage);
    CHECK_THAT(wrong.error().text(), Catch::Contains("3; Fri 2; Sat 9:00-13:00 1"));
  }
}
