#pragma once

#include <functional>
#include <memory>
#include <vector>

#include "scheduling/lower_bounds.h"
#include "scheduling/price_ascent.h"

namespace coatwright {

/// Raises a bound on the end of schedules little by little: where starts that end by a moment must
/// pay more for the pools than these can be worth, no schedule ends by then. All pools count at
/// once, and each activity with its lags, which intervals of energy see one by one.
class EndPricing {
 public:
  /// @param windows drawn from all lags: the bound is of the schedules inside them.
  EndPricing(const Project& project,
             const LagNetwork& network,
             const Windows& windows,
             const LowerBounds& bounds);

  /// @param effort about how many starts may be looked at; what is not used is kept for the next
  /// run. @param known an end that a schedule inside the windows has; the bound is not raised above
  /// it. @param stop asked at each step; true ends the run. May be empty. @param bound to be
  /// raised.
  void run(std::int64_t effort, Tick known, const std::function<bool()>& stop, Tick& bound);

 private:
  void begin(Tick known, Tick bound);
  void begin_next(Tick known, Tick& bound);
  void step(Tick known, Tick& bound);
  [[nodiscard]] Prices first_prices() const;
  [[nodiscard]] Tick next_end(Tick after) const;

  const Project& project_;
  const LagNetwork& network_;
  Windows windows_;
  const LowerBounds& bounds_;
  std::unique_ptr<PricedRelaxation> relaxation_;
  Prices prices_;                        ///< Those that refuted an end last.
  std::unique_ptr<PriceAscent> ascent_;  ///< On asked_.
  Tick asked_ = 0;
  Tick given_up_ = kNeverTick;  ///< Nothing was proven of this end or later ones.
  int steps_ = 0;
  int most_steps_;
  std::int64_t left_ = 0;
};

/// Raises a bound on the lateness in the same way.
class LatenessPricing {
 public:
  /// @param windows drawn from all lags; a schedule outside of them is later than what is known.
  LatenessPricing(const Project& project,
                  const LagNetwork& network,
                  const Windows& windows,
                  const LowerBounds& bounds);

  /// @param known the lateness that a schedule has. @param bound to be raised.
  void run(std::int64_t effort,
           std::int64_t known,
           const std::function<bool()>& stop,
           std::int64_t& bound);
  /// The same on narrower windows; what was found out of prices stays.
  void keep_within(const Windows& windows) { relaxation_.keep_within(windows); }

 private:
  PricedRelaxation relaxation_;
  PriceAscent ascent_;
  std::int64_t left_ = 0;
};

}  // namespace coatwright
