#include "scheduling/shifting.h"

#include <algorithm>
#include <numeric>

namespace coatwright {
namespace {

constexpr int kMostRounds = 20;

/// Takes an activity out and puts it back at a start, or where it was. @return whether it moved.
bool move_to(Board& board, int activity, Tick before, std::optional<Tick> start) {
  board.place(activity, start.value_or(before));
  return start && *start != before;
}

}  // namespace

int shift_earlier(const LagNetwork& network, Board& board) {
  std::vector<int> order(board.starts().size());
  std::iota(order.begin(), order.end(), 0);
  int moves = 0;
  for (int round = 0; round < kMostRounds; ++round) {
    std::stable_sort(
        order.begin(), order.end(), [&](int a, int b) { return board.start(a) < board.start(b); });
    const int before = moves;
    for (const int activity : order) {
      const Tick start = board.start(activity);
      const Tick low = network.earliest_beside(activity, board.starts(), 0);
      if (low >= start) {
        continue;
      }
      board.remove(activity);
      moves += move_to(board, activity, start, board.first_fit(activity, low, start)) ? 1 : 0;
    }
    if (moves == before) {
      break;
    }
  }
  return moves;
}

int shift_later(const Project& project, const LagNetwork& network, Board& board, Tick end) {
  std::vector<int> order(board.starts().size());
  std::iota(order.begin(), order.end(), 0);
  const auto end_of = [&](int i) { return board.start(i) + project.activities[i].length; };
  std::stable_sort(order.begin(), order.end(), [&](int a, int b) { return end_of(a) > end_of(b); });
  int moves = 0;
  for (const int activity : order) {
    const Tick start = board.start(activity);
    const Tick latest = std::min(project.horizon, end - project.activities[activity].length);
    const Tick high = network.latest_beside(activity, board.starts(), latest);
    if (high <= start) {
      continue;
    }
    board.remove(activity);
    moves += move_to(board, activity, start, board.last_fit(activity, start, high)) ? 1 : 0;
  }
  return moves;
}

}  // namespace coatwright
