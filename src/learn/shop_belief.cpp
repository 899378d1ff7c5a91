#include "learn/shop_belief.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace coatwright {
namespace {

constexpr double kStep = 0.05;
constexpr int kPoints = 2 * static_cast<int>(kWidestDeviate / kStep) + 1;
/// A likelihood is never taken below this: no test is believed beyond all doubt.
constexpr double kLeast = 1e-300;

using GridValues = std::vector<double>;

/// P(above < Z <= at_most) of a standard normal, exact in both tails.
double normal_between(double above, double at_most) {
  return above > 0.0 ? normal_probability(-above) - normal_probability(-at_most)
                     : normal_probability(at_most) - normal_probability(above);
}

double log_likelihood_of(const CoatInterval& coat, double shop_share, double shop) {
  const double own = std::sqrt(1.0 - shop_share);
  const double moved = std::sqrt(shop_share) * shop;
  return std::log(
      std::max(kLeast, normal_between((coat.above - moved) / own, (coat.at_most - moved) / own)));
}

/// Logarithms as weights of which the largest is 1.
GridValues weights_of(const GridValues& logs) {
  const double most = *std::max_element(logs.begin(), logs.end());
  GridValues weights;
  weights.reserve(logs.size());
  for (const double one : logs) {
    weights.push_back(std::exp(one - most));
  }
  return weights;
}

GridValues logs_of(const GridValues& weights) {
  GridValues logs;
  logs.reserve(weights.size());
  for (const double one : weights) {
    logs.push_back(std::log(std::max(kLeast, one)));
  }
  return logs;
}

void add(const GridValues& more, GridValues& to) {
  for (std::size_t i = 0; i < to.size(); ++i) {
    to[i] += more[i];
  }
}

/// From what a mechanism has in common to a product's shop part, and back: the density of the one
/// at each value of the other, by the product's own part.
class ProductKernel {
 public:
  explicit ProductKernel(double product_share) {
    const auto& grid = ShopBelief::grid();
    rows_.reserve(grid.size());
    for (const double common : grid) {
      GridValues row;
      row.reserve(grid.size());
      for (const double shop : grid) {
        const double own = shop - std::sqrt(1.0 - product_share) * common;
        row.push_back(std::exp(-0.5 * own * own / product_share));
      }
      rows_.push_back(std::move(row));
    }
  }

  /// Weights of the shop's part summed to weights of what is in common.
  [[nodiscard]] GridValues to_common(const GridValues& shop) const {
    GridValues common;
    common.reserve(rows_.size());
    for (const GridValues& row : rows_) {
      double sum = 0.0;
      for (std::size_t i = 0; i < row.size(); ++i) {
        sum += row[i] * shop[i];
      }
      common.push_back(sum);
    }
    return common;
  }
  [[nodiscard]] GridValues to_shop(const GridValues& common) const {
    GridValues shop(rows_.size(), 0.0);
    for (std::size_t i = 0; i < rows_.size(); ++i) {
      for (std::size_t j = 0; j < shop.size(); ++j) {
        shop[j] += rows_[i][j] * common[i];
      }
    }
    return shop;
  }

 private:
  std::vector<GridValues> rows_;  ///< By what is in common.
};

GridValues standard_normal_logs() {
  GridValues logs;
  for (const double z : ShopBelief::grid()) {
    logs.push_back(-0.5 * z * z);
  }
  return logs;
}

/// What one mechanism's coats say.
class MechanismEvidence {
 public:
  MechanismEvidence(const std::vector<CoatInterval>& coats,
                    const ShopPrior& prior,
                    const ProductKernel& kernel)
      : prior_(prior), kernel_(kernel) {
    std::map<std::string, std::vector<CoatInterval>> by_product;
    for (const CoatInterval& coat : coats) {
      by_product[coat.product].push_back(coat);
    }
    for (const auto& [product, own] : by_product) {
      Part part{
          static_cast<int>(own.size()), ShopBelief::log_likelihood(own, prior.shop_share), {}};
      part.common = logs_of(kernel.to_common(weights_of(part.shop)));
      coats_ += part.coats;
      parts_.emplace(product, std::move(part));
    }
  }

  void add_to(Mechanism mechanism, ShopPaces& paces) const {
    paces.set(mechanism, pace_of(common_without(nullptr), nullptr));
    for (const auto& [product, part] : parts_) {
      paces.set(mechanism, product, pace_of(common_without(&part), &part));
    }
  }

 private:
  struct Part {
    int coats;
    GridValues shop;    ///< Log likelihood of its coats by the shop's part ...
    GridValues common;  ///< ... and by what the mechanism has in common.
  };

  [[nodiscard]] GridValues common_without(const Part* product) const {
    GridValues logs = standard_normal_logs();
    for (const auto& [name, part] : parts_) {
      if (&part != product) {
        add(part.common, logs);
      }
    }
    return logs;
  }

  [[nodiscard]] ShopPace pace_of(const GridValues& common, const Part* product) const {
    GridValues logs = logs_of(kernel_.to_shop(weights_of(common)));
    if (product != nullptr) {
      add(product->shop, logs);
    }
    return ShopBelief(std::move(logs), prior_.shop_share).pace(coats_);
  }

