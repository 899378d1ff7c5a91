#include "scheduling/priced_bounds.h"

#include <algorithm>

namespace coatwright {
namespace {

constexpr int kMostSlots = 1500;
constexpr std::int64_t kMostStarts = 300'000;  // over all activities
constexpr int kFewSteps = 60;  // for an end at first; doubled when all have been asked
constexpr int kManySteps = 2000;
constexpr Tick kNearPart = 400;        // of the bound: nearer ends are not told apart
constexpr std::int64_t kBuilding = 8;  // as much effort as so many steps
constexpr std::int64_t kReach = 32;    // steps aim at this part of the worth

/// What a step costs: starts and slots.
std::int64_t step_of(const PricedRelaxation& relaxation) {
  return relaxation.effort() + 2 * static_cast<std::int64_t>(relaxation.prices());
}

}  // namespace

EndPricing::EndPricing(const Project& project,
                       const LagNetwork& network,
                       const Windows& windows,
                       const LowerBounds& bounds)
    : project_(project),
      network_(network),
      windows_(windows),
      bounds_(bounds),
      most_steps_(kFewSteps) {}

void EndPricing::run(std::int64_t effort,
                     Tick known,
                     const std::function<bool()>& stop,
                     Tick& bound) {
  left_ += effort;
  if (bound < known && !relaxation_) {
    begin(known, bound);
  }
  while (relaxation_ && left_ > 0 && bound < known && !(stop && stop())) {
    if (!ascent_) {
      begin_next(known, bound);
    } else {
      step(known, bound);
    }
  }
}

void EndPricing::begin(Tick known, Tick bound) {
  for (int i = 0; i < network_.count(); ++i) {
    if (!windows_.lower(i, known - bounds_.tail(i))) {
      return;
    }
  }
  relaxation_ = std::make_unique<PricedRelaxation>(project_,
                                                   network_,
                                                   windows_,
                                                   bounds_.pools(),
                                                   bounds_.usable(),
                                                   known,
                                                   kMostSlots,
                                                   kMostStarts);
  left_ -= kBuilding * step_of(*relaxation_);
  prices_ = first_prices();
  given_up_ = std::max(known, bound);
}

/// Where a pool is used most of all, its time is worth most at first.
Prices EndPricing::first_prices() const {
  std::vector<std::int64_t> loads;  // in thousandths
  const std::size_t slots = relaxation_->slots();
  for (std::size_t i = 0; i < bounds_.pools().size(); ++i) {
    std::int64_t used = 0;
    for (const Pool::Use& use : bounds_.pools()[i].uses) {
      used += std::int64_t{use.amount} * (use.to - use.from);
    }
    std::int64_t there = 1;
    for (std::size_t slot = 0; slot < slots; ++slot) {
      there += relaxation_->capacity()[i * slots + slot];
    }
    loads.push_back(1000 * used / there);
  }
  const std::int64_t most =
      std::max<std::int64_t>(1, *std::max_element(loads.begin(), loads.end()));
  Prices prices;
  for (std::size_t i = 0; i < loads.size(); ++i) {
    std::int64_t price = 64 * PricedRelaxation::kPriceUnit;
    for (int power = 0; power < 8; ++power) {
      price = price * loads[i] / most;
    }
    prices.insert(prices.end(), slots, price / std::max(1, most_of(bounds_.pools()[i].capacity)));
  }
  return prices;
}

/// Turns to the end half way between the bound and what was given up.
void EndPricing::begin_next(Tick known, Tick& bound) {
  given_up_ = std::min(given_up_, known);
  if (given_up_ - bound <= bound / kNearPart) {
    given_up_ = known;
    most_steps_ = std::min(kManySteps, 2 * most_steps_);
  }
  asked_ = bound + (given_up_ - bound) / 2;
  left_ -= step_of(*relaxation_);
  Windows within = windows_;
  for (int i = 0; i < network_.count(); ++i) {
    if (!within.lower(i, asked_ - bounds_.tail(i))) {
      bound = std::min(known, next_end(asked_ + 1));
      return;
    }
  }
  relaxation_->keep_within(within);
  steps_ = 0;
  ascent_ = std::make_unique<PriceAscent>(*relaxation_, prices_);
}

void EndPricing::step(Tick known, Tick& bound) {
  left_ -= step_of(*relaxation_);
  ++steps_;
  ascent_->step(ascent_->worth() / kReach + 1);
  if (ascent_->best() > 0) {
    prices_ = ascent_->best_prices();
    bound = std::min(known, next_end(asked_ + 1));
    ascent_.reset();
  } else if (steps_ >= most_steps_ || ascent_->is_over()) {
    given_up_ = asked_;
    ascent_.reset();
  }
}

/// The first end of a schedule from a moment on: some activity that nothing must follow is last.
Tick EndPricing::next_end(Tick after) const {
  Tick next = kNeverTick;
  for (int i = 0; i < network_.count(); ++i) {
    const Tick length = project_.activities[i].length;
    if (bounds_.tail(i) == length) {
      next = std::min(next, network_.grid(i).up(after - length) + length);
    }
  }
  return std::max(after, next);
}

LatenessPricing::LatenessPricing(const Project& project,
                                 const LagNetwork& network,
                                 const Windows& windows,
                                 const LowerBounds& bounds)
    : relaxation_(project,
                  network,
                  windows,
                  bounds.pools(),
                  bounds.usable(),
                  project.horizon,
                  kMostSlots,
                  kMostStarts),
      ascent_(relaxation_, Prices(relaxation_.prices(), 0)),
      left_(-kBuilding * step_of(relaxation_)) {
  for (const Job& job : project.jobs) {
    // Of all that it waits for, what ends last at the earliest says most of it.
    int last = -1;
    Tick least_end = -1;
    for (const int activity : job.activities) {
      const Tick end = windows.low(activity) + bounds.job_tail(activity);
      last = end >= least_end ? activity : last;
      least_end = std::max(least_end, end);
    }
    if (last >= 0 && job.weight > 0 && job.due < kNeverTick) {
      relaxation_.count_lateness(last, {job.weight, bounds.job_tail(last), job.due});
    }
  }
}

void LatenessPricing::run(std::int64_t effort,
                          std::int64_t known,
                          const std::function<bool()>& stop,
                          std::int64_t& bound) {
  left_ += effort;
  while (left_ > 0 && bound < known && !ascent_.is_over() && !(stop && stop())) {
    left_ -= step_of(relaxation_);
    ascent_.step(known * PricedRelaxation::kPriceUnit);
    const std::int64_t whole = PricedRelaxation::kPriceUnit;
    bound = std::max(bound, std::min(known, (ascent_.best() + whole - 1) / whole));
  }
}

}  // namespace coatwright
