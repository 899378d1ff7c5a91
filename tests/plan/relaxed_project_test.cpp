#include <map>
#include <tuple>

#include <catch2/catch.hpp>

#include "plan/best_chain.h"
#include "plan/random_shops.h"
#include "plan/shop_search.h"
#include "scheduling/own_schedule_checker.h"
#include "scheduling/project_bounds.h"

using namespace coatwright;
using namespace asked;

namespace {

/// What a session is, whatever else is chosen: its part, work, faces, grit and coat, the step of
/// the schedule, and which of several alike.
using Identity = std::tuple<int, int, std::vector<int>, std::string, int, const void*, bool, int>;

std::map<Identity, SessionKey> sessions_of(const ShopModel& model) {
  std::map<Identity, SessionKey> sessions;
  for (std::size_t part = 0; part < model.chains.size(); ++part) {
    const PartChain& chain = *model.chains[part];
    for (std::size_t place = 0; place < chain.alone.sessions.size(); ++place) {
      const PlacedSession& placed = chain.alone.sessions[place];
      const WorkItem& work = chain.works[placed.work];
      Identity identity{static_cast<int>(part),
                        static_cast<int>(work.kind),
                        work.faces,
                        work.grit,
                        work.coat,
                        work.step,
                        placed.cuts_grain,
                        0};
      while (sessions.contains(identity)) {
        ++std::get<7>(identity);
      }
      sessions.emplace(identity, SessionKey{static_cast<int>(part), static_cast<int>(place)});
    }
  }
  return sessions;
}

const ModelSession& session_at(const ShopModel& model, const SessionKey& key) {
  return model.sessions[static_cast<std::size_t>(key.part)][static_cast<std::size_t>(key.place)];
}

/// A shop that is planned, with what planning it needed.
class PlannedShop {
 public:
  PlannedShop(const ShopRequest& request, const AirRecord& air)
      : request_(request),
        clocks_(air, first_moment(request)),
        rule_{normal_deviate(request.confidence), request.horizon},
        ticks_(request.from),
        lags_(clocks_, rule_, request.confidence, ticks_),
        for_work_(clocks_, rule_, ticks_),
        shop_(parts_of(request, book(), clocks_).value()),
        context_{request_, shop_, book(), clocks_, lags_, for_work_, ticks_},
        searched_(search_shop(context_, {}, nullptr).value()) {}

  [[nodiscard]] bool is_complete() const {
    return searched_.found && searched_.found->model.stopped_by.empty();
  }
  [[nodiscard]] const FoundShop& found() const { return *searched_.found; }

  /// The chains of the plan, or those with every piece turned over in the other order.
  std::optional<PartChains> chains(bool turned) {
    PartChains chains = found().model.chains;
    for (std::size_t part = 0; turned && part < chains.size(); ++part) {
      if (shop_.parts[part].request.piece.faces != Faces::kTwo) {
        continue;
      }
      const auto orders = orders_of(Faces::kTwo);
      const auto planned =
          std::find(orders.begin(), orders.end(), found().choice.parts[part].order);
      const PartChoice other{planned + 1 == orders.end() ? orders.front() : *(planned + 1), {}};
      auto chain = chain_of(shop_.parts[part], other, book(), clocks_);
      REQUIRE(chain);
      if (chain->alone.stopped_by) {
        return std::nullopt;
      }
      chains[part] = std::make_shared<PartChain>(std::move(*chain));
      ++turned_;
    }
    return chains;
  }

  [[nodiscard]] std::vector<std::vector<PartChain>> alone() {
    std::vector<std::vector<PartChain>> alone;
    std::int64_t placements = 0;
    for (const ShopPart& part : shop_.parts) {
      alone.push_back(bounding_chains(part.request, book(), clocks_, placements).value());
    }
    return alone;
  }

  ShopModel in_common(PartChains chains) {
    auto model =
        relaxed(context_, std::move(chains), alone(), ticks_.time(found().model.project.horizon));
    REQUIRE(model);
    return std::move(*model);
  }

