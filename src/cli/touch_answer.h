#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cli/coat_tested.h"
#include "cli/shop_pace_page.h"

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

/// What the shop's tests teach with this one.
struct TaughtByTouch {
  std::optional<PacedStage>
      pace;                ///< Of the stage tested, or else of the next coat; none: nothing.
  std::string left_aside;  ///< Why the tests of this coat teach nothing; may be empty.
};

/// What was logged, of which coat it is, what it means for the next step, when the recipe has the
/// stage, which other tests it contradicts, and what the shop has learned; in lines of the page's
/// width.
[[nodiscard]] std::string touch_as_text(const PreparedTouch& touch,
                                        const std::vector<TouchContradiction>& contradictions,
                                        const TaughtByTouch& taught,
                                        const Session& session);
[[nodiscard]] std::string touch_as_json(const PreparedTouch& touch,
                                        const std::vector<TouchContradiction>& contradictions,
                                        const TaughtByTouch& taught,
                                        const Session& session);

}  // namespace coatwright
