#include "plan/advice.h"

#include <algorithm>
#include <cmath>

#include <catch2/catch.hpp>

#include "plan/advice_candidates.h"
#include "plan/plan_alone.h"
#include "plan_requests.h"

using namespace coatwright;
using asked::at;
using std::chrono::hours;

namespace {

const Time kFriday = at("2027-03-05T08:00:00-05:00");
constexpr double kShopCelsius = 16.0;
constexpr double kShopPercent = 55.0;

AirRecord shop_air() {
  return asked::constant_air(kShopCelsius, kShopPercent, asked::zone());
}

AdviceRequest to_advise(const std::string& schedule, Time by, const std::string& week) {
  asked::Asked ask;
  ask.schedule = schedule;
  ask.week = week;
  AdviceRequest request;
  request.shop = shop_request_of(asked::request(ask, kFriday, by, asked::zone()));
  return request;
}

Result<Plan> planned_alone(const ShopRequest& shop, const AirRecord& air) {
  return make_plan(request_alone(shop), asked::book(), air);
}

DateAdvice advice_on(const AdviceRequest& request) {
  return advise(request, asked::book(), shop_air(), Replan(planned_alone)).value();
}

/// Of varnish that is asked for by Monday: three days for three coats, of which two are closed.
const AdviceRequest& varnish_request() {
  static const AdviceRequest request =
      to_advise("brushed-varnish", at("2027-03-08T17:00:00-05:00"), "Mon-Fri 8:00-17:00");
  return request;
}

const DateAdvice& varnish_advice() {
  static const DateAdvice advice = advice_on(varnish_request());
  return advice;
}

const Way* way_by(const DateAdvice& advice, ChangeKind kind) {
  const auto found = std::find_if(advice.ways.begin(), advice.ways.end(), [&](const Way& way) {
    return way.changes.size() == 1 && way.changes.front().kind == kind;
  });
  return found == advice.ways.end() ? nullptr : &*found;
}

/// Vapour pressure over water, hPa. Source: buck1981 eq. 8, another fit than the program's.
double buck_hectopascal(double celsius) {
  return 6.1121 * std::exp((18.729 - celsius / 227.3) * celsius / (celsius + 257.87));
}

/// The shop's air up to a moment, and from there so much warmer with the same vapour in it.
AirRecord heated_by_hand(double rise, Time from, Time to) {
  const double warm = kShopCelsius + rise;
  const double percent = kShopPercent * buck_hectopascal(kShopCelsius) / buck_hectopascal(warm);
  std::vector<AirEntry> entries;
  for (Time hour = from - hours(6); hour < from; hour += hours(1)) {
    entries.push_back(asked::forecast(hour, kShopCelsius, kShopPercent));
  }
  entries.push_back(asked::forecast(from - std::chrono::seconds(1), kShopCelsius, kShopPercent));
  for (Time hour = from; hour <= to; hour += hours(1)) {
    entries.push_back(asked::forecast(hour, warm, percent));
  }
  return {entries, shop_air().usual_day(), asked::zone()};
}

}  // namespace

TEST_CASE("The advised warmth makes the date, and no degree below it does", "[plan]") {
  // EVIDENCE: buck1981 eq. 8 heats the air; make_plan is asked directly, degree by degree.
  const Time by = at("2027-03-09T12:00:00-05:00");
  const AdviceRequest request = to_advise("brushed-varnish", by, "Mon-Fri 8:00-17:00");
  const DateAdvice advice = advice_on(request);
  REQUIRE_FALSE(advice.plan.fits);
  const Way* warmer = way_by(advice, ChangeKind::kWarmer);
  REQUIRE(warmer != nullptr);
  const int advised = warmer->changes.front().amount;
  REQUIRE(advised >= 2);
  for (int rise = 1; rise <= advised; ++rise) {
    INFO("rise " << rise << " of " << advised);
    const AirRecord air = heated_by_hand(rise, kFriday, request.shop.horizon);
    CHECK(planned_alone(request.shop, air)->fits == (rise == advised));
  }
}

