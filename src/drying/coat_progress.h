#pragma once

#include <optional>
#include <span>

#include "drying/drying_clock.h"
#include "drying/stage.h"

namespace coatwright {

/// One coat on its way: asks the clocks about stages that began at `applied`.
class CoatProgress {
 public:
  /// @param minimum the product's minimum temperature: below it nothing that opens is credited.
  CoatProgress(DryingClocks& clocks, Time applied, std::optional<Temperature> minimum)
      : clocks_(clocks), applied_(applied), minimum_(minimum) {}

  /// @param deviate where in the range this coat lies (normal_deviate of the confidence).
  /// @return when the stage opens, or nothing when that is later than `latest`.
  [[nodiscard]] std::optional<Time> opens(const StageTiming& timing, double deviate, Time latest);
  /// Hours at the reference earned until `at` toward the duration at `deviate`; never more than a
  /// phase holds except in the last one.
  [[nodiscard]] Hours earned(const StageTiming& timing, double deviate, Time at);
  /// @return the deviate d such that the stage is just reached at `at`: P(reached) is the normal
  /// probability of it. Within +-8.
  [[nodiscard]] double opening_deviate(const StageTiming& timing, Time at);

  /// When a window closes: the earlier of its clock, ungated, and the label's own hours.
  [[nodiscard]] Time closes(const StageTiming& closing, double deviate, Time latest);
  /// @return the deviate d such that the window just closes at `at`: P(still open) is the normal
  /// probability of -d. Within +-8.
  [[nodiscard]] double closing_deviate(const StageTiming& closing, Time at);

  /// Joint chance that the stage is reached and the window not yet closed at `at`. Opening and
  /// closing share the shop's part of the spread and have each their own coat's part.
  [[nodiscard]] double chance_inside(const StageTiming& opening,
                                     const StageTiming* closing,
                                     Time at);

 private:
  DryingClocks& clocks_;
  Time applied_;
  std::optional<Temperature> minimum_;
};

/// Where one wait stands at the moment its coat goes on, as deviates of its own ranges.
struct WindowDeviates {
  double opening;         ///< P(opened) is the normal probability of it.
  double closing = -8.0;  ///< P(still open) is the normal probability of its negative.
  double opening_share = kShopShareOfVariance;  ///< Of the opening's variance: the shop's.
  double closing_share = kShopShareOfVariance;
};

/// The chance that every window is open and none has closed. They share the shop's part of the
/// spread and have each their own coat's part. Source: derived from the shares.
/// @return 1 for no window.
[[nodiscard]] double joint_chance(std::span<const WindowDeviates> windows);

}  // namespace coatwright
