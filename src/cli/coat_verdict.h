#pragma once

#include <vector>

#include "cli/common.h"
#include "store/log_entry.h"

namespace coatwright {

/// How sure an opening or closing must be for a logged coat: a plan's default.
inline constexpr double kVerdictConfidence = 0.9;

/// A coat judged by what the log knows from before it.
struct JudgedCoat {
  std::vector<LoggedFinding> findings;  ///< Worst first; never empty.
  LoggedAir air;                        ///< At the coat.
  std::vector<LogEntry> beneath;        ///< The coats that it went on, each once.
};

/// Judges a coat on each face that it is on. A coat beneath counts with the recipe that it was
/// logged with, and with the wiping and abrading that were logged since.
/// @param coat not logged yet. @param log of the piece, by time.
/// Errors: from the store. Where the recipes cannot judge it, the finding is "not judged".
[[nodiscard]] Result<JudgedCoat> judge_by_log(const LogEntry& coat,
                                              const StoredPiece& piece,
                                              const std::vector<LogEntry>& log,
                                              const RecipeBook& book,
                                              const Session& session);

}  // namespace coatwright
