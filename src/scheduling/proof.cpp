#include "scheduling/proof.h"

namespace coatwright {

Proof::Proof(SearchTables& tables, unsigned seed, const std::function<bool()>& stop)
    : tables_(tables), seed_(seed), stop_(stop) {}

CostLimit Proof::limit_below(const Incumbent& best, const ProvenBounds& bounds) const {
  if (!best.schedule) {
    return {};
  }
  if (best.cost.lateness > bounds.lateness) {
    return {.lateness = best.cost.lateness - 1};
  }
  return {.lateness = best.cost.lateness, .end = best.cost.end - 1};
}

void Proof::begin(const CostLimit& limit, const Incumbent& best) {
  const std::vector<Tick> hint = best.schedule ? best.schedule->starts : std::vector<Tick>{};
  search_ = std::make_unique<ConflictSearch>(
      tables_, limit, std::vector<std::optional<Tick>>{}, hint, seed_);
}

bool Proof::run(std::int64_t nodes, ProvenBounds& bounds, Incumbent& best) {
  const std::int64_t last = nodes_ + nodes;
  while (nodes_ < last) {
    const CostLimit limit = limit_below(best, bounds);
    const bool on_lateness = limit.end == kNeverTick;
    if (!search_ || on_lateness != on_lateness_) {
      begin(limit, best);
    } else if (limit.lateness != limit_.lateness || limit.end != limit_.end) {
      search_->tighten(limit);
    }
    on_lateness_ = on_lateness;
    limit_ = limit;
    const std::int64_t before = search_->nodes();
    const ProofOutcome outcome = search_->run(last - nodes_, stop_);
    nodes_ += search_->nodes() - before;
    if (outcome == ProofOutcome::kStopped) {
      return false;
    }
    if (outcome == ProofOutcome::kFound) {
      best.offer(tables_.project(), search_->found());
      continue;
    }
    if (!best.schedule || !on_lateness) {
      return true;
    }
    bounds.lateness = best.cost.lateness;
  }
  return false;
}

}  // namespace coatwright
