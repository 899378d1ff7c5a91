#include "scheduling/priority_rules.h"

#include <algorithm>
#include <numeric>

namespace coatwright {
namespace {

/// The latest starts with which each job would be done when it is due, as far as that is possible.
Windows windows_by_due(const Project& project, const Windows& windows) {
  Windows by_due = windows;
  for (const Job& job : project.jobs) {
    if (job.due >= kNeverTick) {
      continue;
    }
    for (const int activity : job.activities) {
      const Tick latest = job.due - project.activities[activity].length;
      Windows tried = by_due;
      if (tried.lower(activity, std::max(latest, by_due.low(activity)))) {
        by_due = std::move(tried);
      }
    }
  }
  return by_due;
}

/// What a group is ranked by when one is placed after the other.
struct GroupFigures {
  Tick due = kNeverTick;
  double work = 0.0;
  double weight = 1.0;
  Tick earliest_end = 0;
  Tick slack = kNeverTick;
};

std::vector<GroupFigures> figures_of(const Project& project,
                                     const std::vector<int>& groups,
                                     const Windows& windows,
                                     const Windows& by_due) {
  std::vector<GroupFigures> figures(group_count(project, groups));
  for (std::size_t i = 0; i < project.jobs.size(); ++i) {
    figures[i].due = project.jobs[i].due;
    figures[i].weight = project.jobs[i].weight;
  }
  for (std::size_t i = 0; i < groups.size(); ++i) {
    const int activity = static_cast<int>(i);
    GroupFigures& group = figures[groups[i]];
    group.work += project.activities[i].length;
    group.earliest_end =
        std::max(group.earliest_end, windows.low(activity) + project.activities[i].length);
    group.slack = std::min(group.slack, by_due.high(activity) - by_due.low(activity));
  }
  return figures;
}

std::vector<double> by_group(const std::vector<int>& groups,
                             const std::vector<GroupFigures>& figures,
                             const Windows& windows,
                             double (*key)(const GroupFigures&)) {
  std::vector<int> order(figures.size());
  std::iota(order.begin(), order.end(), 0);
  std::stable_sort(
      order.begin(), order.end(), [&](int a, int b) { return key(figures[a]) < key(figures[b]); });
  std::vector<double> rank(figures.size());
  for (std::size_t i = 0; i < order.size(); ++i) {
    rank[order[i]] = static_cast<double>(i);
  }
  std::vector<double> priority;
  for (std::size_t i = 0; i < groups.size(); ++i) {
    const double low = windows.low(static_cast<int>(i));
    priority.push_back(rank[groups[i]] + low / kNeverTick);
  }
  return priority;
}

template <typename Key>
std::vector<double> by_activity(int count, Key key) {
  std::vector<double> priority;
  priority.reserve(static_cast<std::size_t>(count));
  for (int i = 0; i < count; ++i) {
    priority.push_back(static_cast<double>(key(i)));
  }
  return priority;
}

}  // namespace

std::vector<int> groups_of(const Project& project, const LagNetwork& network) {
  std::vector<int> groups(project.activities.size(), -1);
  for (std::size_t i = 0; i < project.jobs.size(); ++i) {
    for (const int activity : project.jobs[i].activities) {
      groups[activity] = static_cast<int>(i);
    }
  }
  int next = static_cast<int>(project.jobs.size());
  for (const auto& component : network.components()) {
    const int id = next;
    for (const int activity : component) {
      if (groups[activity] == -1) {
        groups[activity] = id;
        next = id + 1;
      }
    }
  }
  return groups;
}

std::size_t group_count(const Project& project, const std::vector<int>& groups) {
  std::size_t count = project.jobs.size();
  for (const int group : groups) {
    count = std::max(count, static_cast<std::size_t>(group) + 1);
  }
  return count;
}

std::vector<PlacingOrder> priority_orders(const Project& project,
                                          const LagNetwork& network,
                                          const Windows& windows,
                                          bool with_blocks) {
  const Windows by_due = windows_by_due(project, windows);
  const std::vector<int> groups = groups_of(project, network);
  const auto figures = figures_of(project, groups, windows, by_due);
  const int count = network.count();
  std::vector<std::vector<double>> priorities;
  priorities.push_back(by_activity(count, [&](int i) { return by_due.high(i); }));
  priorities.push_back(
      by_group(groups, figures, windows, [](const GroupFigures& one) { return one.slack * 1.0; }));
  priorities.push_back(by_activity(count, [&](int i) { return windows.low(i); }));
  priorities.push_back(by_activity(count, [&](int i) { return windows.high(i); }));
  priorities.push_back(
      by_group(groups, figures, windows, [](const GroupFigures& one) { return one.due * 1.0; }));
  priorities.push_back(
      by_activity(count, [&](int i) { return by_due.high(i) + by_due.low(i) / 2; }));
  priorities.push_back(by_group(
      groups, figures, windows, [](const GroupFigures& one) { return -one.earliest_end * 1.0; }));
  priorities.push_back(by_activity(count, [&](int i) { return by_due.high(i) - by_due.low(i); }));
  priorities.push_back(by_group(groups, figures, windows, [](const GroupFigures& one) {
    return one.work / std::max(one.weight, 1.0);
  }));
  std::vector<PlacingOrder> orders;
  for (auto& priority : priorities) {
    PlacingOrder order{std::move(priority), with_blocks, 100 + 2 * count};
    orders.push_back(order);
    if (with_blocks) {
      order.keep_blocks = false;
      orders.push_back(std::move(order));
    }
  }
  return orders;
}

}  // namespace coatwright
