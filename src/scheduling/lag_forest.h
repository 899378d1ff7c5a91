#pragma once

#include <cstdint>
#include <utility>
#include <vector>

#include "scheduling/windows.h"

namespace coatwright {

/// The starts of a project and a part of its lags that joins its activities without a circle, so
/// that the best starts under a cost per start follow one after the other, from the leaves to the
/// roots. What such a forest leaves out is not kept: costs found on it are lower bounds.
class LagForest {
 public:
  struct Node {
    int activity = 0;
    int parent = -1;  ///< A node; -1: a root.
    int starts = 0;   ///< Which of starts().
    /// Per group of the parent's starts the first and the last group, by place, that hold starts
    /// which its lags allow; empty: all from the first, or up to the last.
    std::vector<int> first;
    std::vector<int> last;
  };

  /// Starts that are not told apart, as places in starts().
  struct Group {
    int first = 0;
    int last = 0;
  };

  /// @param windows drawn from all lags. @param most_starts so many groups of starts at most, over
  /// all activities, if groups of a few starts are enough for that.
  LagForest(const Project& project,
            const LagNetwork& network,
            const Windows& windows,
            std::int64_t most_starts);

  /// Children before parents.
  [[nodiscard]] const std::vector<Node>& nodes() const { return nodes_; }
  /// All starts of a start set that lie in the window of some activity, in order.
  [[nodiscard]] const std::vector<Tick>& starts(int set) const { return starts_[set]; }
  /// The same in groups, each of one stretch of the set.
  [[nodiscard]] const std::vector<Group>& groups(int set) const { return groups_[set]; }
  /// The first and the last start of a group.
  [[nodiscard]] Tick first_of(int set, std::size_t group) const {
    return starts_[set][groups_[set][group].first];
  }
  [[nodiscard]] Tick last_of(int set, std::size_t group) const {
    return starts_[set][groups_[set][group].last];
  }

 private:
  struct Pair {
    int one;
    int other;
    bool operator<(const Pair& with) const {
      return one != with.one ? one < with.one : other < with.other;
    }
  };
  void find_starts(const Project& project, const LagNetwork& network, const Windows& windows);
  void group_starts(const Project& project, const Windows& windows, std::int64_t most_starts);
  [[nodiscard]] std::vector<Pair> sorted_pairs(const Project& project,
                                               const Windows& windows) const;
  void hang_up(const std::vector<std::vector<int>>& neighbours, int root);
  void find_ranges(const Project& project);
  void narrow(Node& node, const Lag& lag, bool from_node, bool is_least) const;

  std::vector<std::vector<Tick>> starts_;   ///< Per set.
  std::vector<std::vector<Group>> groups_;  ///< Per set.
  std::vector<Node> nodes_;
  std::vector<int> node_of_;  ///< Per activity; -1 until it is hung up.
};

}  // namespace coatwright
