#include "scheduling/windows.h"

#include <algorithm>

namespace coatwright {
namespace {

/// The first of the starts known .. last for which a lag reaches a moment; kNeverTick: none does.
Tick first_reaching(const Lag& lag, Tick moment, Tick known, Tick last) {
  if (!lag.function) {
    return std::max(known, moment - lag.constant);
  }
  if (lag.at(known) >= moment) {
    return known;
  }
  Tick below = known;  // the lag falls short here
  Tick step = 64;
  while (below + step < last && lag.at(below + step) < moment) {
    below += step;
    step *= 2;
  }
  Tick reached = std::min(below + step, last);
  if (reached <= below || lag.at(reached) < moment) {
    return kNeverTick;
  }
  while (reached - below > 1) {
    const Tick middle = below + (reached - below) / 2;
    (lag.at(middle) < moment ? below : reached) = middle;
  }
  return reached;
}

/// The last of the starts 0 .. known for which a lag does not pass a moment.
Tick last_within(const Lag& lag, Tick moment, Tick known) {
  if (!lag.function) {
    return std::min(known, moment - lag.constant);
  }
  if (known < 0 || lag.at(known) <= moment) {
    return known;
  }
  Tick above = known;  // the lag passes the moment here
  Tick step = 64;
  while (above - step >= 0 && lag.at(above - step) > moment) {
    above -= step;
    step *= 2;
  }
  Tick within = std::max<Tick>(above - step, -1);
  while (above - within > 1) {
    const Tick middle = within + (above - within) / 2;
    (lag.at(middle) > moment ? above : within) = middle;
  }
  return within;
}

}  // namespace

LagNetwork::LagNetwork(const Project& project)
    : earlier_(project.activities.size()),
      later_(project.activities.size()),
      horizon_(project.horizon) {
  for (const StartSet& set : project.start_sets) {
    grids_.emplace_back(set, project.grain, project.horizon);
  }
  for (const Activity& activity : project.activities) {
    grid_of_.push_back(activity.starts);
  }
  for (const MinLag& min : project.min_lags) {
    earlier_[min.from].push_back({min.to, min.lag, true});
    later_[min.to].push_back({min.from, min.lag, false});
  }
  for (const MaxLag& max : project.max_lags) {
    earlier_[max.to].push_back({max.from, max.lag, false});
    later_[max.from].push_back({max.to, max.lag, true});
  }
  find_components();
}

void LagNetwork::find_components() {
  component_of_.assign(earlier_.size(), -1);
  std::vector<int> open;
  for (int first = 0; first < count(); ++first) {
    if (component_of_[first] != -1) {
      continue;
    }
    const int id = static_cast<int>(components_.size());
    components_.emplace_back();
    component_of_[first] = id;
    open.assign(1, first);
    while (!open.empty()) {
      const int activity = open.back();
      open.pop_back();
      components_.back().push_back(activity);
      for (const auto* arcs : {&earlier_[activity], &later_[activity]}) {
        for (const Arc& arc : *arcs) {
          if (component_of_[arc.other] == -1) {
            component_of_[arc.other] = id;
            open.push_back(arc.other);
          }
        }
      }
    }
    std::sort(components_.back().begin(), components_.back().end());
  }
}

Tick LagNetwork::earliest_after(const Arc& arc, Tick earliest, Tick known) const {
  const Tick moment =
      arc.along ? arc.lag.at(earliest) : first_reaching(arc.lag, earliest, known, horizon_);
  return moment <= known ? known : grid(arc.other).up(moment);
}

Tick LagNetwork::latest_before(const Arc& arc, Tick latest, Tick known) const {
  const Tick moment = arc.along ? arc.lag.at(latest) : last_within(arc.lag, latest, known);
  return moment >= known ? known : grid(arc.other).down(moment);
}

Tick LagNetwork::earliest_beside(int activity, const std::vector<Tick>& starts, Tick known) const {
  Tick earliest = grid(activity).up(known);
  for (const Arc& arc : later_[activity]) {
    if (earliest >= kNeverTick) {
      break;
    }
    const Tick other = starts[arc.other];
    const Tick moment =
        arc.along ? first_reaching(arc.lag, other, earliest, horizon_) : arc.lag.at(other);
    earliest = moment > earliest ? grid(activity).up(moment) : earliest;
  }
  return earliest;
}

Tick LagNetwork::latest_beside(int activity, const std::vector<Tick>& starts, Tick known) const {
  Tick latest = grid(activity).down(known);
  for (const Arc& arc : earlier_[activity]) {
    const Tick other = starts[arc.other];
    const Tick moment = arc.along ? last_within(arc.lag, other, latest) : arc.lag.at(other);
    latest = moment < latest ? grid(activity).down(moment) : latest;
  }
  return latest;
}

Windows::Windows(const LagNetwork& network)
    : network_(&network), is_queued_(static_cast<std::size_t>(network.count()), 0) {
  for (int i = 0; i < network.count(); ++i) {
    low_.push_back(network.grid(i).up(0));
    high_.push_back(network.grid(i).down(kNeverTick));
    all_.push_back(i);
  }
}

void Windows::queue_all(std::span<const int> activities) {
  queue_.assign(activities.begin(), activities.end());
  for (const int activity : activities) {
    is_queued_[activity] = 1;
  }
}

bool Windows::propagate() {
  return propagate(all_);
}

bool Windows::propagate(std::span<const int> activities) {
  moved_.clear();
  if (std::any_of(activities.begin(), activities.end(), [&](int activity) {
        return low_[activity] > high_[activity];
      })) {
    return false;
  }
  queue_all(activities);
  if (!follow_earlier()) {
    return false;
  }
  queue_all(activities);
  return follow_later();
}

bool Windows::raise(int activity, Tick earliest) {
  moved_.clear();
  const Tick start = network_->grid(activity).up(earliest);
  if (start <= low_[activity]) {
    return true;
  }
  low_[activity] = start;
  moved_.push_back(activity);
  queue_.assign(1, activity);
  is_queued_[activity] = 1;
  return start <= high_[activity] ? follow_earlier() : (is_queued_[activity] = 0, false);
}

bool Windows::lower(int activity, Tick latest) {
  moved_.clear();
  const Tick start = network_->grid(activity).down(latest);
  if (start >= high_[activity]) {
    return true;
  }
  high_[activity] = start;
  moved_.push_back(activity);
  queue_.assign(1, activity);
  is_queued_[activity] = 1;
  return start >= low_[activity] ? follow_later() : (is_queued_[activity] = 0, false);
}

bool Windows::follow_earlier() {
  bool holds = true;
  for (std::size_t next = 0; next < queue_.size(); ++next) {
    const int activity = queue_[next];
    is_queued_[activity] = 0;
    if (!holds) {
      continue;
    }
    for (const LagNetwork::Arc& arc : network_->earlier(activity)) {
      const Tick start = network_->earliest_after(arc, low_[activity], low_[arc.other]);
      if (start <= low_[arc.other]) {
        continue;
      }
      low_[arc.other] = start;
      moved_.push_back(arc.other);
      holds = holds && start <= high_[arc.other];
      if (is_queued_[arc.other] == 0) {
        is_queued_[arc.other] = 1;
        queue_.push_back(arc.other);
      }
    }
  }
  queue_.clear();
  return holds;
}

bool Windows::follow_later() {
  bool holds = true;
  for (std::size_t next = 0; next < queue_.size(); ++next) {
    const int activity = queue_[next];
    is_queued_[activity] = 0;
    if (!holds) {
      continue;
    }
    for (const LagNetwork::Arc& arc : network_->later(activity)) {
      const Tick start = network_->latest_before(arc, high_[activity], high_[arc.other]);
      if (start >= high_[arc.other]) {
        continue;
      }
      high_[arc.other] = start;
      moved_.push_back(arc.other);
      holds = holds && start >= low_[arc.other];
      if (is_queued_[arc.other] == 0) {
        is_queued_[arc.other] = 1;
        queue_.push_back(arc.other);
      }
    }
  }
  queue_.clear();
  return holds;
}

void Windows::copy(const Windows& from, std::span<const int> activities) {
  for (const int activity : activities) {
    low_[activity] = from.low_[activity];
    high_[activity] = from.high_[activity];
  }
}

}  // namespace coatwright
