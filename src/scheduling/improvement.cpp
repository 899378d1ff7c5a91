#include "scheduling/improvement.h"

#include <algorithm>
#include <iterator>

#include "scheduling/priority_rules.h"
#include "scheduling/shifting.h"

namespace coatwright {
namespace {

constexpr int kPatience = 60;   // attempts without a better one before going back
constexpr int kStaggered = 60;  // attempts of the kind before the best is disturbed
constexpr double kTargets[] = {1.0, 0.98, 0.95};
constexpr double kWorthJustifying = 1.04;  // times the end of the best

}  // namespace

bool Incumbent::offer(const Project& project, const StartTimes& candidate) {
  const ProjectCost candidate_cost = cost_of(project, candidate);
  if (schedule && candidate_cost >= cost) {
    return false;
  }
  schedule = candidate;
  cost = candidate_cost;
  return true;
}

Improvement::Improvement(const Project& project,
                         const LagNetwork& network,
                         const Windows& windows,
                         unsigned seed,
                         const std::function<bool()>& stop)
    : project_(project),
      network_(network),
      windows_(windows),
      stop_(stop),
      construction_(project, network, windows, stop),
      random_(seed),
      orders_(priority_orders(project, network, windows, construction_.has_blocks())),
      groups_(groups_of(project, network)),
      staggered_left_(*std::max_element(groups_.begin(), groups_.end()) > 0 ? kStaggered : 0),
      urgency_(project.activities.size(), 0.0) {}

void Improvement::begin_with(const std::vector<Tick>& starts) {
  PlacingOrder order = orders_.front();
  order.priority.assign(starts.begin(), starts.end());
  orders_.insert(orders_.begin(), std::move(order));
}

void Improvement::run(std::int64_t placements, Incumbent& best) {
  const std::int64_t last = construction_.placements() + placements;
  while (construction_.placements() < last && !(stop_ && stop_())) {
    // An attempt that fails at once must not go on for ever.
    const std::int64_t before = construction_.placements();
    attempt(next_order(best), best);
    if (construction_.placements() == before && has_tried_rules()) {
      break;
    }
  }
}

PlacingOrder Improvement::next_order(const Incumbent& best) {
  if (next_rule_ < orders_.size()) {
    return orders_[next_rule_++];
  }
  if (!best.schedule) {
    return disturbed_rule();
  }
  if (staggered_left_ > 0) {
    --staggered_left_;
    return staggered(best);
  }
  if (!current_ || since_better_ > kPatience) {
    since_better_ = 0;
    current_ = best.schedule;
    current_cost_ = best.cost;
    choose_target(best);
    if (random_.below(4) == 0) {
      current_.reset();
      return random_.below(2) == 0 ? disturbed_rule() : staggered(best);
    }
  }
  return disturbed_schedule();
}

void Improvement::attempt(const PlacingOrder& order, Incumbent& best) {
  ++since_better_;
  if (!construction_.run(order, random_)) {
    const NoPlace& failure = construction_.no_place();
    urgency_[failure.activity] += 1.0;
    if (construction_.board().placed() > most_placed_) {
      most_placed_ = construction_.board().placed();
      no_place_ = failure;
    }
    return;
  }
  const StartTimes schedule = current_board();
  const ProjectCost cost = cost_of(project_, schedule);
  accept(schedule, best);
  if (cost.lateness <= best.cost.lateness + best.cost.lateness / 16 &&
      cost.end <= best.cost.end * kWorthJustifying) {
    justify(best);
  }
}

StartTimes Improvement::current_board() {
  return {construction_.board().starts()};
}

Improvement::Guide Improvement::guide_of(const StartTimes& schedule,
                                         const ProjectCost& cost) const {
  Guide guide{cost.lateness, 0, cost.end, cost.sum_of_ends};
  for (std::size_t i = 0; i < schedule.starts.size(); ++i) {
    const Tick length = project_.activities[i].length;
    guide.past_target += std::clamp(schedule.starts[i] + length - target_, 0, length);
  }
  return guide;
}

void Improvement::choose_target(const Incumbent& best) {
  const double part = kTargets[random_.below(static_cast<int>(std::size(kTargets)))];
  target_ = keeps_end_ ? best.cost.end : static_cast<Tick>(best.cost.end * part);
  current_guide_ = guide_of(*current_, current_cost_);
}

void Improvement::accept(const StartTimes& schedule, Incumbent& best) {
  const ProjectCost cost = cost_of(project_, schedule);
  const Guide guide = guide_of(schedule, cost);
  if (!current_ || guide <= current_guide_) {
    since_better_ = current_ && guide == current_guide_ ? since_better_ : 0;
    current_ = schedule;
    current_cost_ = cost;
    current_guide_ = guide;
  }
  best.offer(project_, schedule);
}

/// Shifts all to the right, and builds anew in that order.
void Improvement::justify(Incumbent& best) {
  Board& board = construction_.board();
  const Tick end = cost_of(project_, current_board()).end;
  if (shift_later(project_, network_, board, end) == 0) {
    return;
  }
  PlacingOrder order = orders_.front();
  order.priority.assign(board.starts().begin(), board.starts().end());
  order.keep_blocks = false;
  if (construction_.run(order, random_)) {
    accept(current_board(), best);
  }
}

/// Groups begin one after the other, spread over a part of the time: fewer are in work at once.
PlacingOrder Improvement::staggered(const Incumbent& best) {
  PlacingOrder order = orders_.front();
  order.keep_blocks = random_.below(2) == 0;
  const double spread = best.cost.end * (0.2 + 0.6 * random_.fraction());
  std::vector<double> begins(group_count(project_, groups_));
  for (double& begin : begins) {
    begin = spread * random_.fraction();
  }
  for (std::size_t i = 0; i < order.priority.size(); ++i) {
    order.priority[i] = windows_.low(static_cast<int>(i)) + begins[groups_[i]];
  }
  return order;
}

PlacingOrder Improvement::disturbed_rule() {
  PlacingOrder order = orders_[random_.below(static_cast<int>(orders_.size()))];
  const auto [least, most] = std::minmax_element(order.priority.begin(), order.priority.end());
  const double range = *most - *least + 1.0;
  const double noise = range * random_.fraction() * 0.3;
  for (std::size_t i = 0; i < order.priority.size(); ++i) {
    order.priority[i] += noise * random_.fraction() - 0.05 * range * urgency_[i];
    urgency_[i] *= 0.95;
  }
  return order;
}

PlacingOrder Improvement::disturbed_schedule() {
  PlacingOrder order = orders_.front();
  order.priority.assign(current_->starts.begin(), current_->starts.end());
  order.keep_blocks = construction_.has_blocks() && random_.below(2) == 0;
  switch (random_.below(6)) {
    case 0:
    case 1:
      disturb_stretch(order.priority);
      break;
    case 2:
    case 3:
      disturb_some(order.priority);
      break;
    case 4: {
      const int group = groups_[random_.below(static_cast<int>(groups_.size()))];
      advance_group(order.priority, group, current_cost_.end * (random_.fraction() * 0.6 - 0.2));
      break;
    }
    default:
      advance_group(order.priority, last_group(), current_cost_.end * random_.fraction() * 0.4);
      disturb_some(order.priority);
  }
  return order;
}

void Improvement::disturb_stretch(std::vector<double>& priority) {
  const double fraction = random_.fraction();
  const double radius = 1.0 + current_cost_.end * 0.25 * fraction * fraction * fraction;
  const double centre = priority[random_.below(static_cast<int>(priority.size()))];
  for (double& one : priority) {
    if (one > centre - radius && one < centre + radius) {
      one += radius * (2.0 * random_.fraction() - 1.0);
    }
  }
}

/// Some activities go earlier with what comes before them in their group, or later with what comes
/// after.
void Improvement::disturb_some(std::vector<double>& priority) {
  const int count = static_cast<int>(priority.size());
  const double range = 1.0 + current_cost_.end * 0.3 * random_.fraction();
  for (int i = 1 + random_.below(4); i > 0; --i) {
    const int chosen = random_.below(count);
    const double by = range * (2.0 * random_.fraction() - 1.0);
    const double at = priority[chosen];
    for (int other = 0; other < count; ++other) {
      const bool moves = by < 0 ? priority[other] <= at : priority[other] >= at;
      if (groups_[other] == groups_[chosen] && moves) {
        priority[other] += by;
      }
    }
  }
}

void Improvement::advance_group(std::vector<double>& priority, int group, double by) {
  for (std::size_t i = 0; i < priority.size(); ++i) {
    priority[i] -= groups_[i] == group ? by : 0.0;
  }
}

/// The job that costs most: late by most, or else the one that ends last.
int Improvement::last_group() const {
  int worst = -1;
  std::int64_t worst_late = 0;
  for (std::size_t i = 0; i < project_.jobs.size(); ++i) {
    const Job& job = project_.jobs[i];
    for (const int activity : job.activities) {
      const Tick end = current_->starts[activity] + project_.activities[activity].length;
      const std::int64_t late = std::int64_t{job.weight} * std::max(0, end - job.due);
      if (late > worst_late) {
        worst_late = late;
        worst = static_cast<int>(i);
      }
    }
  }
  if (worst >= 0) {
    return worst;
  }
  for (std::size_t i = 0; i < groups_.size(); ++i) {
    if (current_->starts[i] + project_.activities[i].length == current_cost_.end) {
      worst = groups_[i];
    }
  }
  return worst;
}

}  // namespace coatwright
