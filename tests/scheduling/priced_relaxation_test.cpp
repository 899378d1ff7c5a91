#include "scheduling/priced_relaxation.h"

#include <catch2/catch.hpp>

#include "own_projects.h"

using namespace coatwright;

namespace {

/// A chain of three with lags of all kinds, that use two resources and hold a third.
class ChainDrawing {
 public:
  explicit ChainDrawing(std::uint64_t seed) : random_(seed) {}

  Project draw() {
    Project project;
    project.horizon = 40;
    project.start_sets = {{{{0, 12}, {20, 40}}}, {{{0, 40}}}};
    project.resources = {{"place", {{0, 1}}}, {"bench", {{0, 2}}}, {"rack", {{0, 1}}}};
    for (int i = 0; i < 3; ++i) {
      const Tick length = random_.between(1, 5);
      project.activities.push_back(
          {"work", length, {{i % 2, 1, 0, length + random_.between(0, 2)}}, random_.between(0, 1)});
    }
    for (int i = 0; i < 2; ++i) {
      project.min_lags.push_back({i, i + 1, lag(1, 6)});
      project.max_lags.push_back({i, i + 1, lag(8, 14)});
      if (random_.chance(30)) {
        project.min_lags.push_back({i + 1, i, Lag{-random_.between(6, 12)}});
      }
      project.holds.push_back({2, 1, i, 1, i + 1, 0, Lag{}});
    }
    project.holds.push_back({2, 1, 2, 1, std::nullopt, 0, lag(3, 5)});
    return project;
  }

 private:
  Lag lag(int low, int high) {
    if (random_.chance(40)) {
      return Lag{random_.between(low, high)};
    }
    std::vector<Tick> moments;
    for (Tick start = 0; start <= 40; ++start) {
      const Tick before = moments.empty() ? 0 : moments.back();
      moments.push_back(std::max(before, start + random_.between(low, high)));
    }
    return Lag{0, std::make_shared<own::TableLag>(moments)};
  }

  own::Random random_;
};

/// What a stretch of time costs, tick by tick; nothing past the last slot.
std::int64_t paid(const Prices& prices, std::size_t slots, int resource, Tick from, Tick to) {
  std::int64_t sum = 0;
  for (Tick tick = from; tick < to && tick < static_cast<Tick>(slots); ++tick) {
    sum += prices[static_cast<std::size_t>(resource) * slots + static_cast<std::size_t>(tick)];
  }
  return sum;
}

/// By hand, for starts in the order of the chain; nothing when a lag or a start set is broken.
std::optional<std::int64_t> cost_by_hand(const Project& project,
                                         const std::vector<Tick>& starts,
                                         const Prices& prices,
                                         std::size_t slots) {
  const auto at = [&](int activity) { return starts[static_cast<std::size_t>(activity)]; };
  for (const auto& min : project.min_lags) {
    if (at(min.to) < min.lag.at(at(min.from))) {
      return std::nullopt;
    }
  }
  for (const auto& max : project.max_lags) {
    if (at(max.to) > max.lag.at(at(max.from))) {
      return std::nullopt;
    }
  }
  std::int64_t cost = 0;
  for (int i = 0; i < 3; ++i) {
    const Activity& activity = project.activities[static_cast<std::size_t>(i)];
    if (activity.starts == 0 && at(i) > 12 && at(i) < 20) {
      return std::nullopt;
    }
    const Demand& demand = activity.demands.front();
    cost += paid(prices, slots, demand.resource, at(i), at(i) + demand.to);
  }
  for (const Hold& hold : project.holds) {
    const Tick to = hold.to ? at(*hold.to) : hold.until.at(at(hold.from));
    cost += paid(prices, slots, hold.resource, at(hold.from) + hold.from_offset, to);
  }
  const Tick late = at(2) + project.activities[2].length - 15;
  return cost + 3 * PricedRelaxation::kPriceUnit * std::max(0, late);
}

}  // namespace

// Checked against: all starts of a chain, tried.
TEST_CASE("A chain at given prices costs what its best starts cost", "[scheduling]") {
  int feasible = 0;
  for (std::uint64_t seed = 0; seed < 60; ++seed) {
    CAPTURE(seed);
    const Project project = ChainDrawing(seed).draw();
    const LagNetwork network(project);
    Windows windows(network);
    if (!windows.propagate()) {
      continue;
    }
    const auto pools = pools_of(project, network, windows);
    std::vector<UsableCapacity> usable;
    for (const Pool& pool : pools) {
      usable.emplace_back(project, pool);
    }
    PricedRelaxation relaxation(project, network, windows, pools, usable, 40, 41, 10'000);
    relaxation.count_lateness(2, {3, project.activities[2].length, 15});
    REQUIRE(relaxation.slots() == 41);
    own::Random random(seed);
    Prices prices(relaxation.prices());
    for (auto& price : prices) {
      price = random.between(0, 40'000);
    }
    std::optional<std::int64_t> least;
    for (Tick one = 0; one <= 40; ++one) {
      for (Tick two = 0; two <= 40; ++two) {
        for (Tick three = 0; three <= 40; ++three) {
          const auto cost = cost_by_hand(project, {one, two, three}, prices, 41);
          least = cost && (!least || *cost < *least) ? cost : least;
        }
      }
    }
    feasible += least ? 1 : 0;
    const std::int64_t found = relaxation.least_cost(prices);
    PricedRelaxation coarse(project, network, windows, pools, usable, 40, 41, 30);
    coarse.count_lateness(2, {3, project.activities[2].length, 15});
    CHECK(coarse.effort() < relaxation.effort());
    CHECK(coarse.least_cost(prices) <= found);
    CHECK(found == least.value_or(PricedRelaxation::kNoCost));
    if (!least) {
      continue;
    }
    // What is taken, at these prices, is what is paid beside the lateness.
    std::int64_t spent = 0;
    for (std::size_t i = 0; i < prices.size(); ++i) {
      spent += prices[i] * relaxation.taken()[i];
    }
    CHECK(spent <= found);
    CHECK((found - spent) % (3 * PricedRelaxation::kPriceUnit) == 0);
  }
  CHECK(feasible > 20);
}
