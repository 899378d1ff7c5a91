#include "base/time_expression.h"

#include <catch2/catch.hpp>

using namespace coatwright;
using Catch::Contains;

namespace {

const Zone& new_york() {
  static const Zone zone = Zone::find("America/New_York").value();
  return zone;
}

Time moment(std::string_view text) {
  return parse_rfc3339(text).value();
}

/// Wednesday, 3 March 2027, 14:20 in New York; the weekday by any calendar.
Time usual_now() {
  return moment("2027-03-03T14:20:00-05:00");
}

std::string read(std::string_view text,
                 Direction direction = Direction::kForward,
                 Time now = usual_now()) {
  const auto time = parse_time(text, now, new_york(), direction);
  return time ? show_rfc3339(*time, new_york()) : time.error().text();
}

std::string refusal(std::string_view text, Time now = usual_now()) {
  const auto time = parse_time(text, now, new_york(), Direction::kForward);
  INFO(text);
  REQUIRE_FALSE(time.has_value());
  CHECK(time.error().code == ErrorCode::kTime);
  return time.error().text();
}

}  // namespace

TEST_CASE("A full date and time is read in the zone or by its offset", "[base]") {
  for (const std::string_view text : {"2027-03-05T16:00",
                                      "2027-03-05 16:00",
                                      "2027-03-05t16:00:00",
                                      "2027-03-05T16:00:00.5",
                                      "2027-03-05T21:00Z",
                                      "2027-03-05T22:00+01:00",
                                      "2027-03-05T22:00:00+0100",
                                      "2027-03-05T16:00:00-05",
                                      "2027-03-05 4:00pm",
                                      "2027-03-05 4:00 PM"}) {
    INFO(text);
    CHECK(read(text) == "2027-03-05T16:00:00-05:00");
  }
  CHECK(read("2027-03-05") == "2027-03-05T00:00:00-05:00");
  CHECK(read("2027-03-05T16:00:07") == "2027-03-05T16:00:07-05:00");
  CHECK(read("2028-02-29T12:00") == "2028-02-29T12:00:00-05:00");
}

TEST_CASE("Words for days and clock times are read from now", "[base]") {
  CHECK(read("now") == "2027-03-03T14:20:00-05:00");
  CHECK(read("NOW") == "2027-03-03T14:20:00-05:00");
  CHECK(read("9:00") == "2027-03-03T09:00:00-05:00");
  CHECK(read("today 9:00") == "2027-03-03T09:00:00-05:00");
  CHECK(read("yesterday 17:30") == "2027-03-02T17:30:00-05:00");
  CHECK(read("Tomorrow 9:00") == "2027-03-04T09:00:00-05:00");
  CHECK(read("4:30pm") == "2027-03-03T16:30:00-05:00");
  CHECK(read("tomorrow 7am") == "2027-03-04T07:00:00-05:00");
  CHECK(read("12:00am") == "2027-03-03T00:00:00-05:00");
  CHECK(read("12:30 pm") == "2027-03-03T12:30:00-05:00");
}

TEST_CASE("Spans count from now", "[base]") {
  CHECK(read("-90min") == "2027-03-03T12:50:00-05:00");
  CHECK(read("+2h") == "2027-03-03T16:20:00-05:00");
  CHECK(read("+ 2h") != "2027-03-03T16:20:00-05:00");
  CHECK(read("+1d") == "2027-03-04T14:20:00-05:00");
  CHECK(read("+2 h") == "2027-03-03T16:20:00-05:00");
  CHECK(read("-15m") == "2027-03-03T14:05:00-05:00");
  // Across the change of clocks a span is real time: 24 h after Saturday 14:20 EST.
  CHECK(read("+24h", Direction::kForward, moment("2027-03-13T14:20:00-05:00")) ==
        "2027-03-14T15:20:00-04:00");
}

TEST_CASE("A weekday looks forward to the first such time that is not over", "[base]") {
  // 3 March 2027 is a Wednesday (any calendar).
  CHECK(read("Fri 16:00") == "2027-03-05T16:00:00-05:00");
  CHECK(read("friday 16:00") == "2027-03-05T16:00:00-05:00");
  CHECK(read("Tue 16:00") == "2027-03-09T16:00:00-05:00");
  CHECK(read("Wed 14:21") == "2027-03-03T14:21:00-05:00");
  CHECK(read("Wed 14:20") == "2027-03-03T14:20:00-05:00");
  CHECK(read("Wed 14:19") == "2027-03-10T14:19:00-05:00");
}

TEST_CASE("A weekday looks back to the latest such time that has come", "[base]") {
  CHECK(read("Fri 16:00", Direction::kBack) == "2027-02-26T16:00:00-05:00");
  CHECK(read("Tue 16:00", Direction::kBack) == "2027-03-02T16:00:00-05:00");
  CHECK(read("Wed 14:19", Direction::kBack) == "2027-03-03T14:19:00-05:00");
  CHECK(read("Wed 14:20", Direction::kBack) == "2027-03-03T14:20:00-05:00");
  CHECK(read("Wed 14:21", Direction::kBack) == "2027-02-24T14:21:00-05:00");
}

TEST_CASE("The day is the shop's, not that of UTC", "[base]") {
  // 23:30 in New York on Wednesday is Thursday in UTC.
  const Time late = moment("2027-03-03T23:30:00-05:00");
  CHECK(read("today 9:00", Direction::kForward, late) == "2027-03-03T09:00:00-05:00");
  CHECK(read("tomorrow 9:00", Direction::kForward, late) == "2027-03-04T09:00:00-05:00");
  CHECK(read("Wed 23:45", Direction::kForward, late) == "2027-03-03T23:45:00-05:00");
}

