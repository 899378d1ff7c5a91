#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cli/coat_tested.h"

/// What the command `touch` answers.
namespace coatwright {

/// A touch test with what is known of it. `beneath` points into the log.
struct PreparedTouch {
  LogEntry entry;
  TouchFinding finding;
  StoredPiece piece;
  std::vector<LogEntry> log;  ///< Of the piece, without this entry.
  CoatBeneath beneath;
  std::optional<StageTimes> times;
};

/// What was logged, of which coat it is, what it means for the next step, when the recipe has the
/// stage, and which other tests it contradicts; in lines of the page's width.
[[nodiscard]] std::string touch_as_text(const PreparedTouch& touch,
                                        const std::vector<TouchContradiction>& contradictions,
                                        const Session& session);
[[nodiscard]] std::string touch_as_json(const PreparedTouch& touch,
                                        const std::vector<TouchContradiction>& contradictions,
                                        const Session& session);

}  // namespace coatwright
