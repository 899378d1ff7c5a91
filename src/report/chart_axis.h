#pragma once

#include <vector>

#include "base/zone.h"
#include "plan/plan.h"
#include "report/sheet.h"

namespace coatwright {

/// The axis of a chart over some days. Hours in which nobody is there are drawn narrower, so that
/// the hours of work are wide enough to read.
class ChartAxis {
 public:
  /// Whole local days from the one of `first` on. @param plan whose hours and steps are wide.
  ChartAxis(const Plan& plan, const Zone& zone, Time first, int days);

  [[nodiscard]] Time begin() const { return stretches_.front().span.start; }
  [[nodiscard]] Time end() const { return stretches_.back().span.end; }
  /// Where a moment lies, 0 to 1; the nearest end for one that lies outside.
  [[nodiscard]] double share(Time time) const;
  /// How much is to be seen on it: the hours of work, and the share of the others.
  [[nodiscard]] double weight() const { return weight_; }

  /// A strong tick at each midnight, with the day; a weak one at each hour of work, every second
  /// one with the clock.
  [[nodiscard]] std::vector<ChartTick> ticks() const;
  /// The hours in which nobody is there.
  [[nodiscard]] std::vector<ChartBar> closed() const;

 private:
  struct Stretch {
    Interval span;
    bool open = false;
    double before = 0;  // weight of all that lies before it
  };
  void add(Interval span, bool open);

  Zone zone_;
  std::vector<Stretch> stretches_;
  double weight_ = 0;
};

}  // namespace coatwright
