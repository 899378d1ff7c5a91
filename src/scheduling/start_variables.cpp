#include "scheduling/start_variables.h"

#include <utility>

namespace coatwright {

StartVariables::StartVariables(std::vector<StartDomain> domains, BoundTrail& trail)
    : domains_(std::move(domains)), trail_(trail), low_(domains_.size()), high_(domains_.size()) {
  for (const StartDomain& domain : domains_) {
    trail.add_variable(domain.size() - 1);
  }
}

BoundLiteral StartVariables::not_before(int activity, Tick tick) const {
  return at_least(activity, domain(activity).index_up(tick));
}

BoundLiteral StartVariables::not_after(int activity, Tick tick) const {
  return at_most(activity, domain(activity).index_down(tick));
}

int StartVariables::first_reaching(const Endpoint& end, Tick tick) const {
  const StartDomain& starts = domain(end.variable);
  if (!end.lag.function) {
    return starts.index_up(tick - end.lag.constant);
  }
  int below = -1;
  int reaching = starts.size();
  while (reaching - below > 1) {
    const int middle = below + (reaching - below) / 2;
    (end.lag.at(starts.tick_of(middle)) >= tick ? reaching : below) = middle;
  }
  return reaching;
}

BoundLiteral StartVariables::not_before(const Endpoint& end, Tick tick) const {
  return at_least(end.variable, first_reaching(end, tick));
}

BoundLiteral StartVariables::not_after(const Endpoint& end, Tick tick) const {
  return at_most(end.variable, first_reaching(end, tick + 1) - 1);
}

}  // namespace coatwright
