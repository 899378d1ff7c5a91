#include "scheduling/bound_raising.h"

#include <array>

namespace coatwright {
namespace {

/// So many of these make the gap: near to the bound more is proven, further off more is found.
constexpr std::array<std::int64_t, 3> kParts = {8, 2, 32};

}  // namespace

BoundRaising::BoundRaising(SearchTables& tables, unsigned seed, const std::function<bool()>& stop)
    : tables_(tables),
      stop_(stop),
      seed_(seed),
      nodes_each_(1500 + 20 * static_cast<std::int64_t>(tables.project().activities.size())) {}

void BoundRaising::ask(const CostLimit& limit,
                       bool on_lateness,
                       ProvenBounds& bounds,
                       Incumbent& best) {
  const ProofResult result = search_within(tables_, limit, {}, {}, nodes_each_, seed_++, stop_);
  nodes_ += result.nodes + 1;
  left_ -= result.nodes + 1;
  if (result.outcome == ProofOutcome::kFound) {
    best.offer(tables_.project(), result.schedule);
  } else if (result.outcome == ProofOutcome::kNone && on_lateness) {
    bounds.lateness = limit.lateness + 1;
  } else if (result.outcome == ProofOutcome::kNone) {
    bounds.end = limit.end + 1;
  } else if (++part_ == kParts.size()) {
    part_ = 0;
    nodes_each_ *= 2;
  }
}

void BoundRaising::run(std::int64_t nodes,
                       std::int64_t most,
                       ProvenBounds& bounds,
                       Incumbent& best) {
  left_ += nodes;
  const std::int64_t last = nodes_ + most;
  while (best.schedule && left_ >= nodes_each_ && nodes_ + nodes_each_ <= last &&
         !(stop_ && stop_())) {
    const bool on_lateness = best.cost.lateness > bounds.lateness;
    if (on_lateness != on_lateness_) {
      part_ = 0;
    }
    on_lateness_ = on_lateness;
    if (on_lateness) {
      const std::int64_t gap = best.cost.lateness - 1 - bounds.lateness;
      ask({.lateness = bounds.lateness + gap / kParts[part_]}, true, bounds, best);
    } else if (best.cost.end > bounds.end) {
      const std::int64_t gap = best.cost.end - 1 - bounds.end;
      const Tick target = bounds.end + static_cast<Tick>(gap / kParts[part_]);
      ask({best.cost.lateness, target}, false, bounds, best);
    } else {
      return;
    }
  }
}

}  // namespace coatwright
