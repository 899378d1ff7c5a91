#pragma once

#include <vector>

#include "scheduling/inference.h"
#include "scheduling/occupation.h"

namespace coatwright {

/// Keeps one resource within its capacity: what surely lies at a moment leaves less for others.
/// Source: [schutt2013] (time-table consistency, pointwise explanations).
class TimeTable {
 public:
  TimeTable(const Project& project, int resource, const StartVariables& starts);

  /// Takes what is fixed for good out of the table and into its capacity. @return false when that
  /// alone takes more than there is.
  bool fold_fixed(const BoundTrail& trail);
  /// @return false on a contradiction.
  bool propagate(Inference& inference);
  /// The activities that it looks at.
  [[nodiscard]] std::vector<int> variables() const;

 private:
  /// An occupation with its earliest and latest moments.
  struct Placed {
    Tick begin_low = 0, begin_high = 0, end_low = 0, end_high = 0;
    bool operator==(const Placed&) const = default;
    /// It surely lies from begin_high up to end_low.
    [[nodiscard]] bool is_sure() const { return begin_high < end_low; }
  };
  /// From `from` up to the next one's: what is surely taken, and what there is.
  struct Segment {
    Tick from;
    int taken;
    int capacity;
  };

  /// Where what is open may lie, and how much it takes together.
  struct Reach {
    Tick from;
    Tick until;
    int amount;
  };

  bool set_capacity(const std::vector<std::pair<Tick, int>>& changes, const Reach& reach);
  [[nodiscard]] Placed placed_now(std::size_t occupation) const;
  /// Places all anew. @return whether what surely lies has changed.
  bool place_all();
  void add_event(Tick at, int amount);
  void remove_event(Tick at, int amount);
  void build_profile();
  [[nodiscard]] Tick segment_end(std::size_t segment) const;
  [[nodiscard]] bool surely_at(std::size_t occupation, Tick at) const;
  /// Adds literals for others that surely take more than `spare` together at a moment.
  void explain_taken(const BoundTrail& trail, Tick at, int spare, std::size_t except);
  [[nodiscard]] std::size_t first_segment_after(Tick at) const;
  bool push_later(std::size_t occupation, Inference& inference);
  bool push_earlier(std::size_t occupation, Inference& inference);

  const StartVariables& starts_;
  std::vector<CapacityStep> capacity_;
  std::vector<Occupation> occupations_;
  std::vector<Placed> placed_;
  std::vector<Placed> counted_;               ///< As the profile counts them.
  std::vector<std::size_t> moved_;            ///< Since the last propagate().
  std::vector<std::pair<Tick, int>> events_;  ///< Changes of what is surely taken, in order.
  std::vector<Segment> profile_;
  std::vector<BoundLiteral> because_;
  bool is_ample_ = false;  ///< All that is open fits at once, wherever it lies.
  int worst_spare_ = 0;    ///< The least capacity that is left anywhere.
};

}  // namespace coatwright
