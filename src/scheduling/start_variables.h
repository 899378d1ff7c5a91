#pragma once

#include <vector>

#include "scheduling/bound_trail.h"
#include "scheduling/search_tables.h"

namespace coatwright {

/// A moment that follows from an activity's start, such as its end.
struct Endpoint {
  int variable = 0;
  Lag lag;
  LagMemo* memo = nullptr;  ///< Of the lag, once StartVariables::known() has looked it up.
};

/// The starts of activities as variables of a trail, and moments as bounds of them. Activity i is
/// variable i.
class StartVariables {
 public:
  /// @param domains of the activities in turn, none of them empty; adds them to an empty trail.
  StartVariables(std::vector<StartDomain> domains, BoundTrail& trail, SearchTables& tables);

  /// The same endpoint, quicker to ask for.
  [[nodiscard]] Endpoint known(Endpoint end) const;

  [[nodiscard]] int count() const { return static_cast<int>(domains_.size()); }
  [[nodiscard]] const StartDomain& domain(int activity) const {
    return domains_[static_cast<std::size_t>(activity)];
  }
  /// The earliest and the latest start that are left.
  [[nodiscard]] Tick low(int activity) const {
    return domain(activity).tick_of(trail_.low(activity));
  }
  [[nodiscard]] Tick high(int activity) const {
    return domain(activity).tick_of(trail_.high(activity));
  }
  /// The earliest and the latest moment of an endpoint.
  [[nodiscard]] Tick low(const Endpoint& end) const {
    return moment(end, trail_.low(end.variable));
  }
  [[nodiscard]] Tick high(const Endpoint& end) const {
    return moment(end, trail_.high(end.variable));
  }
  /// The moment of an endpoint when its activity has the start of an index.
  [[nodiscard]] Tick moment(const Endpoint& end, int index) const {
    const StartDomain& starts = domain(end.variable);
    return end.memo != nullptr ? end.memo->at(starts.number_of(index))
                               : end.lag.at(starts.tick_of(index));
  }

  /// That an activity starts, or an endpoint lies, at or after a moment.
  [[nodiscard]] BoundLiteral not_before(int activity, Tick tick) const;
  [[nodiscard]] BoundLiteral not_before(const Endpoint& end, Tick tick) const;
  /// That it is at or before a moment.
  [[nodiscard]] BoundLiteral not_after(int activity, Tick tick) const;
  [[nodiscard]] BoundLiteral not_after(const Endpoint& end, Tick tick) const;

 private:
  /// The first start index from which on a lag does not end before a moment. @param near an index
  /// that the search begins at.
  [[nodiscard]] int first_reaching(const Endpoint& end, Tick tick, int near) const;

  std::vector<StartDomain> domains_;
  const BoundTrail& trail_;
  SearchTables& tables_;
};

}  // namespace coatwright
