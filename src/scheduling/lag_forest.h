#pragma once

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
    /// Per start of the parent the first and the last start, by place, that its lags allow; empty:
    /// all from the first, or up to the last.
    std::vector<int> first;
    std::vector<int> last;
  };

  /// @param windows drawn from all lags.
  LagForest(const Project& project, const LagNetwork& network, const Windows& windows);

  /// Children before parents.
  [[nodiscard]] const std::vector<Node>& nodes() const { return nodes_; }
  /// All starts of a start set that lie in the window of some activity, in order.
  [[nodiscard]] const std::vector<Tick>& starts(int set) const { return starts_[set]; }

 private:
  struct Pair {
    int one;
    int other;
    bool operator<(const Pair& with) const {
      return one != with.one ? one < with.one : other < with.other;
    }
  };
  void find_starts(const Project& project, const LagNetwork& network, const Windows& windows);
  [[nodiscard]] std::vector<Pair> sorted_pairs(const Project& project,
                                               const Windows& windows) const;
  void hang_up(const std::vector<std::vector<int>>& neighbours, int root);
  void find_ranges(const Project& project);
  void narrow(Node& node, const Lag& lag, bool from_node, bool is_least) const;

  std::vector<std::vector<Tick>> starts_;
  std::vector<Node> nodes_;
  std::vector<int> node_of_;  ///< Per activity; -1 until it is hung up.
};

}  // namespace coatwright
