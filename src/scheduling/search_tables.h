#pragma once

#include <limits>
#include <map>
#include <memory>
#include <utility>
#include <vector>

#include "scheduling/start_domain.h"

namespace coatwright {

/// The moments of a lag by the number of the start that it counts from: each is worked out once.
class LagMemo {
 public:
  LagMemo(Lag lag, std::shared_ptr<const StartNumbering> starts)
      : lag_(std::move(lag)),
        starts_(std::move(starts)),
        moments_(static_cast<std::size_t>(starts_->size()), kUnknown) {}

  [[nodiscard]] Tick at(int number) {
    Tick& moment = moments_[static_cast<std::size_t>(number)];
    if (moment == kUnknown) {
      moment = lag_.at(starts_->tick_of(number));
    }
    return moment;
  }

 private:
  static constexpr Tick kUnknown = std::numeric_limits<Tick>::min();
  Lag lag_;
  std::shared_ptr<const StartNumbering> starts_;
  std::vector<Tick> moments_;
};

/// What all searches of one project look up again and again.
class SearchTables {
 public:
  /// @param project stays as it is for as long as the tables are used.
  explicit SearchTables(const Project& project);

  [[nodiscard]] const Project& project() const { return project_; }
  [[nodiscard]] const std::shared_ptr<const StartNumbering>& starts_of(int activity) const {
    const Activity& one = project_.activities[static_cast<std::size_t>(activity)];
    return numberings_[static_cast<std::size_t>(one.starts)];
  }
  /// @return where a lag from an activity is remembered; null for one that is always the same.
  [[nodiscard]] LagMemo* memo(const Lag& lag, int activity);

 private:
  const Project& project_;
  std::vector<std::shared_ptr<const StartNumbering>> numberings_;  ///< Per start set.
  std::map<std::pair<const LagFunction*, int>, LagMemo> memos_;    ///< By function and start set.
};

}  // namespace coatwright
