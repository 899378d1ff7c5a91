#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cli/coat_beneath.h"
#include "cli/common.h"
#include "drying/touch_test.h"
#include "store/log_entry.h"

/// Which coat something that was found is of, and how a touch test stands to its recipe and to the
/// other tests of it.
namespace coatwright {

/// The last coats at the place and time of a finding, each once; none on bare wood. Of a finding
/// without a part, each unit of a divided piece and each part that was coated alone is looked at.
/// @param log of the piece, by time. The result points into it.
[[nodiscard]] std::vector<CoatBeneath> coats_found_on(const LogEntry& finding,
                                                      const StoredPiece& piece,
                                                      const std::vector<LogEntry>& log);

/// The one coat that a touch test is of. Errors: kUsage where none lies there, naming what does
/// elsewhere, and where several do, naming them.
[[nodiscard]] Result<CoatBeneath> coat_tested(const LogEntry& test,
                                              const StoredPiece& piece,
                                              const std::vector<LogEntry>& log,
                                              const Zone& zone);

/// "of entry 5, coat of dewaxed-shellac on the front, ended Sat 6 March 2027 10:00, 2 h before".
[[nodiscard]] std::string tested_words(const CoatBeneath& beneath, Time at, const Zone& zone);

/// When a coat comes to a stage by its recipe, in the shop's air; none: not within four weeks.
struct StageTimes {
  std::optional<Time> early;  ///< One coat in ten is there.
  std::optional<Time> late;   ///< Nine in ten are.
};

/// @return nothing where the recipe does not know the stage, or can no longer be read.
/// Errors: kStore.
[[nodiscard]] Result<std::optional<StageTimes>> stage_times(const CoatBeneath& beneath,
                                                            Stage stage,
                                                            const StoredPiece& piece,
                                                            const RecipeBook& book,
                                                            const Session& session);

/// What of a coat's other tests contradicts this one. Those of another face or part are left out.
/// @param test logged, with its number. @param log of the piece, with or without it.
[[nodiscard]] std::vector<TouchContradiction> contradictions_with(const LogEntry& test,
                                                                  const StoredPiece& piece,
                                                                  const std::vector<LogEntry>& log);

}  // namespace coatwright
