#include <algorithm>

#include <catch2/catch.hpp>

#include "air/air_record.h"

using namespace coatwright;
using std::chrono::hours;
using std::chrono::minutes;
using std::chrono::seconds;

namespace {

Zone zone_named(const std::string& name) {
  return Zone::find(name).value();
}
Time utc(const char* text) {
  return parse_rfc3339(text).value();
}

// 10 C at 1:00, 15 C at 2:00, 20 C at 3:00, then slowly back.
UsualDay steep_night() {
  return UsualDay::parse("1:00 10C 50%; 3:00 20C 50%").value();
}

std::vector<Time> corners_of(const UsualDay& day, Time from, Time to, const Zone& zone) {
  std::vector<Time> corners;
  for (const AirKnot& knot : AirRecord({}, day, zone).knots(from, to)) {
    corners.push_back(knot.at);
  }
  return corners;
}

}  // namespace

TEST_CASE("A usual day is read as people write it", "[air]") {
  // EVIDENCE: common-practice, the form that the header documents
  for (const char* text : {"7:00 19C 50%; 22:00 15C 60%",
                           "07:00 19C,50%;22:00 15C,60%",
                           " 22:00  15C 60% ; 7:00 19C, 50%; "}) {
    CAPTURE(text);
    const auto day = UsualDay::parse(text);
    REQUIRE(day);
    REQUIRE(day->points().size() == 2);
    CHECK(day->points()[0].of_day == hours(7));
    CHECK(day->points()[0].temperature.celsius() == Approx(19));
    CHECK(day->points()[0].humidity.percent() == Approx(50));
    CHECK(day->points()[1].of_day == hours(22));
    CHECK(day->points()[1].temperature.celsius() == Approx(15));
  }
}

TEST_CASE("A usual day that cannot be read is refused, naming the part", "[air]") {
  struct Wrong {
    const char* text;
    ErrorCode code;
    const char* named;
  };
  for (const Wrong& wrong : {Wrong{"", ErrorCode::kUsage, "''"},
                             {";", ErrorCode::kUsage, "';'"},
                             {"7:00", ErrorCode::kUsage, "'7:00'"},
                             {"7:00 19C", ErrorCode::kUsage, "7:00 19C"},
                             {"7 19C 50%", ErrorCode::kUsage, "'7 19C 50%'"},
                             {"7:0 19C 50%", ErrorCode::kUsage, "'7:0 19C 50%'"},
                             {"24:00 19C 50%", ErrorCode::kUsage, "'24:00 19C 50%'"},
                             {"7:60 19C 50%", ErrorCode::kUsage, "'7:60 19C 50%'"},
                             {"-1:00 19C 50%", ErrorCode::kUsage, "'-1:00 19C 50%'"},
                             {"7:00 19 50%", ErrorCode::kUsage, "7:00 19 50%"},
                             {"7:00 19C 50%; 9:00 99C 50%", ErrorCode::kOutOfRange, "9:00 99C 50%"},
                             {"7:00 19C 150%", ErrorCode::kOutOfRange, "7:00 19C 150%"},
                             {"7:00 19C 50%; 07:00 18C 50%", ErrorCode::kUsage, "07:00"}}) {
    CAPTURE(wrong.text);
    const auto day = UsualDay::parse(wrong.text);
    REQUIRE_FALSE(day);
    CHECK(day.error().code == wrong.code);
    CHECK(day.error().text().find(wrong.named) != std::string::npos);
  }
}

TEST_CASE("A usual day's text is read back", "[air]") {
  // Consistency check: 54 F, 66 F and 59 F are 12.2, 18.9 and 15 C.
  const auto day = UsualDay::parse("0:05 54F 37.5%; 7:00 66F 50%; 23:59 59F 60%").value();
  CHECK(day.text(UnitSystem::kUs) == "00:05 54F 37.5%; 07:00 66F 50%; 23:59 59F 60%");
  CHECK(day.text(UnitSystem::kMetric) == "00:05 12.2222C 37.5%; 07:00 18.8889C 50%; 23:59 15C 60%");
  for (const UnitSystem units : {UnitSystem::kMetric, UnitSystem::kUs}) {
    const auto again = UsualDay::parse(day.text(units));
    REQUIRE(again);
    CHECK(again->text(units) == day.text(units));
  }
  CHECK(UsualDay::parse("0:00 60C 100%; 1:00 -40C 0%").value().text(UnitSystem::kUs) ==
        "00:00 140F 100%; 01:00 -40F 0%");
}

