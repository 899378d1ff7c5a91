#include "report/advice_page.h"

#include <nlohmann/json.hpp>

#include "page_checks.h"
#include "shop_plan.h"

using namespace coatwright;
using nlohmann::json;
using sample::unwrapped;

namespace {

Change changed(ChangeKind kind, int amount) {
  Change change;
  change.kind = kind;
  change.amount = amount;
  return change;
}

Change other_schedule() {
  Change change = changed(ChangeKind::kOtherSchedule, 0);
  Schedule schedule;
  schedule.name = "waterborne-clear";
  schedule.title = "Brushed waterborne clear";
  schedule.summary = "A clear and hard film.";
  schedule.tools = {"brush"};
  change.schedule = std::make_shared<const Schedule>(schedule);
  change.piece = "Sideboard";
  change.was = "stain-and-lacquer";
  change.lacks = {"kitchen"};
  return change;
}

Change coat_fewer() {
  Change change = changed(ChangeKind::kCoatFewer, 2);
  change.piece = "Sideboard";
  change.product_title = "Nitrocellulose lacquer (spray)";
  change.usual_least = 2;
  change.usual_most = 4;
  change.schedule = std::make_shared<const Schedule>();
  return change;
}

Change day_more(int days) {
  Change change = changed(ChangeKind::kDayMore, days);
  for (int day = 0; day < days; ++day) {
    change.openings.push_back({sample::sat("09:00") + std::chrono::hours(24 * day),
                               sample::sat("18:00") + std::chrono::hours(24 * day)});
  }
  return change;
}

Change start_at(Time time) {
  Change change = changed(ChangeKind::kEarlierStart, 0);
  change.start = time;
  return change;
}

std::vector<Change> all_changes() {
  return {changed(ChangeKind::kWarmer, 4),
          changed(ChangeKind::kDrier, 45),
          start_at(sample::fri("09:00")),
          changed(ChangeKind::kLongerHours, 2),
          day_more(1),
          day_more(2),
          changed(ChangeKind::kRackPlacesMore, 3),
          changed(ChangeKind::kBenchMore, 1),
          changed(ChangeKind::kSprayPlaceMore, 1),
          changed(ChangeKind::kPersonMore, 1),
          other_schedule(),
          coat_fewer()};
}

/// Of a plan that is late, with a way by each kind of change and one by two.
DateAdvice advice_of(const Plan& late, const Plan& in_time) {
  DateAdvice advice;
  advice.plan = late;
  for (const Change& change : all_changes()) {
    advice.ways.push_back({{change}, in_time, Hours::from_hours(8)});
    advice.gains.push_back({change, in_time.finish, std::chrono::hours(3), {}});
  }
  advice.ways.push_back({{changed(ChangeKind::kWarmer, 2), coat_fewer()}, in_time});
  advice.in_vain = {{changed(ChangeKind::kLongerHours, 1), late.finish},
                    {changed(ChangeKind::kDrier, 40), std::nullopt}};
  for (const PlanPiece& piece : late.pieces) {
    advice.late.push_back({piece.name, piece.due, piece.finish});
  }
  return advice;
}

DateAdvice late_advice() {
  return advice_of(sample::late_plan(), sample::plan());
}

std::string page_of(const DateAdvice& advice, UnitSystem units = UnitSystem::kMetric) {
  return show_advice(advice, sample::zone(), units);
}

bool holds(const std::string& page, const std::string& words) {
  return unwrapped(page).find(words) != std::string::npos;
}

}  // namespace

TEST_CASE("Every page of advice fits its width and shows no broken figure", "[report]") {
  for (const UnitSystem units : {UnitSystem::kMetric, UnitSystem::kUs}) {
    sample::check_page(page_of(late_advice(), units));
    sample::check_page(page_of(advice_of(sample::shop_plan(), sample::plan()), units));
    DateAdvice met;
    met.plan = sample::plan();
    met.latest_start = sample::sat("09:30");
    sample::check_page(page_of(met, units));
    DateAdvice hopeless;
    hopeless.plan = sample::incomplete_plan();
    hopeless.late = {{"Sideboard", hopeless.plan.by, std::nullopt}};
    hopeless.stopped = true;
    sample::check_page(page_of(hopeless, units));
  }
}