  /// The starts that the plan gives to what is in common.
  [[nodiscard]] StartTimes starts_in(const ShopModel& common) const {
    const ShopModel& model = found().model;
    const auto known = sessions_of(model);
    StartTimes schedule;
    schedule.starts.assign(common.project.activities.size(), 0);
    const auto start_of = [&](int activity) {
      return found().schedule.starts[static_cast<std::size_t>(activity)];
    };
    for (const auto& [identity, key] : sessions_of(common)) {
      const ModelSession& wanted = session_at(common, key);
      if (wanted.activity >= 0) {
        const ModelSession& planned = session_at(model, known.at(identity));
        const auto later = planned.session.apply_offset - wanted.session.apply_offset;
        schedule.starts[static_cast<std::size_t>(wanted.activity)] =
            start_of(planned.activity) + (wanted.is_core ? ticks_of(later) : 0);
      }
    }
    for (std::size_t job = 0; job < common.builds.size(); ++job) {
      for (std::size_t i = 0; i < common.builds[job].size(); ++i) {
        schedule.starts[static_cast<std::size_t>(common.builds[job][i])] =
            start_of(model.builds[job][i]);
      }
    }
    return schedule;
  }

  int turned_ = 0;

 private:
  const ShopRequest& request_;
  DryingClocks clocks_;
  WaitRule rule_;
  TickScale ticks_;
  StageLags lags_;
  AirForWork for_work_;
  ShopParts shop_;
  ShopContext context_;
  ShopSearchResult searched_;
};

struct Seen {
  int plans = 0;
  int turned = 0;
  int shared = 0;
  int bounded = 0;
};

/// The plan keeps all that the relaxed project asks for, by the tests' own checker of schedules,
/// and does not beat its bounds.
void check_relaxed(unsigned number, Seen& seen) {
  DrawnShop drawn = draw_shop(number);
  INFO(in_words(number, drawn));
  const AirRecord& air = drawn.first.air;
  PlannedShop shop(drawn.request, air);
  if (!shop.is_complete()) {
    return;
  }
  ++seen.plans;
  seen.shared += shop.found().choice.guns.empty() ? 0 : 1;
  for (const bool turned : {false, true}) {
    auto chains = shop.chains(turned);
    if (!chains || (turned && shop.turned_ == 0)) {
      continue;
    }
    INFO((turned ? "turned over in the other order" : "as planned"));
    seen.turned += turned ? 1 : 0;
    const ShopModel common = shop.in_common(std::move(*chains));
    const StartTimes schedule = shop.starts_in(common);
    const auto broken = own::broken_rules(common.project, schedule);
    for (const std::string& sentence : broken) {
      UNSCOPED_INFO(sentence);
    }
    CHECK(broken.empty());
    const own::Cost cost = own::cost_by_hand(common.project, schedule);
    CHECK(cost.end <= shop.found().cost.end);
    CHECK(cost.lateness <= shop.found().cost.lateness);
    const auto bounds =
        bounds_of(common.project, {shop.found().cost.lateness, shop.found().cost.end}, 200'000);
    REQUIRE(bounds);
    CHECK(bounds->end <= cost.end);
    CHECK(bounds->lateness <= cost.lateness);
    seen.bounded += 100 * bounds->end >= 90 * shop.found().cost.end ? 1 : 0;
  }
}

}  // namespace

TEST_CASE("A plan keeps what all plans of its shop have in common", "[plan]") {
  Seen seen;
  for (unsigned number = 0; number < 25; ++number) {
    check_relaxed(number, seen);
  }
  CHECK(seen.plans > 12);
  CHECK(seen.turned > 5);
  CHECK(seen.shared > 0);
  CHECK(seen.bounded > 3);
}

TEST_CASE("More plans keep what all plans of their shop have in common", "[plan][.long]") {
  Seen seen;
  for (unsigned number = 100; number < 500; ++number) {
    check_relaxed(number, seen);
  }
  CHECK(seen.shared > 10);
}
