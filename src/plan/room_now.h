#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "plan/piece_state.h"
#include "plan/progress.h"
#include "plan/what_now.h"
#include "plan/work_sequence.h"

/// What stands and dries in the room at a moment; what_now.cpp and building_now.cpp ask it.
namespace coatwright {

/// A moment before which something is not ready, with the reason; no moment: not in sight.
struct Ready {
  std::optional<Time> at;
  std::string reason;
  std::string source;

  /// Whether this one waits longer.
  [[nodiscard]] bool later_than(const Ready& other) const {
    return !at ? other.at.has_value() : other.at && *at > *other.at;
  }
};

/// One piece with what its log says.
struct Standing {
  const PieceRequest* piece;
  std::vector<WorkItem> works;  ///< Scheduled.
  Progress progress;
  std::vector<WorkItem> left;

  [[nodiscard]] PieceState state(Time now) const {
    PieceState state;
    state.cursor = now;
    state.last_coats = progress.last_coats();
    state.abraded = progress.abraded;
    return state;
  }
};

/// What all pieces of the room share.
class RoomNow {
 public:
  RoomNow(const NowRequest& asked, const RecipeBook& recipes, const AirRecord& air, Time first);

  /// When a coat comes to a stage; at once when its product has none.
  [[nodiscard]] Ready reached(const LaidCoat& coat, Stage stage);
  /// When a coat has dried as long as a timing says.
  [[nodiscard]] Ready reached(const LaidCoat& coat,
                              const StageTiming& timing,
                              std::string_view stage,
                              const std::string& source);
  /// When no film in the room catches dust any more.
  [[nodiscard]] Ready dust_free();

  const NowRequest& request;
  const RecipeBook& book;
  DryingClocks clocks;
  WaitRule rule;
  std::vector<Standing> pieces;
};

}  // namespace coatwright
