#pragma once

#include <vector>

#include "scheduling/bound_trail.h"
#include "scheduling/start_domain.h"

namespace coatwright {

/// A moment that follows from an activity's start, such as its end.
struct Endpoint {
  int variable = 0;
  Lag lag;
};

/// The starts of activities as variables of a trail, and moments as bounds of them. Activity i is
/// variable i.
class StartVariables {
 public:
  /// @param domains of the activities in turn, none of them empty; adds them to an empty trail.
  StartVariables(std::vector<StartDomain> domains, BoundTrail& trail);

  [[nodiscard]] int count() const { return static_cast<int>(domains_.size()); }
  [[nodiscard]] const StartDomain& domain(int activity) const {
    return domains_[static_cast<std::size_t>(activity)];
  }
  /// The earliest and the latest start that are left.
  [[nodiscard]] Tick low(int activity) const {
    return tick_of(activity, trail_.low(activity), low_);
  }
  [[nodiscard]] Tick high(int activity) const {
    return tick_of(activity, trail_.high(activity), high_);
  }
  /// The earliest and the latest moment of an endpoint.
  [[nodiscard]] Tick low(const Endpoint& end) const { return end.lag.at(low(end.variable)); }
  [[nodiscard]] Tick high(const Endpoint& end) const { return end.lag.at(high(end.variable)); }

  /// That an activity starts, or an endpoint lies, at or after a moment.
  [[nodiscard]] BoundLiteral not_before(int activity, Tick tick) const;
  [[nodiscard]] BoundLiteral not_before(const Endpoint& end, Tick tick) const;
  /// That it is at or before a moment.
  [[nodiscard]] BoundLiteral not_after(int activity, Tick tick) const;
  [[nodiscard]] BoundLiteral not_after(const Endpoint& end, Tick tick) const;

 private:
  struct Known {
    int index = -1;
    Tick tick = 0;
  };
  [[nodiscard]] Tick tick_of(int activity, int index, std::vector<Known>& known) const {
    Known& last = known[static_cast<std::size_t>(activity)];
    if (last.index != index) {
      last = {index, domain(activity).tick_of(index)};
    }
    return last.tick;
  }
  /// The first start index from which on a lag does not end before a moment.
  [[nodiscard]] int first_reaching(const Endpoint& end, Tick tick) const;

  std::vector<StartDomain> domains_;
  const BoundTrail& trail_;
  mutable std::vector<Known> low_;  ///< The moment asked for last, per activity.
  mutable std::vector<Known> high_;
};

}  // namespace coatwright