TEST_CASE("The usual day runs linearly between its points and around midnight", "[air]") {
  // EVIDENCE: worked by hand: 10 h from 20 C (20:00) down to 10 C (6:00), 14 h back up
  const auto day = UsualDay::parse("6:00 10C 50%; 20:00 20C 50%").value();
  const auto zone = zone_named("UTC");
  const auto celsius_at = [&](const char* text) {
    return day.at(utc(text), zone).temperature.celsius();
  };
  CHECK(celsius_at("2027-01-12T06:00:00Z") == Approx(10));
  CHECK(celsius_at("2027-01-12T13:00:00Z") == Approx(15));
  CHECK(celsius_at("2027-01-12T20:00:00Z") == Approx(20));
  CHECK(celsius_at("2027-01-13T00:00:00Z") == Approx(16));
  CHECK(celsius_at("2027-01-13T01:00:00Z") == Approx(15));
  CHECK(celsius_at("2027-01-13T03:30:00Z") == Approx(12.5));
}

TEST_CASE("The usual day's vapour runs as humidity ratio", "[air]") {
  // EVIDENCE: worked by hand from iapws_if97 (see the record's test): W = 0.0072630 at 20 C and 50
  // %, 0.0037924 at 10 C and 50 %, mean 0.0055277
  const auto day = UsualDay::parse("6:00 10C 50%; 18:00 20C 50%").value();
  CHECK(day.at(utc("2027-01-12T12:00:00Z"), zone_named("UTC")).ratio.kg_per_kg() ==
        Approx(0.0055277).epsilon(1e-3));
}

TEST_CASE("The usual day goes by the local clock, summer and winter", "[air]") {
  // EVIDENCE: common-practice: New York is 5 h behind UTC in winter and 4 h in summer
  const auto zone = zone_named("America/New_York");
  const auto day = steep_night();
  CHECK(day.at(utc("2027-01-12T08:00:00Z"), zone).temperature.celsius() == Approx(20));
  CHECK(day.at(utc("2027-07-12T07:00:00Z"), zone).temperature.celsius() == Approx(20));
}

TEST_CASE("In the night the clocks go back the usual day stands still for an hour", "[air]") {
  // EVIDENCE: common-practice: on 2026-11-01 New York's clocks go from 2:00 (06:00 UTC) back to
  // 1:00. Worked by hand: 10 C at both 1:00s, 15 C at 2:00, 20 C at 3:00.
  const auto zone = zone_named("America/New_York");
  const auto day = steep_night();
  const AirRecord air({}, day, zone);
  const auto celsius_at = [&](const char* text) {
    CHECK(day.at(utc(text), zone).temperature == air.at(utc(text)).temperature);
    return air.at(utc(text)).temperature.celsius();
  };
  CHECK(celsius_at("2026-11-01T05:00:00Z") == Approx(10));
  CHECK(celsius_at("2026-11-01T05:30:00Z") == Approx(10));
  CHECK(celsius_at("2026-11-01T06:00:00Z") == Approx(10));
  CHECK(celsius_at("2026-11-01T06:30:00Z") == Approx(12.5));
  CHECK(celsius_at("2026-11-01T07:00:00Z") == Approx(15));
  CHECK(celsius_at("2026-11-01T08:00:00Z") == Approx(20));
}