TEST_CASE("From the latest start the date holds, and from no later one", "[plan]") {
  // Every start on the half hour up to the date, by direct calls of make_plan.
  const Time by = at("2027-03-09T17:00:00-05:00");
  const AdviceRequest request = to_advise("waterborne-clear", by, "Mon-Sun 8:00-11:00");
  const DateAdvice advice = advice_on(request);
  REQUIRE(advice.plan.fits);
  REQUIRE(advice.latest_start);
  std::optional<Time> latest;
  int tried = 0;
  for (const StaffedHours& one : request.shop.hours) {
    for (Time start = one.open.start; start < one.open.end && start < by;
         start += std::chrono::minutes(30)) {
      PlanRequest later = request_alone(request.shop);
      later.from = start;
      std::erase_if(later.hours, [&](const Interval& open) { return open.end <= start; });
      later.hours.front().start = std::max(later.hours.front().start, start);
      const bool fits = make_plan(later, asked::book(), shop_air())->fits;
      latest = fits ? start : latest;
      ++tried;
    }
  }
  CHECK(tried == 30);
  CHECK(*advice.latest_start == *latest);
  CHECK(*latest < by - hours(1));
}

TEST_CASE("Another schedule looks the same, shares a use and can be planned", "[plan]") {
  const AdviceRequest& request = varnish_request();
  const DateAdvice& advice = varnish_advice();
  const Schedule& present = **asked::book().schedule("brushed-varnish");
  int others = 0;
  for (const Way& way : advice.ways) {
    const Change& change = way.changes.front();
    if (change.kind != ChangeKind::kOtherSchedule) {
      continue;
    }
    ++others;
    const Schedule& other = **asked::book().schedule(change.schedule->name);
    CHECK(other.look == present.look);
    CHECK(std::any_of(present.suits.begin(), present.suits.end(), [&](const std::string& use) {
      return std::find(other.suits.begin(), other.suits.end(), use) != other.suits.end();
    }));
    for (const std::string& use : change.lacks) {
      CHECK(std::find(other.suits.begin(), other.suits.end(), use) == other.suits.end());
    }
    PlanRequest again = request_alone(request.shop);
    again.piece.schedule = *asked::book().schedule_for(other.name, {});
    CHECK(make_plan(again, asked::book(), shop_air())->finish == way.plan.finish);
  }
  CHECK(others >= 1);
}

TEST_CASE("No coat is left out below what is usual of the product", "[plan]") {
  // Of brushed-varnish three coats, 2 to 3 usual; of waterborne-clear three, 3 to 4 usual.
  const Way* fewer = way_by(varnish_advice(), ChangeKind::kCoatFewer);
  REQUIRE(fewer != nullptr);
  CHECK(fewer->changes.front().amount == 2);
  const auto coats = asked::of_kind(fewer->plan, StepKind::kApply);
  CHECK(coats.size() == 2);
  const Time too_soon = at("2027-03-05T12:00:00-05:00");
  const AdviceRequest clear = to_advise("waterborne-clear", too_soon, "Mon-Fri 8:00-17:00");
  const AirRecord air = shop_air();
  const AdviceBasis basis{clear, asked::book(), air, {}, {}, too_soon};
  CHECK(coat_changes(basis, clear.shop.jobs.front()).empty());
}

TEST_CASE("Once a coat is on, no other schedule is advised", "[plan]") {
  AdviceRequest request = varnish_request();
  const AirRecord air = shop_air();
  const AdviceBasis basis{request, asked::book(), air, {}, {}, kFriday};
  CHECK_FALSE(schedule_changes(basis, request.shop.jobs.front()).empty());
  LoggedWork coat;
  coat.kind = StepKind::kApply;
  coat.faces = {0};
  coat.product = *asked::book().product("oil-modified-varnish");
  coat.product_name = coat.product->name;
  coat.at = kFriday - hours(1);
  request.shop.jobs.front().parts.front().finish.log = {coat};
  CHECK(schedule_changes(basis, request.shop.jobs.front()).empty());
}