  const ShopPrior& prior_;
  const ProductKernel& kernel_;
  std::map<std::string, Part> parts_;
  int coats_ = 0;
};

}  // namespace

ShopBelief::ShopBelief(std::vector<double> log_weights, double shop_share)
    : weights_(weights_of(log_weights)), shop_share_(shop_share) {
  double sum = 0.0;
  for (const double weight : weights_) {
    sum += weight;
  }
  for (double& weight : weights_) {
    weight /= sum;
  }
}

const std::vector<double>& ShopBelief::grid() {
  static const std::vector<double> kGrid = [] {
    std::vector<double> points;
    for (int i = 0; i < kPoints; ++i) {
      points.push_back(-kWidestDeviate + kStep * i);
    }
    return points;
  }();
  return kGrid;
}

std::vector<double> ShopBelief::log_likelihood(const std::vector<CoatInterval>& coats,
                                               double shop_share) {
  std::vector<double> logs;
  logs.reserve(grid().size());
  for (const double shop : grid()) {
    double sum = 0.0;
    for (const CoatInterval& coat : coats) {
      sum += log_likelihood_of(coat, shop_share, shop);
    }
    logs.push_back(sum);
  }
  return logs;
}

double ShopBelief::mean() const {
  double sum = 0.0;
  for (std::size_t i = 0; i < weights_.size(); ++i) {
    sum += weights_[i] * grid()[i];
  }
  return sum;
}

double ShopBelief::variance() const {
  const double middle = mean();
  double sum = 0.0;
  for (std::size_t i = 0; i < weights_.size(); ++i) {
    const double distance = grid()[i] - middle;
    sum += weights_[i] * distance * distance;
  }
  return sum;
}

double ShopBelief::quantile(double probability) const {
  // Each weight lies evenly over the cell around its point.
  double sum = 0.0;
  for (std::size_t i = 0; i < weights_.size(); ++i) {
    if (sum + weights_[i] >= probability) {
      return grid()[i] + kStep * ((probability - sum) / weights_[i] - 0.5);
    }
    sum += weights_[i];
  }
  return kWidestDeviate;
}

double ShopBelief::coat_quantile(double probability) const {
  const double shop = std::sqrt(shop_share_);
  const double own = std::sqrt(1.0 - shop_share_);
  double low = -2.0 * kWidestDeviate;
  double high = 2.0 * kWidestDeviate;
  for (int i = 0; i < 50; ++i) {
    const double middle = 0.5 * (low + high);
    double below = 0.0;
    for (std::size_t j = 0; j < weights_.size(); ++j) {
      below += weights_[j] * normal_probability((middle - shop * grid()[j]) / own);
    }
    (below < probability ? low : high) = middle;
  }
  return 0.5 * (low + high);
}

ShopPace ShopBelief::pace(int coats) const {
  const double of_shop = shop_share_ * variance();
  return {coat_quantile(0.1),
          coat_quantile(0.9),
          of_shop / (of_shop + 1.0 - shop_share_),
          quantile(0.05),
          quantile(0.5),
          quantile(0.95),
          coats};
}

namespace {

constexpr double kDeviateOfHigh = 1.2815515655446004;  // 90th percentile of the standard normal

/// A quantile of a standard normal that is known to lie in a stretch.
double truncated_quantile(double probability, double above, double at_most) {
  if (above > 0.0) {  // by the other tail, where a small probability is exact
    return -truncated_quantile(1.0 - probability, -at_most, -above);
  }
  const double inside = normal_between(above, at_most);
  if (inside < kLeast) {
    return 0.5 * (above + at_most);
  }
  const double below = normal_probability(above) + probability * inside;
  return std::clamp(normal_deviate(std::clamp(below, kLeast, 1.0 - 1e-16)), above, at_most);
}

}  // namespace

ShopPaces paces_of_coat(const std::vector<CoatInterval>& own, const ShopPaces& shop) {
  ShopPaces paces;
  for (const CoatInterval& interval : own) {
    const ShopPace* known = shop.of(interval.mechanism, interval.product);
    ShopPace pace = known != nullptr ? *known : ShopPace{-kDeviateOfHigh, kDeviateOfHigh};
    const double middle = 0.5 * (pace.coat_low + pace.coat_high);
    const double spread = (pace.coat_high - pace.coat_low) / (2.0 * kDeviateOfHigh);
    const double above = (interval.above - middle) / spread;
    const double at_most = (interval.at_most - middle) / spread;
    pace.coat_low = middle + spread * truncated_quantile(0.1, above, at_most);
    pace.coat_high = middle + spread * truncated_quantile(0.9, above, at_most);
    paces.set(interval.mechanism, interval.product, pace);
  }
  return paces;
}

ShopPaces paces_from(const std::vector<CoatInterval>& coats, const ShopPrior& prior) {
  std::map<Mechanism, std::vector<CoatInterval>> by_mechanism;
  for (const CoatInterval& coat : coats) {
    by_mechanism[coat.mechanism].push_back(coat);
  }
  ShopPaces paces;
  if (by_mechanism.empty()) {
    return paces;
  }
  const ProductKernel kernel(prior.product_share);
  for (const auto& [mechanism, own] : by_mechanism) {
    MechanismEvidence(own, prior, kernel).add_to(mechanism, paces);
  }
  return paces;
}

}  // namespace coatwright
