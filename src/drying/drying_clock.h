#pragma once

#include <list>
#include <optional>
#include <vector>

#include "air/air_record.h"
#include "drying/rate_law.h"

namespace coatwright {

/// The integral of one rate law over the air record, so that "how much has been earned?" and "when
/// is it reached?" are both looked up. The progress idea is the equivalent age of concrete
/// practice: Source: [astm_c1074], [freiesleben1977]. The table grows forward as far as it is asked
/// for.
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
    double start;   ///< Seconds after start_.
    double earned;  ///< Hours up to its start.
    float length;   ///< Seconds. Single precision is 0.01 s in two days, and keeps a cell small.
    float rate_start;
    float rate_middle;
    float rate_end;

    /// @return hours earned in it so many seconds after its start.
    [[nodiscard]] double earned_after(double seconds) const;
    [[nodiscard]] double earned_whole() const;
  };

  /// A corner of the air with what follows from it, reckoned once for the stretches on both sides.
  struct Corner {
    AirKnot air;
    double second;  ///< After start_.
    RelativeHumidity humidity;
    double rate;
  };

  [[nodiscard]] Corner corner_of(const AirKnot& air) const;
  static constexpr std::size_t kBlock = 16;

  void extend_to(double seconds);
  void add_stretch(const Corner& from, const Corner& to);
  void add_cells(const Corner& from, double begin, double end, const Corner& to);
  void add_cell(Cell cell);
  /// How many cells begin at or before a moment, and how many with less than so much earned.
  [[nodiscard]] std::size_t cells_begun(double seconds) const;
  [[nodiscard]] std::size_t cells_below(double hours) const;
  void reserve_to(double seconds);
  [[nodiscard]] bool is_stopped_at(Temperature temperature) const;
  [[nodiscard]] double earned_at(double seconds);

  const AirRecord& air_;
  RateLaw law_;
  std::optional<Temperature> gate_;
  std::optional<Temperature> stop_;  ///< The gate, or where the law itself stops: the higher.
  Time start_;
  std::vector<Cell> cells_;
  // Every kBlock-th cell's start and hours: a search runs over them, which stay in the cache, and
  // then over one block of cells.
  std::vector<double> block_starts_;
  std::vector<double> block_earned_;
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

}  // namespace coatwright
