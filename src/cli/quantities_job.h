#pragma once

#include <deque>
#include <string>
#include <utility>
#include <vector>

#include "cli/common.h"
#include "cli/piece_log.h"
#include "cli/piece_size.h"
#include "plan/coats_to_come.h"

namespace coatwright {

/// The options of `quantities`, as typed; empty: not given.
struct QuantitiesOptions {
  std::string piece;
  std::string schedule;
  std::string species;
  SizeOptions size;
  std::string in_air;
  std::vector<std::string> tools;
  bool small_parts = false;
  bool explain = false;
};

/// The pieces of a call with all that they point into.
struct QuantitiesJob {
  RecipeBook book;
  std::deque<PieceLog> logs;  ///< Stay where they are, as the pieces point into them.
  std::vector<PieceRequest> pieces;
};

/// The stored pieces that a call means, or the one that it gives by options.
/// Errors: those of the options, the store and the recipes.
[[nodiscard]] Result<QuantitiesJob> job_of(const QuantitiesOptions& options,
                                           const GlobalOptions& global,
                                           const Session& session);

/// The coats that the pieces still need, with the tools named.
/// Errors: kNotFound for an unknown tool, kUsage for one that no coat is put on with.
[[nodiscard]] Result<std::vector<CoatUse>> coats_of(const QuantitiesJob& job,
                                                    const QuantitiesOptions& options,
                                                    Time now);

/// The air of the pot lives, and where it is from. Errors: kUsage, kOutOfRange, kStore.
[[nodiscard]] Result<std::pair<BatchAir, std::string>> batch_air_of(
    const QuantitiesOptions& options, const Session& session);

}  // namespace coatwright