// EVIDENCE: iana_tzdb (zdump): America/New_York, forward 2027-03-14 07:00Z, back 2026-11-01 06:00Z

TEST_CASE("A time that the clocks skip is named as not existing", "[base]") {
  const std::string text = refusal("Sun 02:30", moment("2027-03-12T10:00:00-05:00"));
  CHECK_THAT(text, Contains("Sun 2027-03-14 02:30 does not exist in America/New_York"));
  CHECK_THAT(text, Contains("2027-03-14T03:00:00-04:00"));
  CHECK_THAT(refusal("2027-03-14T02:00"), Contains("does not exist"));
  CHECK(read("2027-03-14T03:00") == "2027-03-14T03:00:00-04:00");
  CHECK(read("2027-03-14T01:59") == "2027-03-14T01:59:00-05:00");
  CHECK(read("2027-03-14T02:30-05:00") == "2027-03-14T03:30:00-04:00");
}

TEST_CASE("A time that the clocks show twice is named with both moments", "[base]") {
  const std::string text = refusal("2026-11-01T01:30");
  CHECK_THAT(text, Contains("Sun 2026-11-01 01:30 exists twice in America/New_York"));
  CHECK_THAT(text, Contains("2026-11-01T01:30:00-04:00"));
  CHECK_THAT(text, Contains("2026-11-01T01:30:00-05:00"));
  CHECK(read("2026-11-01T01:30-04:00") == "2026-11-01T01:30:00-04:00");
  CHECK(read("2026-11-01T01:30-05:00") == "2026-11-01T01:30:00-05:00");
  CHECK(read("2026-11-01T02:00") == "2026-11-01T02:00:00-05:00");
}

TEST_CASE("What is no time is refused with the forms that are", "[base]") {
  for (const std::string_view text : {"",
                                      " ",
                                      "soon",
                                      "today",
                                      "Fri",
                                      "16",
                                      "24:00",
                                      "25:00",
                                      "9:60",
                                      "9:5",
                                      "9:",
                                      ":30",
                                      "13pm",
                                      "0am",
                                      "13:00pm",
                                      "fr 16:00",
                                      "fridays 16:00",
                                      "someday 9:00",
                                      "2027-02-29",
                                      "2027-13-01",
                                      "2027-00-10",
                                      "2027-03-32T10:00",
                                      "27-03-05T16:00",
                                      "2027-03-05T",
                                      "2027-03-05T16",
                                      "2027-03-05T16:00+25:00",
                                      "2027-03-05T16:00+01:99",
                                      "2027-03-05T16:00+01:",
                                      "2027-03-05T16:00 Europe",
                                      "2027-03-05T16:00:00.",
                                      "2027-03-05T16:00Zz",
                                      "2027--3-05",
                                      "-90",
                                      "+2weeks",
                                      "+h",
                                      "--2h",
                                      "+-2h",
                                      "+999999h",
                                      "now now",
                                      "05.03.2027",
                                      "3/5/2027",
                                      "16:00 Fri",
                                      "2027-03-05T-6:00"}) {
    CHECK_THAT(refusal(text), Contains("is not a time: write 2027-03-05T16:00"));
  }
}

TEST_CASE("Hostile text is refused and never crashes", "[base]") {
  refusal(std::string(1'000'000, '9'));
  refusal(std::string(1'000'000, ' '));
  refusal("Fri " + std::string(100'000, '1') + ":00");
  refusal("2027-03-05T16:00:00." + std::string(100'000, '0'));
  refusal(std::string_view("now\0", 4));
  refusal("\xC3\xA4 9:00");
  refusal("\xFF\xFE\x00");
  refusal(
      "Fri\xC2\xA0"
      "16:00");
  refusal("２０２７-03-05");
  refusal("+99999999999999999999h");
  refusal("{}%s%n");
  // Bytes at random: any outcome is an answer; when a time comes out, it must be one of a calendar.
  unsigned state = 20270305;
  const auto next = [&state] { return state = state * 1664525U + 1013904223U; };
  const std::string_view alphabet = "0123456789:-+TZ. apmFritodnw\xC3\xFF";
  for (int round = 0; round < 20'000; ++round) {
    std::string text;
    for (unsigned i = 0, length = next() >> 28U; i < length; ++i) {
      text += alphabet[(next() >> 16U) % alphabet.size()];
    }
    const auto time = parse_time(text, usual_now(), new_york(), Direction::kBack);
    if (time) {
      INFO(text);
      CHECK(moment(show_utc(*time)) == *time);
    }
  }
}

TEST_CASE("Stored times are read back as they were written", "[base]") {
  CHECK(show_utc(moment("2027-03-05T16:00:00-05:00")) == "2027-03-05T21:00:00Z");
  CHECK(show_utc(moment("2027-03-05t21:00:00z")) == "2027-03-05T21:00:00Z");
  // EVIDENCE: rfc_3339 5.8, examples
  CHECK(show_utc(moment("1985-04-12T23:20:50.52Z")) == "1985-04-12T23:20:50Z");
  CHECK(show_utc(moment("1996-12-19T16:39:57-08:00")) == "1996-12-20T00:39:57Z");
  for (const std::string_view text : {"",
                                      "now",
                                      "2027-03-05",
                                      "2027-03-05T16:00:00",
                                      "2027-03-05T16:00:00+",
                                      "2027-03-05T16:00:00Z ",
                                      "2027-02-30T16:00:00Z"}) {
    INFO(text);
    const auto time = parse_rfc3339(text);
    REQUIRE_FALSE(time.has_value());
    CHECK(time.error().code == ErrorCode::kTime);
  }
}
