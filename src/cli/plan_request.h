#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "air/air_record.h"
#include "base/week_hours.h"
#include "cli/common.h"
#include "cli/piece_log.h"
#include "cli/printing.h"
#include "plan/planner.h"

namespace coatwright {

/// The options of `plan`, as typed; empty: not given.
struct PlanOptions {
  std::string piece;
  std::string schedule;
  std::string species;
  std::string area;
  std::string faces;
  std::string surface;
  std::string over;
  std::string from;
  std::string by;
  std::string hours;
  std::string air_file;
  std::string in_air;
  std::string confidence;
  std::string wood_moisture;
  PrintOptions print;
  bool as_labelled = false;  ///< Sets aside what the shop has learned.
  bool explain = false;
  bool odds = false;
  std::int64_t effort = 0;  ///< Search nodes; 0: not given.
  unsigned seed = 1;
  std::string at_most;
  bool keep = false;  ///< Hold to the plan that is kept.

  /// Whether the call asks about a piece as it is stored, so that its plan is worth keeping.
  [[nodiscard]] bool is_of_stored_piece() const {
    return schedule.empty() && species.empty() && area.empty() && faces.empty() &&
           surface.empty() && over.empty() && in_air.empty();
  }
};

/// A request with all that it points into.
struct PreparedPlan {
  RecipeBook book;
  PieceLog log;
  PlanRequest request;
  AirRecord air;
  WoodSurface surface;  ///< How the wood was left.
};

/// What a finish begins on. @param species,left,over as typed or stored; empty: unknown wood,
/// planed, bare. Errors: kNotFound and kInputFile from the recipes; kUsage for another surface.
[[nodiscard]] Result<PieceSurface> surface_of(const std::string& species,
                                              const std::string& left,
                                              const std::string& over,
                                              const RecipeBook& book);

/// Dates the finish that a piece came in with, if any, for a plan or question from a moment on.
void settle_existing_finish(Time from, PieceRequest& piece);

/// A stored piece as planning takes it, without its log. Errors: from the recipes.
[[nodiscard]] Result<PieceRequest> piece_request_of(const StoredPiece& piece,
                                                    const RecipeBook& book);

/// A schedule in which a coat must not go over the one beneath is refused as a whole, with the
/// nearest one that works. Errors: kNo; from the recipes.
[[nodiscard]] Result<void> check_schedule(const PieceRequest& piece, const RecipeBook& book);

/// What --confidence says: 0.9 or 90%; a plan's default where it is empty. Errors: kUsage;
/// kOutOfRange.
[[nodiscard]] Result<double> plan_confidence(const PlanOptions& options);

/// When who is there, with --hours in place of the shop's usual ones. Errors: kUsage.
[[nodiscard]] Result<ShopTimes> plan_times(const PlanOptions& options, const Session& session);

/// The air that a plan runs over. @param first the earliest moment that it looks back to. Errors:
/// of --in-air, the file and the store.
[[nodiscard]] Result<AirRecord> plan_air(const PlanOptions& options,
                                         Time first,
                                         Time horizon,
                                         const Session& session);

/// The air outdoors, for the hours in which a fan draws it in; none: not known, or the call says
/// that the air is the same all the time. Errors: of the store.
[[nodiscard]] Result<std::optional<AirRecord>> outdoors_for(const PlanOptions& options,
                                                            Time from,
                                                            Time horizon,
                                                            const Session& session);

/// Where a plan that must end by a moment is given up. @param rubs_out whether a film is rubbed out
/// at its end, which has to cure for weeks before.
[[nodiscard]] Time plan_horizon(Time by, bool rubs_out);
[[nodiscard]] bool rubs_out(const Schedule& schedule);

/// From the typed options and the store to a request.
/// Errors: those of the options, the store, the recipes and the air file.
[[nodiscard]] Result<PreparedPlan> prepare_plan(const PlanOptions& options,
                                                const GlobalOptions& global,
                                                const Session& session);

}  // namespace coatwright
