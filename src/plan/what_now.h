#pragma once

#include <optional>
#include <string>
#include <vector>

#include "plan/piece_state.h"
#include "plan/plan.h"
#include "plan/planner.h"
#include "plan/shop_request.h"

namespace coatwright {

/// How a step stands to this moment.
enum class Readiness {
  kOpen,  ///< Something done before asks for it at once: wiping, rags.
  kMayBeDone,
  kNotYet,
  kNever,  ///< What lies there forbids it.
};

/// "open", "may be done", "not yet", "never".
[[nodiscard]] std::string_view name_of(Readiness readiness);

/// A step that a maker may ask about.
struct StepNow {
  StepKind kind = StepKind::kSand;
  std::string product;
  std::string product_title;
  std::string method;
  int coat = 0;
  std::string face;  ///< "", "front", "back", "both"
  std::string grit;
  std::string work;  ///< Of work that is no finishing: its name, in place of a sentence.
  Readiness readiness = Readiness::kMayBeDone;
  std::optional<Time> opens_at;   ///< kNotYet: not before, at the confidence; none: not in sight.
  std::optional<Time> closes_at;  ///< From here it is too late.
  double chance = 1.0;            ///< That it is in its window now.
  std::string reason;             ///< With its figures; may be empty.
  std::string first;              ///< What to do before it; may be empty.
  std::string source;             ///< Key of the figure's source; may be empty.
};

/// One piece at one moment.
struct PieceNow {
  std::string piece;
  std::vector<StepNow> steps;     ///< What closes soonest first, then open, may be done, not yet.
  std::vector<Milestone> stages;  ///< Of the last coats, also those that are reached.
  std::vector<PlanWarning> warnings;
};

/// A step asked about by name.
struct AskedStep {
  StepKind kind = StepKind::kSand;
  std::string grit;
  const Product* product = nullptr;  ///< Of kApply.
};

/// Work on a piece that is no finishing, with what of the piece is asked about.
struct NowBuilding {
  std::string piece;
  std::vector<std::size_t> parts;  ///< Its parts, by their places in NowRequest::pieces.
  std::vector<BuildWork> works;    ///< On parts by their places in `parts`.
};

/// What is asked: pieces that share a room, and so each other's dust.
struct NowRequest {
  std::vector<PieceRequest> pieces;
  std::vector<NowBuilding> building = {};  ///< By piece, in the order of the pieces.
  Time now;
  double confidence = 0.9;         ///< 0.5 .. 0.99
  std::optional<AskedStep> asked;  ///< None: the next steps of each piece's schedule.
  FinishingRoom room = {};         ///< Where films dry.
};

/// What may be done now, what not yet and until when, by the log and the air.
/// Errors: from the recipes.
[[nodiscard]] Result<std::vector<PieceNow>> what_now(const NowRequest& request,
                                                     const RecipeBook& book,
                                                     const AirRecord& air);

}  // namespace coatwright
