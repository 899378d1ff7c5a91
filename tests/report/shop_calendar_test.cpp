#include <algorithm>

#include "page_checks.h"
#include "plan/shop_load.h"
#include "report/calendar.h"
#include "report/explanation.h"
#include "report/week_chart.h"
#include "shop_plan.h"

using namespace coatwright;
using sample::lines_of;
using sample::unwrapped;

namespace {

std::string calendar_of(const Plan& plan) {
  return show_calendar(plan, sample::zone(), UnitSystem::kMetric);
}

bool holds(const std::string& page, const std::string& words) {
  return unwrapped(page).find(words) != std::string::npos;
}

/// The line of a page that begins with some words; empty: none.
std::string line_with(const std::string& page, const std::string& begin) {
  const auto lines = lines_of(page);
  const auto found = std::find_if(
      lines.begin(), lines.end(), [&](const std::string& line) { return line.starts_with(begin); });
  return found == lines.end() ? "" : *found;
}

}  // namespace

TEST_CASE("A shop's calendar fits 80 columns", "[report]") {
  sample::check_page(calendar_of(sample::shop_plan()));
  Plan unlucky = sample::long_plan();
  unlucky.shop = PlanShop{3, {}, 1, 1, 1};
  sample::check_page(calendar_of(unlucky));
}

TEST_CASE("The head says of each piece how far from its date it ends", "[report]") {
  const std::string page = calendar_of(sample::shop_plan());
  CHECK(holds(page, "Does not fit: 1 of 2 pieces is late; the last ends Sun 7 March 2027 10:30."));
  CHECK(unwrapped(line_with(page, "Sideboard  ")) ==
        "Sideboard Sun 7 Mar 08:00 Sun 7 Mar 10:30 2 h 30 min late 31 %");
  CHECK(unwrapped(line_with(page, "Tray  ")) ==
        "Tray Sun 7 Mar 20:00 Sat 6 Mar 13:20 1 d 7 h early 93 %");
  CHECK(holds(page, "Shop up to 2 people, 1 spray place, 4 rack places"));
  CHECK(holds(page, "No plan can end before Sun 7 March 2027 10:00; this one ends 30 min after"));
}

TEST_CASE("Each line of a shop's calendar says which part it is about and what it takes",
          "[report]") {
  const std::string page = calendar_of(sample::shop_plan());
  CHECK(holds(page, "16:00-16:40 Sideboard, top: sand it (bench room)"));
  CHECK_FALSE(holds(page, "[bench]"));
  CHECK(holds(page, "16:00-16:25 Tray: sand it"));
  CHECK(holds(page, "Sideboard, base: spray coat 1 of waterborne clear on it [spray place]"));
  CHECK(holds(page, "09:00-10:30 Sideboard: assemble it [2 people]"));
}

TEST_CASE("Stretches in which all of something is taken are told", "[report]") {
  const auto shortages = shortages_of(sample::shop_plan());
  // By hand: both work Fri 16:00-16:25, too short to say, and 17:15-17:35; one is there on Saturday
  // afternoon and works 13:00-13:20, too short; two assemble on Sunday. The spray place is taken
  // Fri 16:45-17:15 and 18:00-19:00, Sat 09:00-10:30; four of four rack places Fri 19:00-20:00.
  std::vector<std::string> told;
  for (const ShortStretch& one : shortages) {
    told.push_back(one.what + " " + show_day_and_time(one.start, sample::zone()) + " " +
                   show_clock(one.end, sample::zone()));
  }
  CHECK(told == std::vector<std::string>{"the spray place Fri 16:45 17:15",
                                         "the spray place Fri 18:00 19:00",
                                         "all 4 rack places Fri 19:00 20:00",
                                         "the spray place Sat 09:00 10:30",
                                         "everybody Sun 09:00 10:30"});
  CHECK(shortages_of(sample::plan()).empty());
  CHECK(holds(calendar_of(sample::shop_plan()),
              "spray places: 2 sessions stood ready and waited for them, 1 h 15 min in all"));
}

TEST_CASE("The chart shows a row for each part and a column for each hour", "[report]") {
  const Plan plan = sample::shop_plan();
  const Zone zone = sample::zone();
  const std::string chart = week_chart({plan, zone, UnitSystem::kMetric});
  INFO(chart);
  // By hand: Friday has 4 hours, Saturday 9 with noon among them, Sunday 11 but the first two alone
  // in use.
  CHECK(line_with(chart, "Sideboard, top") == "Sideboard, top    |CC..   |C        |           |");
  CHECK(line_with(chart, "Sideboard, base") == "Sideboard, base   | oC.   |CC       |           |");
  CHECK(line_with(chart, "Tray") == "Tray              |oC..   |....C    |           |");
  CHECK(line_with(chart, "Sideboard  ") == "Sideboard         |       |         |oo         |");
}

TEST_CASE("The explanation shows what holds an end where it is", "[report]") {
  const std::string page =
      show_explanation(sample::shop_plan(), sample::zone(), UnitSystem::kMetric);
  sample::check_page(page);
  CHECK(holds(page, "Sideboard, from its last step back:"));
  CHECK(holds(page,
              "Sat 6 Mar 09:30, step 10, Sideboard, base: spray coat 2 of waterborne clear on it: "
              "waits for spray places, after step 9; 30 min"));
  CHECK(
      holds(page,
            "waits for drying, after step 3; 16 h, 13 h of it with nobody there, 30 min of it for "
            "air within limits"));
  CHECK(holds(page, "sand it (bench room): begins with the plan"));
}
