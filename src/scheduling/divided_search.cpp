#include "scheduling/divided_search.h"

#include <utility>

#include "scheduling/divided_days.h"
#include "scheduling/neighbourhood_search.h"

namespace coatwright {
namespace {

/// A search with what it looks up, which it shares with no other.
struct Lane {
  Lane(const Project& project,
       const LagNetwork& network,
       unsigned seed,
       const std::function<bool()>& stop)
      : tables(project), search(tables, network, seed, stop) {}

  SearchTables tables;
  NeighbourhoodSearch search;
  Incumbent best;
};

}  // namespace

/// In an order in which each rests on those before it.
struct DividedSearch::Parts {
  Parts(Project divided, unsigned seed, Stops asked)
      : stops(std::move(asked)),
        project(std::move(divided)),
        network(project),
        windows(network),
        is_open(windows.propagate()),
        improvement(project, network, windows, seed, stops[0]),
        lanes{{project, network, seed, stops[0]}, {project, network, seed + 1, stops[1]}} {}

  Stops stops;
  Project project;
  LagNetwork network;
  Windows windows;
  bool is_open;
  Improvement improvement;
  Lane lanes[kLanes];
};

std::unique_ptr<DividedSearch> DividedSearch::of(const Project& project,
                                                 const LagNetwork& network,
                                                 const Windows& windows,
                                                 unsigned seed,
                                                 Stops stops) {
  std::optional<Project> divided = with_divided_days(project, network, windows);
  if (!divided) {
    return nullptr;
  }
  auto parts = std::make_unique<Parts>(std::move(*divided), seed, std::move(stops));
  if (!parts->is_open) {
    return nullptr;
  }
  return std::unique_ptr<DividedSearch>(new DividedSearch(std::move(parts)));
}

DividedSearch::DividedSearch(std::unique_ptr<Parts> parts) : parts_(std::move(parts)) {}
DividedSearch::~DividedSearch() = default;

std::int64_t DividedSearch::nodes() const {
  std::int64_t sum = parts_->improvement.placements();
  for (const Lane& lane : parts_->lanes) {
    sum += lane.search.nodes();
  }
  return sum;
}

bool DividedSearch::build(std::int64_t placements) {
  Incumbent& first = parts_->lanes[0].best;
  parts_->improvement.run(placements, first);
  parts_->lanes[1].best = first;
  return first.schedule.has_value();
}

void DividedSearch::run(int lane, std::int64_t nodes, std::int64_t lateness_bound) {
  Lane& one = parts_->lanes[lane];
  one.search.run(nodes, lateness_bound, one.best);
}

bool DividedSearch::leads(const Incumbent& best) const {
  const Incumbent& own = parts_->lanes[0].best;
  return own.schedule && own.cost <= best.cost;
}

void DividedSearch::share(Incumbent& best) {
  for (const Lane& from : parts_->lanes) {
    if (!from.best.schedule) {
      continue;
    }
    for (Lane& to : parts_->lanes) {
      to.best.offer(parts_->project, *from.best.schedule);
    }
    best.offer(parts_->project, *from.best.schedule);
  }
}

}  // namespace coatwright
