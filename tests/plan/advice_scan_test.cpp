#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include <catch2/catch.hpp>

#include "plan/advice.h"
#include "plan_requests.h"

using namespace coatwright;
using asked::at;
using std::chrono::hours;
using std::chrono::minutes;

// Planners of one rule each stand in for the real one, so that what the scan must find is known
// beforehand.
namespace {

const Time kMonday = at("2027-03-01T08:00:00-05:00");
const Time kFriday = at("2027-03-05T17:00:00-05:00");

AirRecord cool_air() {
  return asked::constant_air(15, 70, asked::zone());
}

/// Two pieces without parts, Monday to Friday, one person, one spray place, two rack places.
AdviceRequest two_pieces() {
  AdviceRequest request;
  ShopRequest& shop = request.shop;
  shop.made_at = kMonday;
  shop.from = kMonday;
  shop.horizon = kFriday + hours(24 * 28);
  shop.resources.spray_places = 1;
  shop.resources.rack_places = 2;
  for (const char* name : {"chest", "table"}) {
    JobRequest job;
    job.name = name;
    job.due = kFriday;
    PartRequest part;
    part.finish.name = name;
    part.finish.schedule = *asked::book().schedule_for("brushed-varnish", {});
    job.parts = {part};
    shop.jobs.push_back(job);
  }
  for (const Interval& open :
       asked::openings("Mon-Fri 8:00-17:00", kMonday, shop.horizon, asked::zone())) {
    shop.hours.push_back({open, 1});
  }
  return request;
}

/// A plan that ends in time where it fits, else two days late.
Plan answer(const ShopRequest& shop, bool fits) {
  Plan plan;
  plan.from = shop.from;
  plan.by = kFriday;
  plan.confidence = shop.confidence;
  plan.complete = true;
  plan.fits = fits;
  plan.finish = fits ? kFriday - hours(1) : kFriday + hours(48);
  for (const JobRequest& job : shop.jobs) {
    PlanPiece piece;
    piece.name = job.name;
    piece.due = job.due;
    piece.finish = plan.finish;
    piece.late = fits ? std::chrono::seconds(0) : *plan.finish - kFriday;
    plan.pieces.push_back(piece);
  }
  return plan;
}

using Rule = std::function<bool(const ShopRequest&, const AirRecord&)>;

DateAdvice advice_by(const AdviceRequest& request, const Rule& rule) {
  const Replan replan = [&](const ShopRequest& shop, const AirRecord& air) -> Result<Plan> {
    return answer(shop, rule(shop, air));
  };
  return advise(request, asked::book(), cool_air(), replan).value();
}

double celsius_at(const AirRecord& air, Time time) {
  return air.at(time).temperature.celsius();
}

/// What is changed of the first day, in hours.
double hours_on_monday(const ShopRequest& shop) {
  return Hours::from_seconds(shop.hours.front().open.end - shop.hours.front().open.start).hours();
}

/// A rule that a single change keeps, so that no pairs need be tried.
bool has_place_more(const ShopRequest& shop) {
  return shop.resources.spray_places == 2;
}

}  // namespace

TEST_CASE("A scan finds warmth that helps in a narrow range only", "[plan]") {
  // Bisecting between 0 and 15 C would miss it.
  const DateAdvice advice = advice_by(two_pieces(), [](const ShopRequest&, const AirRecord& air) {
    const double celsius = celsius_at(air, kMonday + hours(30));
    return celsius > 18.5 && celsius < 19.5;
  });
  REQUIRE(advice.ways.size() == 1);
  CHECK(advice.ways[0].changes[0].kind == ChangeKind::kWarmer);
  CHECK(advice.ways[0].changes[0].amount == 4);
}

TEST_CASE("Warming ends at 30 C, and every degree up to it is tried", "[plan]") {
  std::set<int> tried;
  const DateAdvice advice =
      advice_by(two_pieces(), [&](const ShopRequest& shop, const AirRecord& air) {
        tried.insert(static_cast<int>(std::lround(celsius_at(air, kMonday + hours(30)))));
        return has_place_more(shop);
      });
  CHECK(tried.size() == 16);
  CHECK(*tried.begin() == 15);
  CHECK(*tried.rbegin() == 30);
  REQUIRE(advice.in_vain.size() >= 1);
  CHECK(advice.ways.size() == 1);
}

