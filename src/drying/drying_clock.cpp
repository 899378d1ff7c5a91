#include "drying/drying_clock.h"

#include <algorithm>
#include <cmath>

namespace coatwright {
namespace {

// A cell is short enough that its rate is a parabola to far below a minute over a month.
constexpr double kCellTemperatureStep = 0.5;  // K
constexpr double kCellHumidityStep = 0.02;    // relative humidity
constexpr double kSecondsPerHour = 3600.0;
// The table grows by this much at a time, so that a short question does not read a month of air.
constexpr double kChunk = 3.0 * 24 * kSecondsPerHour;

double seconds_between(Time from, Time to) {
  return static_cast<double>((to - from).count());
}

/// A moment inside a stretch of the air record.
struct Stretch {
  const AirKnot& from;
  const AirKnot& to;

  [[nodiscard]] Temperature temperature_at(double share) const {
    return from.temperature +
           TemperatureDifference::from_kelvin((to.temperature - from.temperature).kelvin() * share);
  }
  [[nodiscard]] RelativeHumidity humidity_at(double share) const {
    const double ratio =
        from.ratio.kg_per_kg() + (to.ratio.kg_per_kg() - from.ratio.kg_per_kg()) * share;
    return relative_humidity_from_humidity_ratio(temperature_at(share),
                                                 HumidityRatio::from_kg_per_kg(ratio));
  }
};

}  // namespace

DryingClock::DryingClock(const AirRecord& air,
                         RateLaw law,
                         std::optional<Temperature> gate,
                         Time start)
    : air_(air), law_(std::move(law)), gate_(gate), start_(start) {}

double DryingClock::Cell::earned_after(double seconds) const {
  // The integral of the parabola through (0, start), (1/2, middle), (1, end).
  const double s = std::clamp(seconds / length, 0.0, 1.0);
  const double linear = -3.0 * rate_start + 4.0 * rate_middle - rate_end;
  const double square = 2.0 * rate_start - 4.0 * rate_middle + 2.0 * rate_end;
  const double share = s * (rate_start + s * (linear / 2.0 + s * square / 3.0));
  return earned + std::max(0.0, share) * length / kSecondsPerHour;
}

void DryingClock::add_cells(const AirKnot& from, double begin, double end, const AirKnot& to) {
  const Stretch stretch{from, to};
  const double length = seconds_between(from.at, to.at);
  const double offset = seconds_between(start_, from.at);
  const Temperature middle = stretch.temperature_at((begin + end) / 2.0);
  std::optional<Temperature> stop = gate_;
  if (const auto cutoff = law_.stops_below(); cutoff && (!stop || *stop < *cutoff)) {
    stop = cutoff;
  }
  // Air that stands on the gate counts, whatever interpolation does to its last digits.
  const bool stopped = stop && (*stop - middle).kelvin() > 1e-9;
  const auto rate = [&](double share) {
    return stopped ? 0.0 : law_.rate(stretch.temperature_at(share), stretch.humidity_at(share));
  };
  const double kelvins =
      std::abs((stretch.temperature_at(end) - stretch.temperature_at(begin)).kelvin());
  const double humidity =
      std::abs(stretch.humidity_at(end).fraction() - stretch.humidity_at(begin).fraction());
  const int count = static_cast<int>(
      1.0 + std::max(kelvins / kCellTemperatureStep, humidity / kCellHumidityStep));
  double rate_start = rate(begin);
  for (int i = 0; i < count; ++i) {
    const double cell_begin = begin + (end - begin) * i / count;
    const double cell_end = begin + (end - begin) * (i + 1) / count;
    const double rate_end = rate(cell_end);
    const Cell cell{offset + cell_begin * length,
                    (cell_end - cell_begin) * length,
                    total_,
                    rate_start,
                    rate((cell_begin + cell_end) / 2.0),
                    rate_end};
    total_ = cell.earned_after(cell.length);
    cells_.push_back(cell);
    rate_start = rate_end;
  }
}

void DryingClock::add_stretch(const AirKnot& from, const AirKnot& to) {
  // The rate jumps where the temperature crosses a gate: the cells are cut there.
  std::vector<double> cuts = {0.0};
  const double change = (to.temperature - from.temperature).kelvin();
  for (const auto& limit : {gate_, law_.stops_below()}) {
    if (limit && change != 0.0) {
      const double share = (*limit - from.temperature).kelvin() / change;
      if (share > 0.0 && share < 1.0) {
        cuts.push_back(share);
      }
    }
  }
  cuts.push_back(1.0);
  std::sort(cuts.begin(), cuts.end());
  for (std::size_t i = 1; i < cuts.size(); ++i) {
    if (cuts[i] > cuts[i - 1]) {
      add_cells(from, cuts[i - 1], cuts[i], to);
    }
  }
}

void DryingClock::extend_to(double seconds) {
  while (covered_ < seconds) {
    const double next = covered_ + kChunk;
    const auto time_of = [&](double after) {
      return start_ + std::chrono::seconds(static_cast<std::int64_t>(after));
    };
    const auto knots = air_.knots(time_of(covered_), time_of(next));
    for (std::size_t i = 1; i < knots.size(); ++i) {
      if (knots[i].at > knots[i - 1].at) {
        add_stretch(knots[i - 1], knots[i]);
      }
    }
    covered_ = next;
  }
}

double DryingClock::earned_at(double seconds) {
  extend_to(seconds);
  const auto after =
      std::upper_bound(cells_.begin(), cells_.end(), seconds, [](double value, const Cell& cell) {
        return value < cell.start;
      });
  if (after == cells_.begin()) {
    return 0.0;
  }
  const Cell& cell = *std::prev(after);
  return cell.earned_after(seconds - cell.start);
}

Hours DryingClock::earned(Time from, Time to) {
  if (to <= from) {
    return Hours::from_hours(0);
  }
  return Hours::from_hours(earned_at(seconds_between(start_, to)) -
                           earned_at(seconds_between(start_, from)));
}

std::optional<Time> DryingClock::reached(Time from, Hours needed, Time latest) {
  const double target = earned_at(seconds_between(start_, from)) + needed.hours();
  const double last = seconds_between(start_, latest);
  while (total_ < target && covered_ < last) {
    extend_to(std::min(last, covered_ + kChunk));
  }
  if (total_ < target) {
    return std::nullopt;
  }
  // The last cell that begins below the target holds the moment.
  const auto after = std::partition_point(
      cells_.begin(), cells_.end(), [target](const Cell& cell) { return cell.earned < target; });
  double second = seconds_between(start_, from);
  if (after != cells_.begin()) {
    const Cell& cell = *std::prev(after);
    double low = 0.0;
    double high = cell.length;
    while (high - low > 0.25) {
      const double middle = (low + high) / 2.0;
      (cell.earned_after(middle) < target ? low : high) = middle;
    }
    second = std::max(second, std::ceil(cell.start + high));
  }
  const Time time = start_ + std::chrono::seconds(static_cast<std::int64_t>(second));
  return time <= latest ? std::optional(time) : std::nullopt;
}

DryingClock& DryingClocks::of(const RateLaw& law, std::optional<Temperature> gate) {
  for (DryingClock& clock : clocks_) {
    if (clock.law() == law && clock.gate() == gate) {
      return clock;
    }
  }
  return clocks_.emplace_back(air_, law, gate, start_);
}

}  // namespace coatwright
