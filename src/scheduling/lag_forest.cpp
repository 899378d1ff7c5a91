#include "scheduling/lag_forest.h"

#include <algorithm>
#include <map>
#include <numeric>
#include <tuple>

namespace coatwright {
namespace {

constexpr int kLargestGroup = 8;

}  // namespace

LagForest::LagForest(const Project& project,
                     const LagNetwork& network,
                     const Windows& windows,
                     std::int64_t most_starts)
    : node_of_(project.activities.size(), -1) {
  find_starts(project, network, windows);
  group_starts(project, windows, most_starts);
  std::vector<int> tree(project.activities.size());
  std::iota(tree.begin(), tree.end(), 0);
  const auto tree_of = [&](int activity) {
    while (tree[activity] != activity) {
      activity = tree[activity] = tree[tree[activity]];
    }
    return activity;
  };
  std::vector<std::vector<int>> neighbours(project.activities.size());
  for (const Pair& pair : sorted_pairs(project, windows)) {
    const int one = tree_of(pair.one);
    const int other = tree_of(pair.other);
    if (one != other) {
      tree[one] = other;
      neighbours[pair.one].push_back(pair.other);
      neighbours[pair.other].push_back(pair.one);
    }
  }
  // The last of a chain is its root: what counts late hangs on it.
  for (int i = network.count(); i-- > 0;) {
    if (node_of_[i] == -1) {
      hang_up(neighbours, i);
    }
  }
  std::reverse(nodes_.begin(), nodes_.end());
  const int last = static_cast<int>(nodes_.size()) - 1;
  for (Node& node : nodes_) {
    node.parent = node.parent < 0 ? -1 : last - node.parent;
    node.starts = project.activities[node.activity].starts;
  }
  for (int& node : node_of_) {
    node = last - node;
  }
  find_ranges(project);
}

void LagForest::find_starts(const Project& project,
                            const LagNetwork& network,
                            const Windows& windows) {
  starts_.resize(project.start_sets.size());
  std::vector<std::pair<Tick, Tick>> used(project.start_sets.size(), {kNeverTick, -1});
  std::vector<int> user(project.start_sets.size(), -1);
  for (int i = 0; i < network.count(); ++i) {
    const int set = project.activities[i].starts;
    used[set].first = std::min(used[set].first, windows.low(i));
    used[set].second = std::max(used[set].second, windows.high(i));
    user[set] = i;
  }
  for (std::size_t set = 0; set < starts_.size(); ++set) {
    if (user[set] < 0) {
      continue;
    }
    for (const StartSpan& span : network.grid(user[set]).spans()) {
      const Tick last = std::min(span.last, used[set].second);
      for (Tick start = span.first; start <= last; start += project.grain) {
        if (start >= used[set].first) {
          starts_[set].push_back(start);
        }
      }
    }
  }
}

void LagForest::group_starts(const Project& project,
                             const Windows& windows,
                             std::int64_t most_starts) {
  std::int64_t count = 0;
  for (std::size_t i = 0; i < project.activities.size(); ++i) {
    const std::vector<Tick>& starts = starts_[project.activities[i].starts];
    const int activity = static_cast<int>(i);
    count += std::upper_bound(starts.begin(), starts.end(), windows.high(activity)) -
             std::lower_bound(starts.begin(), starts.end(), windows.low(activity));
  }
  const int size = static_cast<int>(
      std::min<std::int64_t>(kLargestGroup, 1 + count / std::max<std::int64_t>(1, most_starts)));
  for (const std::vector<Tick>& starts : starts_) {
    std::vector<Group>& groups = groups_.emplace_back();
    for (int i = 0; i < static_cast<int>(starts.size()); ++i) {
      const bool goes_on = !groups.empty() && i - groups.back().first < size &&
                           starts[i] == starts[i - 1] + project.grain;
      if (goes_on) {
        groups.back().last = i;
      } else {
        groups.push_back({i, i});
      }
    }
  }
}

/// Pairs that a lag joins: first those with a minimum lag, and of these the shortest, as a longer
/// one may only say what two short ones say.
std::vector<LagForest::Pair> LagForest::sorted_pairs(const Project& project,
                                                     const Windows& windows) const {
  std::map<Pair, Tick> spans;
  for (const MinLag& min : project.min_lags) {
    if (min.from != min.to) {
      const Tick low = windows.low(min.from);
      Tick& span =
          spans.try_emplace({std::min(min.from, min.to), std::max(min.from, min.to)}, kNeverTick)
              .first->second;
      span = std::min(span, std::max(0, min.lag.at(low) - low));
    }
  }
  for (const MaxLag& max : project.max_lags) {
    if (max.from != max.to) {
      spans.try_emplace({std::min(max.from, max.to), std::max(max.from, max.to)}, kNeverTick);
    }
  }
  std::vector<std::pair<Tick, Pair>> sorted;
  for (const auto& [pair, span] : spans) {
    sorted.emplace_back(span, pair);
  }
  std::sort(sorted.begin(), sorted.end());
  std::vector<Pair> pairs;
  for (const auto& [span, pair] : sorted) {
    pairs.push_back(pair);
  }
  return pairs;
}

/// Adds a tree, parents before children.
void LagForest::hang_up(const std::vector<std::vector<int>>& neighbours, int root) {
  std::vector<std::pair<int, int>> open = {{root, -1}};
  while (!open.empty()) {
    const auto [activity, parent] = open.back();
    open.pop_back();
    node_of_[activity] = static_cast<int>(nodes_.size());
    nodes_.push_back({activity, parent, 0, {}, {}});
    for (const int other : neighbours[activity]) {
      if (node_of_[other] == -1) {
        open.emplace_back(other, node_of_[activity]);
      }
    }
  }
}

void LagForest::find_ranges(const Project& project) {
  const auto take = [&](int from, int to, const Lag& lag, bool is_least) {
    Node& one = nodes_[node_of_[from]];
    Node& other = nodes_[node_of_[to]];
    if (one.parent == node_of_[to]) {
      narrow(one, lag, true, is_least);
    } else if (other.parent == node_of_[from]) {
      narrow(other, lag, false, is_least);
    }
  };
  for (const MinLag& min : project.min_lags) {
    take(min.from, min.to, min.lag, true);
  }
  for (const MaxLag& max : project.max_lags) {
    take(max.from, max.to, max.lag, false);
  }
}

/// Keeps one lag between a node and its parent: groups go together where some of their starts do.
/// @param from_node it counts from the node's start; else from the parent's.
void LagForest::narrow(Node& node, const Lag& lag, bool from_node, bool is_least) const {
  const int set = node.starts;
  const int parent_set = nodes_[node.parent].starts;
  const std::size_t count = groups_[set].size();
  const std::size_t parents = groups_[parent_set].size();
  const auto own_moment = [&](Tick start) { return from_node ? lag.at(start) : start; };
  const auto parent_moment = [&](Tick start) { return from_node ? start : lag.at(start); };
  std::size_t place = 0;
  // A least moment from the node bounds the node from above, and one from the parent from below.
  if (from_node != is_least) {
    node.first.resize(parents, 0);
    for (std::size_t i = 0; i < parents; ++i) {
      const Tick moment = parent_moment(first_of(parent_set, i));
      while (place < count && own_moment(last_of(set, place)) < moment) {
        ++place;
      }
      node.first[i] = std::max(node.first[i], static_cast<int>(place));
    }
    return;
  }
  node.last.resize(parents, static_cast<int>(count) - 1);
  for (std::size_t i = 0; i < parents; ++i) {
    const Tick moment = parent_moment(last_of(parent_set, i));
    while (place < count && own_moment(first_of(set, place)) <= moment) {
      ++place;
    }
    node.last[i] = std::min(node.last[i], static_cast<int>(place) - 1);
  }
}

}  // namespace coatwright