TEST_CASE("Longer hours end at midnight, a day more is one that was closed", "[plan]") {
  std::set<date::local_days> added;
  Time latest_end = kMonday;
  const AdviceRequest request = two_pieces();
  const Zone zone = asked::zone();
  (void)advice_by(request, [&](const ShopRequest& shop, const AirRecord&) {
    for (const StaffedHours& one : shop.hours) {
      const auto day = date::floor<date::days>(zone.to_local(one.open.start));
      const date::weekday weekday(day);
      if (weekday == date::Saturday || weekday == date::Sunday) {
        added.insert(day);
      } else {
        const LocalTime end = zone.to_local(one.open.end);
        CHECK(end - LocalTime(day) <= hours(24));
        CHECK(end - LocalTime(day) <= hours(21));  // 17:00 and four hours
        latest_end = std::max(latest_end, one.open.end);
      }
    }
    CHECK(std::is_sorted(shop.hours.begin(), shop.hours.end(), [](const auto& a, const auto& b) {
      return a.open.start < b.open.start;
    }));
    return has_place_more(shop);
  });
  // The dates are both a Friday's: no day up to it is closed.
  CHECK(added.empty());
  CHECK(latest_end > kFriday + hours(4));
}

TEST_CASE("The Saturday before the date is a day more", "[plan]") {
  AdviceRequest request = two_pieces();
  for (JobRequest& job : request.shop.jobs) {
    job.due = kFriday + hours(3 * 24);
  }
  const Time saturday_noon = at("2027-03-06T12:00:00-05:00");
  const DateAdvice advice = advice_by(request, [&](const ShopRequest& shop, const AirRecord&) {
    return std::any_of(shop.hours.begin(), shop.hours.end(), [&](const StaffedHours& one) {
      return one.open.start < saturday_noon && saturday_noon < one.open.end;
    });
  });
  REQUIRE(advice.ways.size() == 1);
  const Change& change = advice.ways[0].changes[0];
  CHECK(change.kind == ChangeKind::kDayMore);
  CHECK(change.amount == 1);
  CHECK(change.openings ==
        std::vector<Interval>{{at("2027-03-06T08:00:00-05:00"), at("2027-03-06T17:00:00-05:00")}});
  CHECK(advice.ways[0].presence.hours() == Approx(0));  // it ends on Friday already
}

TEST_CASE("People and places are counted up one by one", "[plan]") {
  const DateAdvice places = advice_by(two_pieces(), [](const ShopRequest& shop, const AirRecord&) {
    return shop.resources.rack_places >= 5;
  });
  REQUIRE(places.ways.size() == 1);
  CHECK(places.ways[0].changes[0].kind == ChangeKind::kRackPlacesMore);
  CHECK(places.ways[0].changes[0].amount == 3);
  const DateAdvice people = advice_by(two_pieces(), [](const ShopRequest& shop, const AirRecord&) {
    return std::all_of(shop.hours.begin(), shop.hours.end(), [](const StaffedHours& one) {
      return one.people == 2;
    });
  });
  REQUIRE(people.ways.size() == 1);
  CHECK(people.ways[0].changes[0].kind == ChangeKind::kPersonMore);
  // By hand: nine hours on each of five days, but the last hour after the plan's end.
  CHECK(people.ways[0].presence.hours() == Approx(44));
}

TEST_CASE("Two changes are tried together only where none does it alone", "[plan]") {
  const Rule both = [](const ShopRequest& shop, const AirRecord& air) {
    return hours_on_monday(shop) > 10.5 && celsius_at(air, kMonday + hours(30)) > 17.5;
  };
  const DateAdvice advice = advice_by(two_pieces(), both);
  REQUIRE_FALSE(advice.ways.empty());
  const Way& way = advice.ways.front();
  REQUIRE(way.changes.size() == 2);
  std::map<ChangeKind, int> amounts;
  for (const Change& change : way.changes) {
    amounts[change.kind] = change.amount;
  }
  CHECK(amounts ==
        std::map<ChangeKind, int>{{ChangeKind::kWarmer, 3}, {ChangeKind::kLongerHours, 2}});
  const DateAdvice alone =
      advice_by(two_pieces(), [&](const ShopRequest& shop, const AirRecord& air) {
        return both(shop, air) || shop.resources.spray_places == 2;
      });
  REQUIRE(alone.ways.size() == 1);
  CHECK(alone.ways[0].changes.size() == 1);
}

