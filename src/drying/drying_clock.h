#pragma once

#include <list>
#include <optional>
#include <vector>

#include "air/air_record.h"
#include "drying/rate_law.h"
#include "drying/stage.h"

namespace coatwright {

/// The integral of one rate law over the air record, so that "how much has been earned?" and "when is
/// it reached?" are both looked up. The progress idea is the equivalent age of concrete practice:
/// Source: [astm_c1074], [freiesleben1977]. The table grows forward as far as it is asked for.
class DryingClock {
 public:
  /// @param air    must outlive the clock.
  /// @param start  the first moment that may be asked for.
  /// @param gate   below this temperature nothing is earned (openings); none for closings.
  DryingClock(const AirRecord& air, RateLaw law, std::optional<Temperature> gate, Time start);

  /// @return hours at the reference earned from `from` to `to`. @param from at or after the start.
  [[nodiscard]] Hours earned(Time from, Time to);
  /// @return the first whole second at which `needed` has been earned since `from`, or nothing when
  /// that is later than `latest`.
  [[nodiscard]] std::optional<Time> reached(Time from, Hours needed, Time latest);

  [[nodiscard]] const RateLaw& law() const { return law_; }
  [[nodiscard]] std::optional<Temperature> gate() const { return gate_; }

 private:
  /// One cell: the rate runs as the parabola through its start, middle and end.
  struct Cell {
    double start;     ///< Seconds after start_.
    double length;    ///< Seconds.
    double earned;    ///< Hours earned up to the cell's start.
    double rate_start;
    double rate_middle;
    double rate_end;

    [[nodiscard]] double earned_after(double seconds) const;
  };

  void extend_to(double seconds);
  void add_stretch(const AirKnot& from, const AirKnot& to);
  void add_cells(const AirKnot& from, double begin, double end, const AirKnot& to);
  [[nodiscard]] double earned_at(double seconds);

  const AirRecord& air_;
  RateLaw law_;
  std::optional<Temperature> gate_;
  Time start_;
  std::vector<Cell> cells_;
  double covered_ = 0;  ///< Seconds after start_ up to which cells_ reach.
  double total_ = 0;    ///< Hours earned up to there.
};

/// The clocks of one plan, each built once.
class DryingClocks {
 public:
  DryingClocks(const AirRecord& air, Time start) : air_(air), start_(start) {}
  DryingClocks(const DryingClocks&) = delete;
  DryingClocks& operator=(const DryingClocks&) = delete;

  [[nodiscard]] DryingClock& of(const RateLaw& law, std::optional<Temperature> gate);
  [[nodiscard]] const AirRecord& air() const { return air_; }

 private:
  const AirRecord& air_;
  Time start_;
  std::list<DryingClock> clocks_;  // a list, because references are handed out
};

/// The share of a range's variance (of the logarithm) that is this shop's and therefore the same for
/// all its coats; the rest is this coat's. Source: judgement, no source.
inline constexpr double kShopShareOfVariance = 0.5;

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
  [[nodiscard]] double chance_inside(const StageTiming& opening, const StageTiming* closing,
                                     Time at);

 private:
  DryingClocks& clocks_;
  Time applied_;
  std::optional<Temperature> minimum_;
};

}  // namespace coatwright
