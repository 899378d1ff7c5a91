#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "drying/range.h"
#include "drying/rate_law.h"

namespace coatwright {

/// Drying stages by the words of ASTM D1640 and ISO 9117, and of the trade.
enum class Stage {
  kSetToTouch,
  kDustFree,
  kTackFree,
  kDryHard,
  kDryThrough,
  kSandable,
  kRecoat,
  kHandle,     ///< May be lifted and turned over with care.
  kPrintFree,  ///< May be stacked or wrapped without a print.
  kLightUse,
  kFullCure,
};

/// "set-to-touch", "dust-free", ... as recipes and plans write it.
[[nodiscard]] std::string_view name_of(Stage stage);
[[nodiscard]] std::optional<Stage> stage_named(std::string_view name);

/// One stretch of a stage: a duration range at the reference, earned at the rate of one law.
struct Phase {
  RateLaw law;
  DurationRange duration;
  double film_exponent = 0;  ///< n in (film / reference film)^n.
  /// Where `duration` is what this shop has learned: the range of the label or class. None: that.
  std::optional<DurationRange> labelled = std::nullopt;
};

/// How a stage is reached: one phase, or two in turn (water loss, then coalescence).
struct StageTiming {
  std::vector<Phase> phases;

  /// @return the whole range at the reference.
  [[nodiscard]] DurationRange whole() const;
  /// Of the variance of its last phase: the share that all coats of this shop have in common.
  /// @pre it has a phase.
  [[nodiscard]] double shop_share() const { return phases.back().duration.shop_share(); }
  /// As it is for a film of another thickness. @param ratio thickness / reference thickness, above
  /// 0.
  [[nodiscard]] StageTiming for_film(double ratio) const;
  /// Whether its durations are what this shop's touch tests have made of the label's.
  [[nodiscard]] bool is_learned() const;
  /// "water loss, then coalescence, 50 kJ/mol"; ", by touch tests" where they count.
  [[nodiscard]] std::string description() const;
};

}  // namespace coatwright