TEST_CASE("In the night the clocks go forward the usual day runs through the lost hour", "[air]") {
  // EVIDENCE: common-practice: on 2027-03-14 New York's clocks go from 2:00 (07:00 UTC) to 3:00.
  // Worked by hand: 10 C at 1:00, 20 C at 3:00, an hour later.
  const auto zone = zone_named("America/New_York");
  const AirRecord air({}, steep_night(), zone);
  const auto celsius_at = [&](const char* text) { return air.at(utc(text)).temperature.celsius(); };
  CHECK(celsius_at("2027-03-14T06:00:00Z") == Approx(10));
  CHECK(celsius_at("2027-03-14T06:30:00Z") == Approx(15));
  CHECK(celsius_at("2027-03-14T07:00:00Z") == Approx(20));
  CHECK(celsius_at("2027-03-15T07:00:00Z") == Approx(20));
  CHECK(celsius_at("2027-03-15T06:00:00Z") == Approx(15));
}

TEST_CASE("The usual day has corners at whole local hours and at its points", "[air]") {
  // EVIDENCE: common-practice: India's clock is 5 h 30 min before UTC. Worked by hand.
  const auto zone = zone_named("Asia/Kolkata");
  const auto day = UsualDay::parse("7:10 19C 50%; 22:00 15C 60%").value();
  const std::vector<Time> expected = {utc("2027-01-12T01:00:00Z"),
                                      utc("2027-01-12T01:30:00Z"),  // 7:00
                                      utc("2027-01-12T01:40:00Z"),  // 7:10
                                      utc("2027-01-12T02:30:00Z"),  // 8:00
                                      utc("2027-01-12T03:00:00Z")};
  CHECK(corners_of(day, expected.front(), expected.back(), zone) == expected);
}

TEST_CASE("A change of the clocks by half an hour is a corner of the usual day", "[air]") {
  // EVIDENCE: common-practice: Lord Howe Island goes from UTC+10:30 to +11:00 at 2:00 on the first
  // Sunday of October and back on the first of April. Worked by hand.
  const auto zone = zone_named("Australia/Lord_Howe");
  const auto day = steep_night();
  const std::vector<Time> forward = {utc("2026-10-03T14:30:00Z"),   // 1:00
                                     utc("2026-10-03T15:30:00Z"),   // 2:00, which is 2:30
                                     utc("2026-10-03T16:00:00Z"),   // 3:00
                                     utc("2026-10-03T17:00:00Z")};  // 4:00
  CHECK(corners_of(day, forward.front(), forward.back(), zone) == forward);
  CHECK(day.at(forward[1], zone).temperature.celsius() == Approx(17.5));
  const std::vector<Time> back = {utc("2027-04-03T14:00:00Z"),   // 1:00
                                  utc("2027-04-03T15:00:00Z"),   // 2:00, which is 1:30
                                  utc("2027-04-03T15:30:00Z"),   // 2:00
                                  utc("2027-04-03T16:30:00Z")};  // 3:00
  CHECK(corners_of(day, back.front(), back.back(), zone) == back);
  CHECK(day.at(back[1], zone).temperature.celsius() == Approx(12.5));
  CHECK(day.at(back[1] + minutes(15), zone).temperature.celsius() == Approx(13.75));
}

TEST_CASE("A change of the clocks within an hour is a corner of the usual day", "[air]") {
  // EVIDENCE: common-practice, from memory: Newfoundland's clocks went back at 0:01 on 2010-11-07,
  // from UTC-2:30 to UTC-3:30. Worked by hand.
  const auto zone = zone_named("America/St_Johns");
  const auto day = UsualDay::parse("0:00 20C 50%; 12:00 8C 50%").value();
  const std::vector<Time> expected = {utc("2010-11-07T02:30:00Z"),   // 0:00
                                      utc("2010-11-07T02:31:00Z"),   // 0:01, which is 23:01
                                      utc("2010-11-07T03:30:00Z"),   // 0:00
                                      utc("2010-11-07T04:30:00Z")};  // 1:00
  CHECK(corners_of(day, expected.front(), expected.back(), zone) == expected);
  CHECK(day.at(expected[0], zone).temperature.celsius() == Approx(20));
  CHECK(day.at(expected[1], zone).temperature.celsius() == Approx(20 - 59.0 / 60));
  CHECK(day.at(expected[2], zone).temperature.celsius() == Approx(20));
}
