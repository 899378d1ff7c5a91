#include "plan/drawn_together.h"

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include "plan/interruptions.h"
#include "plan/shop_requests.h"
#include "scheduling/own_schedule_checker.h"

using namespace coatwright;
using namespace asked;
using std::chrono::hours;

namespace {

/// One maker, an oiled box and a lacquered lid, in mild and steady air.
class BoxAndLid {
 public:
  BoxAndLid()
      : request_(asked_for()),
        air_(constant_air(21.0, 45.0, zone())),
        clocks_(air_, first_moment(request_)),
        rule_{normal_deviate(request_.confidence), request_.horizon},
        ticks_(request_.from),
        lags_(clocks_, rule_, request_.confidence, ticks_),
        for_work_(clocks_, rule_, ticks_),
        shop_(parts_of(request_, book(), clocks_).value()),
        context_{request_, shop_, book(), clocks_, lags_, for_work_, ticks_},
        found_(*search_shop(context_, {}, nullptr).value().found) {}

  [[nodiscard]] const ShopContext& context() const { return context_; }
  [[nodiscard]] const FoundShop& found() const { return found_; }

  /// The plan with one session later, where this breaks no rule, ends no later and makes one break
  /// more.
  std::optional<FoundShop> with_break(int activity, Tick later) {
    FoundShop spoiled = found_;
    spoiled.schedule.starts[static_cast<std::size_t>(activity)] += later;
    const Project& project = spoiled.model.project;
    spoiled.cost = cost_of(project, spoiled.schedule);
    ++spoiled.interruptions;
    if (!own::broken_rules(project, spoiled.schedule).empty() ||
        spoiled.cost.end != found_.cost.end || spoiled.cost.lateness != found_.cost.lateness ||
        breaks(spoiled) != breaks(found_) + 1) {
      return std::nullopt;
    }
    auto written = write_shop(context_, spoiled.model, spoiled.schedule);
    REQUIRE(written);
    spoiled.written = std::move(*written);
    return spoiled.written.misplaced ? std::nullopt : std::optional(std::move(spoiled));
  }

  static int breaks(const FoundShop& found) { return breaks_in_work(found.model, found.schedule); }

 private:
  static ShopRequest asked_for() {
    const Time monday = at("2027-02-01T08:00:00-05:00");
    ShopRequest request =
        shop(monday, monday + hours(24 * 28), zone(), "Mon-Fri 8:00-12:00, 13:00-17:00");
    request.effort = 200;
    request.jobs = {job("box", {part("all", "hardwax-oil", 0.3)}),
                    job("lid", {part("all", "precatalysed-lacquer", 0.5)})};
    return request;
  }

  ShopRequest request_;
  AirRecord air_;
  DryingClocks clocks_;
  WaitRule rule_;
  TickScale ticks_;
  StageLags lags_;
  AirForWork for_work_;
  ShopParts shop_;
  ShopContext context_;
  FoundShop found_;
};

}  // namespace

// Checked against: the plan before it was spoiled, and the separate checker of schedules.
TEST_CASE("A session that was moved off its neighbours is drawn back to them", "[plan]") {
  BoxAndLid shop;
  const int count = static_cast<int>(shop.found().schedule.starts.size());
  int spoiled = 0;
  for (int activity = 0; activity < count; ++activity) {
    for (const Tick later : {kGrainTicks, 4 * kGrainTicks, 12 * kGrainTicks, 24 * kGrainTicks}) {
      const auto found = shop.with_break(activity, later);
      if (!found) {
        continue;
      }
      INFO(shop.found().model.project.activities[static_cast<std::size_t>(activity)].name
           << " later by " << later);
      ++spoiled;
      const auto drawn = draw_together(shop.context(), *found, {});
      REQUIRE(drawn);
      REQUIRE(*drawn);
      const FoundShop& better = **drawn;
      CHECK(BoxAndLid::breaks(better) <= BoxAndLid::breaks(shop.found()));
      CHECK(better.interruptions == BoxAndLid::breaks(better) + gun_cleanings(better.model));
      CHECK(better.cost.lateness <= found->cost.lateness);
      CHECK(better.cost.end <= found->cost.end);
      CHECK(own::broken_rules(better.model.project, better.schedule) == std::vector<std::string>{});
      CHECK_FALSE(better.written.misplaced);
      CHECK(better.written.steps.size() == shop.found().written.steps.size());
    }
  }
  CHECK(spoiled > 0);
}
