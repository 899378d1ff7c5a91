#include "scheduling/price_ascent.h"

#include <algorithm>

namespace coatwright {
namespace {

constexpr int kPatience = 4;          // steps without a better bound, until they are shortened
constexpr std::int64_t kFine = 1024;  // of a step per unit of the direction

}  // namespace

std::int64_t PriceAscent::worth() const {
  std::int64_t worth = 0;
  for (std::size_t i = 0; i < prices_.size(); ++i) {
    worth += prices_[i] * relaxation_.capacity()[i];
  }
  return worth;
}

std::int64_t PriceAscent::step(std::int64_t target) {
  const std::int64_t cost = relaxation_.least_cost(prices_);
  if (cost >= PricedRelaxation::kNoCost) {
    best_ = cost;
    return cost;
  }
  const std::int64_t bound = cost - worth();
  if (bound > best_) {
    best_ = bound;
    best_prices_ = prices_;
    without_gain_ = 0;
  } else if (++without_gain_ >= kPatience) {
    without_gain_ = 0;
    part_ = part_ * 2 / 3;
  }
  if (target > bound) {
    move(target - bound);
  }
  return bound;
}

void PriceAscent::move(std::int64_t missing) {
  direction_.resize(prices_.size(), 0);
  std::int64_t square = 0;
  for (std::size_t i = 0; i < prices_.size(); ++i) {
    const std::int64_t over = relaxation_.taken()[i] - relaxation_.capacity()[i];
    direction_[i] = over + direction_[i] / 2;
    if (prices_[i] > 0 || direction_[i] > 0) {
      square += direction_[i] * direction_[i];
    }
  }
  if (square == 0) {
    part_ = 0;
    return;
  }
  const std::int64_t stride = missing * kFine / square * part_;
  for (std::size_t i = 0; i < prices_.size(); ++i) {
    prices_[i] = std::max<std::int64_t>(0, prices_[i] + stride * direction_[i] / (kFine * kWhole));
  }
}

}  // namespace coatwright