TEST_CASE("Advice that names warmth carries the caution of ignition", "[report]") {
  const std::string caution = "Solvent vapour ignites";
  CHECK(holds(page_of(late_advice()), caution));
  DateAdvice plain = late_advice();
  plain.ways = {{{changed(ChangeKind::kLongerHours, 1)}, sample::plan()}};
  plain.gains.clear();
  CHECK_FALSE(holds(page_of(plain), caution));
  for (const bool in_ways : {true, false}) {
    DateAdvice warm = plain;
    if (in_ways) {
      warm.ways.push_back({{changed(ChangeKind::kLongerHours, 1), changed(ChangeKind::kWarmer, 1)},
                           sample::plan()});
    } else {
      warm.gains.push_back({changed(ChangeKind::kWarmer, 1), std::nullopt});
    }
    CHECK(holds(page_of(warm), caution));
  }
}

TEST_CASE("Each way says what to do, what it takes and when it ends", "[report]") {
  const std::string page = page_of(late_advice());
  CHECK(holds(page, "The date cannot be met as it stands."));
  CHECK(holds(page, "1 Warm the shop by 4.0 C."));
  CHECK(holds(page, "4 Stay 2 h longer each working day. 8.0 h of presence more until the end."));
  CHECK(holds(page, "Open on Sat 6 March 2027 09:00-18:00."));
  CHECK(holds(page, "Finish with waterborne-clear (Brushed waterborne clear) in place of"));
  CHECK(holds(page, "Not meant, as stain-and-lacquer is, for: kitchen."));
  CHECK(holds(page,
              "Leave out one coat of nitrocellulose lacquer (spray). 2 coats instead of 3; 2 "
              "to 4 are usual."));
  CHECK(holds(page, "Warm the shop by 2.0 C, and also: leave out one coat"));
  CHECK(holds(page, "Ends Sun 7 March 2027 19:05, 55 min before the date; chance 87 %."));
  CHECK(holds(page_of(late_advice(), UnitSystem::kUs), "Warm the shop by 7.2 F."));
}

TEST_CASE("A date that is met comes with the latest start", "[report]") {
  DateAdvice met;
  met.plan = sample::plan();
  met.latest_start = sample::sat("09:30");
  const std::string page = page_of(met);
  CHECK(holds(page, "The date can be met: ends Sun 7 March 2027 19:05, 55 min before"));
  CHECK(holds(page, "Work may begin as late as Sat 6 March 2027 09:30, and the date still holds."));
  CHECK_FALSE(holds(page, "Ways to make the date"));
}

TEST_CASE("Advice as JSON holds every way, gain and late piece", "[report]") {
  const json advice = json::parse(advice_as_json(late_advice(), sample::zone()));
  CHECK(advice["format"] == "coatwright/advice/1");
  CHECK(advice["holds"] == false);
  CHECK(advice["latest_start"].is_null());
  REQUIRE(advice["ways"].size() == 13);
  CHECK(advice["ways"][0] == json{{"changes",
                                   {{{"kind", "warmer"},
                                     {"amount", 4},
                                     {"openings", json::array()},
                                     {"start", nullptr},
                                     {"piece", ""},
                                     {"was", ""},
                                     {"schedule", nullptr},
                                     {"lacks", json::array()}}}},
                                  {"finish", "2027-03-07T19:05:00-05:00"},
                                  {"chance", 0.87},
                                  {"presence_hours", 8.0}});
  CHECK(advice["ways"][2]["changes"][0]["start"] == "2027-03-05T09:00:00-05:00");
  CHECK(advice["ways"][12]["changes"].size() == 2);
  CHECK(advice["in_vain"][1]["finish"].is_null());
  CHECK(advice["gains"][3]["earlier_minutes"] == 180.0);
  CHECK(advice["late"][0]["piece"] == "Sideboard");
}
