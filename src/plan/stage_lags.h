#pragma once

#include <memory>
#include <mutex>
#include <optional>
#include <vector>

#include "plan/piece_state.h"
#include "plan/recoat_options.h"
#include "plan/shop_ticks.h"

namespace coatwright {

/// The first and the last start of a session by a window; none where last < first.
struct WindowTicks {
  Tick first = 0;
  Tick last = 0;
};

/// Where in their sessions the strokes lie that a window is between, in minutes.
struct WindowOffsets {
  Tick begun = 0;    ///< First stroke of the coat beneath, from the start of its session.
  Tick ended = 0;    ///< Its last.
  Tick applied = 0;  ///< First stroke of the coat above, from the start of its session.
  Tick stroke = 0;   ///< How long that takes.
  bool operator==(const WindowOffsets&) const = default;
};

/// The waits of a shop's plan as lags: when a stage opens, from when and until when a recoat window
/// can be used, each reckoned once for each minute at which it is asked for. Lives as long as the
/// lags that it gave out.
class StageLags {
 public:
  StageLags(DryingClocks& clocks, WaitRule rule, double confidence, TickScale ticks)
      : clocks_(clocks), rule_(rule), confidence_(confidence), ticks_(ticks) {}
  StageLags(const StageLags&) = delete;
  StageLags& operator=(const StageLags&) = delete;

  /// From a session's start to `before` minutes ahead of the moment at which a stage opens for what
  /// ended `ended` minutes after that start.
  [[nodiscard]] Lag opening(const StageTiming& timing,
                            std::optional<Temperature> gate,
                            Tick ended,
                            Tick before);
  /// The first and the last start of the next session by a choice's window.
  struct WindowLags {
    Lag first;
    std::optional<Lag> last;
  };
  [[nodiscard]] WindowLags window(const RecoatChoice& choice, const WindowOffsets& offsets);

  /// When a stage opens for something that ended at a known moment; kNeverTick beyond the horizon.
  [[nodiscard]] Tick opens(const StageTiming& timing,
                           std::optional<Temperature> gate,
                           Time ended) const;
  /// The window over a coat that lies there already. @param applied as in WindowOffsets.
  [[nodiscard]] WindowTicks window_over(RecoatChoice choice, Tick applied, Tick stroke) const;

 private:
  class OpeningTable;
  class WindowTable;
  class OpeningLag;
  class WindowLag;

  std::shared_ptr<OpeningTable> table_for(const StageTiming& timing,
                                          std::optional<Temperature> gate);

  DryingClocks& clocks_;
  mutable std::mutex at_work_;  ///< A large search asks from two threads.
  WaitRule rule_;
  double confidence_;
  TickScale ticks_;
  std::vector<std::shared_ptr<OpeningTable>> openings_;
  std::vector<std::shared_ptr<WindowTable>> windows_;
};

}  // namespace coatwright
