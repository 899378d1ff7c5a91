#include "quantity/cans.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numeric>

namespace coatwright {
namespace {

constexpr double kRounding = 1e-9;  // an amount that fills its cans exactly needs no more
constexpr int kNoWay = -1;

/// The fewest cans for each amount up to the last, and the can that was added last.
struct Fewest {
  std::vector<int> count;       ///< kNoWay where no cans make the amount exactly.
  std::vector<std::size_t> by;  ///< Index of the can.
};

Fewest fewest_cans(const std::vector<int>& sizes, int most) {
  Fewest fewest{std::vector<int>(static_cast<std::size_t>(most) + 1, kNoWay),
                std::vector<std::size_t>(static_cast<std::size_t>(most) + 1, 0)};
  fewest.count[0] = 0;
  for (int amount = 1; amount <= most; ++amount) {
    const auto at = static_cast<std::size_t>(amount);
    for (std::size_t i = 0; i < sizes.size(); ++i) {
      if (sizes[i] > amount) {
        continue;
      }
      const int before = fewest.count[at - static_cast<std::size_t>(sizes[i])];
      const bool better = fewest.count[at] == kNoWay || before + 1 < fewest.count[at];
      if (before != kNoWay && better) {
        fewest.count[at] = before + 1;
        fewest.by[at] = i;
      }
    }
  }
  return fewest;
}

/// How many of the largest can are certain. Of the others fewer than the largest has measures are
/// worth while: among so many some hold together a multiple of the largest, which takes fewer of
/// it.
std::int64_t bulk_of(std::int64_t least, std::int64_t largest) {
  return std::max<std::int64_t>(0, (least - largest * largest) / largest);
}

}  // namespace

CanPurchase cans_for(Volume needed, std::vector<CanSize> sizes) {
  std::sort(sizes.begin(), sizes.end(), [](const CanSize& a, const CanSize& b) {
    return a.amount > b.amount;
  });
  int measure = 0;
  for (const CanSize& size : sizes) {
    measure = std::gcd(measure, size.amount);
  }
  std::vector<int> amounts;
  for (const CanSize& size : sizes) {
    amounts.push_back(size.amount / measure);
  }
  const double unit = sizes.front().volume().litres() / amounts.front();
  const auto least =
      static_cast<std::int64_t>(std::max(0.0, std::ceil(needed.litres() / unit - kRounding)));
  const std::int64_t bulk = bulk_of(least, amounts.front());
  const auto rest = static_cast<int>(least - bulk * amounts.front());
  // Some cans are exact before another of the largest is full.
  const Fewest fewest = fewest_cans(amounts, rest + amounts.front());
  auto at = static_cast<std::size_t>(rest);
  while (fewest.count[at] == kNoWay) {
    ++at;
  }
  CanPurchase purchase;
  purchase.total = Volume::from_litres(
      (static_cast<double>(at) + static_cast<double>(bulk) * amounts.front()) * unit);
  purchase.left_over =
      Volume::from_litres(std::max(0.0, purchase.total.litres() - needed.litres()));
  std::vector<int> counts(sizes.size(), 0);
  counts.front() = static_cast<int>(bulk);
  for (; at > 0; at -= static_cast<std::size_t>(amounts[fewest.by[at]])) {
    ++counts[fewest.by[at]];
  }
  for (std::size_t i = 0; i < sizes.size(); ++i) {
    if (counts[i] > 0) {
      purchase.cans.emplace_back(sizes[i], counts[i]);
    }
  }
  return purchase;
}

std::vector<Purchase> purchases_for(const std::vector<ProductAmount>& amounts,
                                    const std::vector<CanSize>& sizes) {
  std::vector<Purchase> purchases;
  const auto add = [&](const ProductAmount& of, const std::string& part, Volume needed) {
    purchases.push_back({&of, part, needed, cans_for(needed, sizes)});
  };
  for (const ProductAmount& amount : amounts) {
    if (amount.mix.empty()) {
      add(amount, "", amount.supplied);
    }
    for (const MixShare& share : amount.mix) {
      add(amount, share.name, share.amount);
    }
    if (!amount.thinner_name.empty()) {
      add(amount, amount.thinner_name, amount.thinner);
    }
  }
  return purchases;
}

std::optional<Time> use_by(const Storage& storage, Time opened) {
  constexpr double kHoursPerMonth = 24.0 * 30.0;
  if (!storage.opened_months) {
    return std::nullopt;
  }
  return opened + std::chrono::hours(
                      static_cast<std::int64_t>(storage.opened_months->value * kHoursPerMonth));
}

}  // namespace coatwright
