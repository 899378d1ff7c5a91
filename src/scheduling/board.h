#pragma once

#include <optional>
#include <vector>

#include "scheduling/profile.h"
#include "scheduling/windows.h"

namespace coatwright {

/// A schedule in the making: which activities have a start, and what they take. It keeps start
/// sets, resources, holds and exclusions; the lags are kept by Windows.
class Board {
 public:
  Board(const Project& project, const LagNetwork& network);

  /// Why a search for a start ended, or what it last had to step over.
  struct Obstacle {
    int profile = -1;  ///< A resource, or beyond those one side of an exclusion; -1: none.
    Profile::Shortage at;
    int hold_from = -1;     ///< A hold from this activity cannot last so long; -1: none.
    Tick hold_from_at = 0;  ///< The activity would have to start then or later.
  };

  [[nodiscard]] bool is_placed(int activity) const { return is_placed_[activity] != 0; }
  [[nodiscard]] Tick start(int activity) const { return starts_[activity]; }
  [[nodiscard]] const std::vector<Tick>& starts() const { return starts_; }
  [[nodiscard]] int placed() const { return placed_; }

  /// @return the first start from `earliest` to `latest` with room for an activity beside those
  /// that are placed. obstacle() then says what stood in the way last.
  [[nodiscard]] std::optional<Tick> first_fit(int activity, Tick earliest, Tick latest);
  /// @return the last such start.
  [[nodiscard]] std::optional<Tick> last_fit(int activity, Tick earliest, Tick latest);
  [[nodiscard]] const Obstacle& obstacle() const { return obstacle_; }
  /// What stands in the way of a start; none: it fits.
  [[nodiscard]] std::optional<Obstacle> obstacle_at(int activity, Tick start);

  /// @param start one that fits.
  void place(int activity, Tick start);
  void remove(int activity);
  /// Removes all.
  void clear();
  /// The placed activities that take of what an activity would be short of at a start.
  [[nodiscard]] std::vector<int> blockers(int activity, Tick start);
  /// The activities with which the holds of this one end.
  [[nodiscard]] const std::vector<int>& held_to(int activity) const { return held_to_[activity]; }

 private:
  /// What an activity takes, from start + from up to `until` of the start.
  struct Use {
    int checked;  ///< Profile that must have `needed` free.
    int taken;    ///< Profile that `amount` is taken from.
    int needed;
    int amount;
    Tick from;
    Lag until;
  };
  /// A stretch of a profile that an activity wants at some start.
  struct Wanted {
    int checked;
    int taken;
    int needed;
    int amount;
    Tick begin;
    Tick end;
    bool moves_begin;  ///< A later start moves its begin.
    bool moves_end;    ///< A later start moves its end.
    int hold = -1;     ///< The hold that it belongs to.
  };
  struct Taken {
    int profile = 0;
    int amount = 0;
    Tick begin = 0;
    Tick end = 0;
  };

  void add_demands(const Project& project);
  void add_exclusion(const Exclusion& exclusion);
  void add_holds(const Project& project);
  void find_own_clashes();
  /// Fills wanted_ for a start.
  void want(int activity, Tick start);
  void want_hold_to(int hold, Tick start);
  void want_hold_from(int hold, Tick start);
  [[nodiscard]] Tick least_end(int hold, Tick start) const;
  /// The first start after `start` that could pass by a shortage; kNeverTick: none could.
  Tick step_over(const Wanted& wanted, const Profile::Shortage& shortage, Tick start);
  /// For what is wanted at a start.
  [[nodiscard]] bool clashes_with_itself(int activity) const;
  [[nodiscard]] bool is_short_from(Tick from, int profile) const;
  void hold_until(int hold, Tick begin, Tick end);
  void set_holds(int activity);
  [[nodiscard]] bool takes_of(int activity, const Wanted& wanted) const;

  const LagNetwork& network_;
  std::vector<Profile> profiles_;  ///< Resources, then two sides for each exclusion.
  std::vector<Profile> empty_;     ///< The same with nothing placed.
  std::vector<std::vector<Use>> uses_;
  std::vector<Hold> holds_;                  ///< Those between two activities.
  std::vector<std::vector<Lag>> hold_lags_;  ///< Per hold: minimum lags between its two.
  std::vector<std::vector<int>> holds_from_;
  std::vector<std::vector<int>> holds_to_;
  std::vector<std::vector<int>> held_to_;
  /// Per hold what is taken for it: up to its other activity, or up to the earliest start of that.
  std::vector<Taken> held_;
  std::vector<char> may_clash_;  ///< Takes twice of one profile.
  std::vector<Tick> starts_;
  std::vector<char> is_placed_;
  std::vector<std::vector<Taken>> taken_;
  std::vector<Wanted> wanted_;
  Obstacle obstacle_;
  int placed_ = 0;
};

}  // namespace coatwright
