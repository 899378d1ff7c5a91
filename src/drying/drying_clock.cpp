#include "drying/drying_clock.h"

#include <algorithm>
#include <cmath>

namespace coatwright {
namespace {

// A cell is short enough that its rate is a parabola to far below a minute over a month.
constexpr double kCellTemperatureStep = 0.5;  // K
constexpr double kCellHumidityStep = 0.02;    // relative humidity
// Readings a minute apart differ by so little that the rate is a line: at 0.1 K, where a rate
// doubles in 10 K, it strays from it by 4e-6 of itself.
constexpr double kLineTemperatureStep = 0.1;  // K
constexpr double kLineHumidityStep = 0.005;   // relative humidity
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
    : air_(air),
      law_(std::move(law)),
      gate_(gate),
      stop_(std::max(gate, law_.stops_below())),  // no value is less than any
      start_(start) {}

std::size_t DryingClock::cells_begun(double seconds) const {
  const auto block = std::upper_bound(block_starts_.begin(), block_starts_.end(), seconds);
  if (block == block_starts_.begin()) {
    return 0;
  }
  const auto first = static_cast<std::size_t>(block - block_starts_.begin() - 1) * kBlock;
  std::size_t count = first;
  const std::size_t end = std::min(first + kBlock, cells_.size());
  while (count < end && cells_[count].start <= seconds) {
    ++count;
  }
  return count;
}

std::size_t DryingClock::cells_below(double hours) const {
  const auto block = std::lower_bound(block_earned_.begin(), block_earned_.end(), hours);
  if (block == block_earned_.begin()) {
    return 0;
  }
  const auto first = static_cast<std::size_t>(block - block_earned_.begin() - 1) * kBlock;
  std::size_t count = first;
  const std::size_t end = std::min(first + kBlock, cells_.size());
  while (count < end && cells_[count].earned < hours) {
    ++count;
  }
  return count;
}

double DryingClock::Cell::earned_after(double seconds) const {
  // The integral of the parabola through (0, start), (1/2, middle), (1, end).
  const double s = std::clamp(seconds / length, 0.0, 1.0);
  const double linear = -3.0 * rate_start + 4.0 * rate_middle - rate_end;
  const double square = 2.0 * rate_start - 4.0 * rate_middle + 2.0 * rate_end;
  const double share = s * (rate_start + s * (linear / 2.0 + s * square / 3.0));
  return std::max(0.0, share) * length / kSecondsPerHour;
}

double DryingClock::Cell::earned_whole() const {
  const double mean = (double{rate_start} + 4.0 * rate_middle + rate_end) / 6.0;  // Simpson
  return std::max(0.0, mean) * length / kSecondsPerHour;
}

/// Air that stands on the gate counts, whatever interpolation does to its last digits.
bool DryingClock::is_stopped_at(Temperature temperature) const {
  constexpr double kSlackKelvin = 1e-9;
  return stop_ && (*stop_ - temperature).kelvin() > kSlackKelvin;
}

DryingClock::Corner DryingClock::corner_of(const AirKnot& air) const {
  const RelativeHumidity humidity =
      relative_humidity_from_humidity_ratio(air.temperature, air.ratio);
  return {air, seconds_between(start_, air.at), humidity, law_.rate(air.temperature, humidity)};
}

void DryingClock::add_cell(Cell cell) {
  cell.earned = total_;
  if (cells_.size() % kBlock == 0) {
    block_starts_.push_back(cell.start);
    block_earned_.push_back(cell.earned);
  }
  total_ += cell.earned_whole();
  cells_.push_back(cell);
}

void DryingClock::add_cells(const Corner& from, double begin, double end, const Corner& to) {
  const Stretch stretch{from.air, to.air};
  const double length = to.second - from.second;
  const bool stopped = is_stopped_at(stretch.temperature_at((begin + end) / 2.0));
  const auto rate = [&](double share) {
    return stopped ? 0.0 : law_.rate(stretch.temperature_at(share), stretch.humidity_at(share));
  };
  const double kelvins = std::abs((to.air.temperature - from.air.temperature).kelvin());
  const double humidity = std::abs(to.humidity.fraction() - from.humidity.fraction());
  const int count = static_cast<int>(
      1.0 + (end - begin) * std::max(kelvins / kCellTemperatureStep, humidity / kCellHumidityStep));
  double rate_start = rate(begin);
  for (int i = 0; i < count; ++i) {
    const double cell_begin = begin + (end - begin) * i / count;
    const double cell_end = begin + (end - begin) * (i + 1) / count;
    const double rate_end = rate(cell_end);
    add_cell({from.second + cell_begin * length,
              0.0,
              static_cast<float>((cell_end - cell_begin) * length),
              static_cast<float>(rate_start),
              static_cast<float>(rate((cell_begin + cell_end) / 2.0)),
              static_cast<float>(rate_end)});
    rate_start = rate_end;
  }
}

void DryingClock::add_stretch(const Corner& from, const Corner& to) {
  const double change = (to.air.temperature - from.air.temperature).kelvin();
  // The rate jumps where the temperature crosses the stop: the cells are cut there.
  if (stop_ && change != 0.0) {
    const double share = (*stop_ - from.air.temperature).kelvin() / change;
    if (share > 0.0 && share < 1.0) {
      add_cells(from, 0.0, share, to);
      add_cells(from, share, 1.0, to);
      return;
    }
  }
  const bool is_line =
      std::abs(change) <= kLineTemperatureStep &&
      std::abs(to.humidity.fraction() - from.humidity.fraction()) <= kLineHumidityStep;
  if (!is_line) {
    add_cells(from, 0.0, 1.0, to);
    return;
  }
  const bool stopped = is_stopped_at(from.air.temperature) || is_stopped_at(to.air.temperature);
  const double share = stopped ? 0.0 : 1.0;
  add_cell({from.second,
            0.0,
            static_cast<float>(to.second - from.second),
            static_cast<float>(share * from.rate),
            static_cast<float>(share * (from.rate + to.rate) / 2.0),
            static_cast<float>(share * to.rate)});
}

/// What is still to come is about as dense as what is there.
void DryingClock::reserve_to(double seconds) {
  constexpr double kWorthIt = 4.0;
  if (covered_ > 0.0 && seconds > kWorthIt * covered_) {
    cells_.reserve(static_cast<std::size_t>(static_cast<double>(cells_.size()) *
                                            (seconds + kChunk) / covered_));
  }
}

void DryingClock::extend_to(double seconds) {
  const auto time_of = [&](double after) {
    return start_ + std::chrono::seconds(static_cast<std::int64_t>(after));
  };
  while (covered_ < seconds) {
    const double next = covered_ + kChunk;
    const auto knots = air_.knots(time_of(covered_), time_of(next));
    Corner from = corner_of(knots.front());
    for (std::size_t i = 1; i < knots.size(); ++i) {
      const Corner to = corner_of(knots[i]);
      if (to.air.at > from.air.at) {
        add_stretch(from, to);
      }
      from = to;
    }
    covered_ = next;
    reserve_to(seconds);
  }
}

double DryingClock::earned_at(double seconds) {
  extend_to(seconds);
  const std::size_t count = cells_begun(seconds);
  if (count == 0) {
    return 0.0;
  }
  const Cell& cell = cells_[count - 1];
  return cell.earned + cell.earned_after(seconds - cell.start);
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
  double second = seconds_between(start_, from);
  if (const std::size_t count = cells_below(target); count > 0) {
    const Cell& cell = cells_[count - 1];
    const double missing = target - cell.earned;
    double low = 0.0;
    double high = cell.length;
    while (high - low > 0.25) {
      const double middle = (low + high) / 2.0;
      (cell.earned_after(middle) < missing ? low : high) = middle;
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
