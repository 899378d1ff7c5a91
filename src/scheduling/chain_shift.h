#pragma once

#include <cstdint>
#include <utility>
#include <vector>

#include "scheduling/board.h"

namespace coatwright {

/// Moves some activities of a whole schedule, and whatever the lags make move along with them; what
/// finds a place taken goes on in the same direction until it finds one.
class ChainShift {
 public:
  enum class Direction { kEarlier, kLater };
  /// An activity and where it is to start.
  using Move = std::pair<int, Tick>;

  /// @param board with every activity placed, and no rule broken; it is left so.
  ChainShift(const Project& project, const LagNetwork& network, Board& board)
      : project_(project),
        network_(network),
        board_(board),
        is_pending_(board.starts().size(), 0) {}

  /// @param end no activity ends later. @return whether all found a place; else nothing has moved.
  bool run(Direction direction, const std::vector<Move>& moves, Tick end);
  /// Puts one activity at a start, and moves what is in its way there in a direction, in which its
  /// lags to that may take it along.
  /// @return as run().
  bool insert(Direction direction, const Move& move, Tick end);
  /// Takes the last run() or insert() back.
  void undo();
  [[nodiscard]] std::int64_t placements() const { return placements_; }

 private:
  void begin(Direction direction);
  bool finish(Tick end);
  bool put(int activity, Tick start);
  void take_out(int activity);
  void want(int activity, Tick start);
  void follow_lags();
  void follow_lag(const LagNetwork::Arc& arc, Tick start);
  [[nodiscard]] std::vector<int>::iterator next();
  [[nodiscard]] bool settle_all(Tick end);
  [[nodiscard]] std::optional<Tick> fit(int activity, Tick end);

  const Project& project_;
  const LagNetwork& network_;
  Board& board_;
  Direction direction_ = Direction::kLater;
  std::vector<Tick> wanted_;  ///< By activity.
  std::vector<int> pending_;  ///< Those to be placed.
  std::vector<char> is_pending_;
  std::vector<int> queue_;  ///< Those whose lags are to be followed.
  std::vector<Tick> before_;
  std::vector<int> moved_;
  bool is_possible_ = true;
  std::int64_t placements_ = 0;
};

}  // namespace coatwright
