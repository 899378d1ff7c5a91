#include "scheduling/start_variables.h"

#include <utility>

namespace coatwright {

StartVariables::StartVariables(std::vector<StartDomain> domains,
                               BoundTrail& trail,
                               SearchTables& tables)
    : domains_(std::move(domains)), trail_(trail), tables_(tables) {
  for (const StartDomain& domain : domains_) {
    trail.add_variable(domain.size() - 1);
  }
}

Endpoint StartVariables::known(Endpoint end) const {
  end.memo = tables_.memo(end.lag, end.variable);
  return end;
}

BoundLiteral StartVariables::not_before(int activity, Tick tick) const {
  return at_least(activity, domain(activity).index_up(tick));
}

BoundLiteral StartVariables::not_after(int activity, Tick tick) const {
  return at_most(activity, domain(activity).index_down(tick));
}

int StartVariables::first_reaching(const Endpoint& end, Tick tick, int near) const {
  const StartDomain& starts = domain(end.variable);
  if (!end.lag.function) {
    return starts.index_up(tick - end.lag.constant);
  }
  int below = -1;
  int reaching = starts.size();
  if (moment(end, near) >= tick) {
    reaching = near;
    for (int step = 1; reaching - step > below; step *= 2) {
      if (moment(end, reaching - step) < tick) {
        below = reaching - step;
        break;
      }
      reaching -= step;
    }
  } else {
    below = near;
    for (int step = 1; below + step < reaching; step *= 2) {
      if (moment(end, below + step) >= tick) {
        reaching = below + step;
        break;
      }
      below += step;
    }
  }
  while (reaching - below > 1) {
    const int middle = below + (reaching - below) / 2;
    (moment(end, middle) >= tick ? reaching : below) = middle;
  }
  return reaching;
}

BoundLiteral StartVariables::not_before(const Endpoint& end, Tick tick) const {
  return at_least(end.variable, first_reaching(end, tick, trail_.low(end.variable)));
}

BoundLiteral StartVariables::not_after(const Endpoint& end, Tick tick) const {
  const int near = trail_.high(end.variable);
  return at_most(end.variable, first_reaching(end, tick + 1, near) - 1);
}

}  // namespace coatwright