TEST_CASE("The confidence and what was promised stay as they are in every plan", "[plan]") {
  int plans = 0;
  const AdviceRequest request = two_pieces();
  const DateAdvice advice = advice_by(request, [&](const ShopRequest& shop, const AirRecord&) {
    ++plans;
    CHECK(shop.confidence == request.shop.confidence);
    CHECK(shop.jobs.size() == 2);
    for (const JobRequest& job : shop.jobs) {
      CHECK(job.due == kFriday);
    }
    return has_place_more(shop);
  });
  CHECK(plans > 30);
  CHECK(advice.replans == plans);
}

TEST_CASE("Where nothing helps, there is no way, and no pair either", "[plan]") {
  AdviceRequest request = two_pieces();
  request.shop.resources = {};
  const AirRecord hot = asked::constant_air(29, 31, asked::zone());
  const Replan replan = [](const ShopRequest& shop, const AirRecord&) -> Result<Plan> {
    return answer(shop, false);
  };
  const DateAdvice advice = advise(request, asked::book(), hot, replan).value();
  CHECK(advice.ways.empty());
  CHECK_FALSE(advice.in_vain.empty());
  CHECK_FALSE(advice.latest_start);
  REQUIRE(advice.late.size() == 2);
  CHECK(advice.late[0].finish == kFriday + hours(48));
}

TEST_CASE("An earlier start is the latest that makes it", "[plan]") {
  AdviceRequest request = two_pieces();
  request.shop.made_at = kMonday - hours(72);  // Friday morning
  for (const Interval& open :
       asked::openings("Mon-Fri 8:00-17:00", request.shop.made_at, kMonday, asked::zone())) {
    request.earlier.push_back({open, 1});
  }
  const Time enough = at("2027-02-26T14:00:00-05:00");
  const DateAdvice advice = advice_by(request, [&](const ShopRequest& shop, const AirRecord&) {
    return shop.from <= enough && shop.hours.front().open.start == shop.from;
  });
  REQUIRE(advice.ways.size() == 1);
  CHECK(advice.ways[0].changes[0].kind == ChangeKind::kEarlierStart);
  CHECK(advice.ways[0].changes[0].start == enough);
}

TEST_CASE("A search that is stopped says so and shows what it has", "[plan]") {
  int plans = 0;
  const Replan replan = [&](const ShopRequest& shop, const AirRecord&) -> Result<Plan> {
    ++plans;
    return answer(shop, plans == 2);
  };
  const AdviceWatch watch{[&] { return plans >= 3; }};
  const DateAdvice advice = advise(two_pieces(), asked::book(), cool_air(), replan, watch).value();
  CHECK(advice.stopped);
  CHECK(plans == 3);
  CHECK(advice.ways.size() == 1);
}

TEST_CASE("What a little more buys is sorted by how much sooner it ends", "[plan]") {
  const Replan replan = [&](const ShopRequest& shop, const AirRecord& air) -> Result<Plan> {
    Plan plan = answer(shop, true);
    const double sooner = 60.0 * (hours_on_monday(shop) - 9.0) +
                          30.0 * (celsius_at(air, kMonday + hours(30)) - 15.0) +
                          (shop.hours.front().people - 1) * 90.0;
    plan.finish = *plan.finish - std::chrono::seconds(std::lround(60.0 * sooner));
    return plan;
  };
  const DateAdvice advice = advise(two_pieces(), asked::book(), cool_air(), replan).value();
  REQUIRE(advice.gains.size() >= 4);
  CHECK(advice.gains[0].change.kind == ChangeKind::kPersonMore);
  CHECK(advice.gains[0].earlier == minutes(90));
  CHECK(advice.gains[1].change.kind == ChangeKind::kLongerHours);
  CHECK(advice.gains[1].earlier == minutes(60));
  CHECK(advice.gains[2].change.kind == ChangeKind::kWarmer);
  CHECK(std::chrono::abs(advice.gains[2].earlier - minutes(30)) < std::chrono::seconds(2));
}
