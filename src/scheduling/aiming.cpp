#include "scheduling/aiming.h"

#include <algorithm>

namespace coatwright {
namespace {

/// Nearer than this part of the best, small steps do as well.
constexpr std::int64_t kNearPart = 200;

}  // namespace

Aiming::Aiming(SearchTables& tables, unsigned seed, const std::function<bool()>& stop)
    : tables_(tables),
      stop_(stop),
      seed_(seed),
      nodes_each_(300 + 3 * static_cast<std::int64_t>(tables.project().activities.size())) {}

ProofOutcome Aiming::ask(const CostLimit& limit, std::int64_t nodes, Incumbent& best) {
  const ProofResult result = search_within(tables_, limit, {}, {}, nodes, seed_++, stop_);
  nodes_ += result.nodes + 1;
  if (result.outcome == ProofOutcome::kFound) {
    best.offer(tables_.project(), result.schedule);
  }
  return result.outcome;
}

void Aiming::run(std::int64_t nodes, ProvenBounds& bounds, Incumbent& best) {
  const std::int64_t last = nodes_ + nodes;
  while (best.schedule && nodes_ < last && !(stop_ && stop_())) {
    const bool on_lateness = best.cost.lateness > bounds.lateness;
    const std::int64_t bound = on_lateness ? bounds.lateness : bounds.end;
    const std::int64_t least = on_lateness ? best.cost.lateness : best.cost.end;
    if (on_lateness != on_lateness_ || given_up_ < bound) {
      given_up_ = bound - 1;
    }
    on_lateness_ = on_lateness;
    if (least - given_up_ <= 1 + least / kNearPart) {
      given_up_ = bound - 1;
      nodes_each_ *= 2;
      return;
    }
    const std::int64_t target = given_up_ + (least - given_up_) / 2;
    const CostLimit limit = on_lateness ? CostLimit{.lateness = target}
                                        : CostLimit{best.cost.lateness, static_cast<Tick>(target)};
    switch (ask(limit, std::min(nodes_each_, last - nodes_), best)) {
      case ProofOutcome::kFound:
        given_up_ = bound - 1;
        break;
      case ProofOutcome::kNone:
        given_up_ = target;
        if (on_lateness) {
          bounds.lateness = target + 1;
        } else {
          bounds.end = static_cast<Tick>(target) + 1;
        }
        break;
      case ProofOutcome::kStopped:
        given_up_ = target;
        break;
    }
  }
}

}  // namespace coatwright
