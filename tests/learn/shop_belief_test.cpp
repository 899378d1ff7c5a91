#include "learn/shop_belief.h"

#include <cmath>
#include <fstream>
#include <limits>
#include <map>
#include <random>
#include <sstream>
#include <string>
#include <utility>

#include <catch2/catch.hpp>

using namespace coatwright;

namespace {

constexpr double kShare = kShopShareOfVariance;
constexpr double kProduct = 0.25;  // ShopPrior's own, written out here

/// What fit.R wrote: one invented shop with its fit by survreg.
struct Fit {
  DurationRange range{Hours::from_hours(1), Hours::from_hours(1)};
  int coats = 0;
  double log_middle = 0;
  double standard_error = 0;
};

std::vector<std::vector<std::string>> rows_of(const std::string& file) {
  std::ifstream stream(std::string(COATWRIGHT_SOURCE_DIR) + "/tests/data/learning/" + file);
  REQUIRE(stream.is_open());
  std::vector<std::vector<std::string>> rows;
  std::string line;
  bool is_headed = false;
  while (std::getline(stream, line)) {
    if (line.starts_with('#') || !std::exchange(is_headed, true)) {
      continue;
    }
    std::istringstream cells(line);
    std::string cell;
    rows.emplace_back();
    while (std::getline(cells, cell, ',')) {
      rows.back().push_back(cell.substr(cell.find_first_not_of(' ')));
    }
  }
  return rows;
}

std::map<std::string, Fit> fits() {
  std::map<std::string, Fit> all;
  for (const auto& row : rows_of("fits.csv")) {
    all[row[0]] = {
        DurationRange(Hours::from_hours(std::stod(row[1])), Hours::from_hours(std::stod(row[2]))),
        std::stoi(row[3]),
        std::stod(row[4]),
        std::stod(row[5])};
  }
  return all;
}

double deviate_of(const std::string& hours, const DurationRange& range, double otherwise) {
  return hours == "NA" ? otherwise : range.deviate_of(Hours::from_hours(std::stod(hours)));
}

std::vector<CoatInterval> coats_of(const std::string& set, const DurationRange& range) {
  std::vector<CoatInterval> coats;
  for (const auto& row : rows_of("coats.csv")) {
    if (row[0] == set) {
      coats.push_back({"varnish",
                       Mechanism::kOxidation,
                       deviate_of(row[1], range, -40.0),
                       deviate_of(row[2], range, 40.0)});
    }
  }
  return coats;
}

/// Standard normal deviates by inversion: the same on every machine.
class Deviates {
 public:
  explicit Deviates(unsigned seed) : random_(seed) {}
  double next() {
    return normal_deviate((static_cast<double>(random_() >> 11U) + 0.5) / 9007199254740992.0);
  }
  double uniform() { return (static_cast<double>(random_() >> 11U) + 0.5) / 9007199254740992.0; }

 private:
  std::mt19937_64 random_;
};

CoatInterval known(const std::string& product, double deviate) {
  return {product, Mechanism::kOxidation, deviate - 1e-4, deviate + 1e-4};
}

/// By sums over both parts, on another grid, for two products.
std::pair<double, double> moments_by_brute_force(const std::vector<CoatInterval>& coats,
                                                 const std::string& product) {
  constexpr double kStep = 0.125;
  const auto shop_of = [](double common, double own) {
    return std::sqrt(1.0 - kProduct) * common + std::sqrt(kProduct) * own;
  };
  const auto likelihood = [&](const CoatInterval& coat, double shop) {
    const double left = (coat.at_most - std::sqrt(kShare) * shop) / std::sqrt(1.0 - kShare);
    const double right = (coat.above - std::sqrt(kShare) * shop) / std::sqrt(1.0 - kShare);
    return 0.5 * (std::erf(left / std::sqrt(2.0)) - std::erf(right / std::sqrt(2.0)));
  };
  double sum = 0;
  double first = 0;
  double second = 0;
  for (double common = -6; common <= 6; common += kStep) {
    double others = 0;
    std::vector<double> own_weights;
    for (double own = -6; own <= 6; own += kStep) {
      double of_others = std::exp(-0.5 * own * own);
      double of_own = of_others;
      for (const CoatInterval& coat : coats) {
        (coat.product == product ? of_own : of_others) *= likelihood(coat, shop_of(common, own));
      }
      others += of_others;
      own_weights.push_back(of_own);
    }
    double own = -6;
    for (const double weight : own_weights) {
      const double all = weight * others * std::exp(-0.5 * common * common);
      const double shop = shop_of(common, own);
      sum += all;
      first += all * shop;
      second += all * shop * shop;
      own += kStep;
    }
  }
  return {first / sum, second / sum - (first / sum) * (first / sum)};
}

}  // namespace

// Against R's survival package, survreg with interval2 and the scale held fixed
// (tests/data/learning/fit.R): its estimate and Wald interval beside the belief with a flat prior.
// The likelihood is not quite a parabola, so that few coats differ a little.
// EVIDENCE: survival_r survreg with interval2
TEST_CASE("A flat prior gives the estimate and interval of an interval-censored fit", "[learn]") {
  const auto all = fits();
  REQUIRE(all.size() >= 10);
  for (const auto& [set, fit] : all) {
    INFO("set " << set << ", " << fit.coats << " coats");
    const auto coats = coats_of(set, fit.range);
    REQUIRE(static_cast<int>(coats.size()) == fit.coats);
    const ShopBelief belief(ShopBelief::log_likelihood(coats, kShare), kShare);
    const double middle =
        0.5 * (std::log(fit.range.low().hours()) + std::log(fit.range.high().hours()));
    const double unit = fit.range.log_spread() * std::sqrt(kShare);
    const auto hours_log = [&](double deviate) { return middle + unit * deviate; };
    const double tolerance = fit.standard_error * (fit.coats < 20 ? 0.25 : 0.1);
    CHECK(hours_log(belief.quantile(0.5)) == Approx(fit.log_middle).margin(tolerance));
    CHECK(hours_log(belief.quantile(0.025)) ==
          Approx(fit.log_middle - 1.959964 * fit.standard_error).margin(2 * tolerance));
    CHECK(hours_log(belief.quantile(0.975)) ==
          Approx(fit.log_middle + 1.959964 * fit.standard_error).margin(2 * tolerance));
  }
}

TEST_CASE("Coats that say nothing leave the range as it is labelled", "[learn]") {
  const ShopPaces paces = paces_from({{"varnish", Mechanism::kOxidation, -8.0, 8.0}});
  for (const char* product : {"varnish", "oil"}) {
    const ShopPace* pace = paces.of(Mechanism::kOxidation, product);
    REQUIRE(pace != nullptr);
    CHECK(pace->coat_low == Approx(-1.2815515655).margin(1e-4));
    CHECK(pace->coat_high == Approx(1.2815515655).margin(1e-4));
    CHECK(pace->shop_share == Approx(kShare).margin(1e-4));
    CHECK(pace->shop_middle == Approx(0).margin(1e-6));
    CHECK(pace->shop_high == Approx(1.6448536270).margin(2e-3));
  }
  CHECK(paces.of(Mechanism::kEvaporation, "varnish") == nullptr);
}

// The normal one-way hierarchy in closed form, Gelman et al., Bayesian Data Analysis, 3rd ed.,
// 5.4 (from memory): coats known to a hair.
// EVIDENCE: gelman2013
TEST_CASE("Coats that are known exactly give the closed form of the normal hierarchy", "[learn]") {
  std::vector<CoatInterval> coats;
  const std::vector<double> deviates = {1.4, 0.6, 1.1, 1.9};
  double mean = 0;
  for (const double deviate : deviates) {
    coats.push_back(known("varnish", deviate));
    mean += deviate / static_cast<double>(deviates.size());
  }
  const double n = static_cast<double>(deviates.size());
  // The mean of n coats is sqrt(h) S plus noise of variance (1 - h) / n; S is standard normal.
  const double total = kShare + (1 - kShare) / n;
  const double shop_mean = std::sqrt(kShare) * mean / total;
  const double shop_variance = 1 - kShare / total;
  const ShopPaces paces = paces_from(coats);
  const ShopPace* own = paces.of(Mechanism::kOxidation, "varnish");
  REQUIRE(own != nullptr);
  CHECK(own->shop_middle == Approx(shop_mean).margin(2e-3));
  CHECK(own->shop_high == Approx(shop_mean + 1.644854 * std::sqrt(shop_variance)).margin(4e-3));
  const double coat_spread = std::sqrt(kShare * shop_variance + 1 - kShare);
  CHECK(own->coat_high ==
        Approx(std::sqrt(kShare) * shop_mean + 1.281552 * coat_spread).margin(2e-3));
  CHECK(own->shop_share ==
        Approx(kShare * shop_variance / (coat_spread * coat_spread)).margin(1e-3));
  // Another product shares 1 - q of the shop's variance with it.
  const ShopPace* other = paces.of(Mechanism::kOxidation, "oil");
  CHECK(other->shop_middle == Approx((1 - kProduct) * shop_mean).margin(2e-3));
}

TEST_CASE("Two products share what sums over both parts give", "[learn]") {
  const std::vector<CoatInterval> coats = {
      {"varnish", Mechanism::kOxidation, 0.4, 1.2},
      {"varnish", Mechanism::kOxidation, 0.1, 8.0},
      {"varnish", Mechanism::kOxidation, -0.2, 0.9},
      {"oil", Mechanism::kOxidation, -8.0, 0.3},
      {"oil", Mechanism::kOxidation, -1.0, 0.0},
  };
  const ShopPaces paces = paces_from(coats);
  for (const char* product : {"varnish", "oil"}) {
    const auto [mean, variance] = moments_by_brute_force(coats, product);
    const ShopPace* pace = paces.of(Mechanism::kOxidation, product);
    REQUIRE(pace != nullptr);
    const double of_shop = kShare * variance;
    CHECK(pace->shop_share == Approx(of_shop / (of_shop + 1 - kShare)).margin(1e-4));
    CHECK(pace->shop_middle == Approx(mean).margin(0.02));  // a little skewed
    CHECK(pace->coats == 5);
  }
}

TEST_CASE("Two tests a world apart are believed without an end of arithmetic", "[learn]") {
  const ShopPaces paces = paces_from({{"varnish", Mechanism::kOxidation, 7.9, 8.0},
                                      {"varnish", Mechanism::kOxidation, -8.0, -7.9}});
  const ShopPace* pace = paces.of(Mechanism::kOxidation, "varnish");
  REQUIRE(pace != nullptr);
  CHECK(std::isfinite(pace->coat_high));
  CHECK(pace->shop_middle == Approx(0).margin(0.01));
}

// A standard normal cut to a stretch: Johnson, Kotz, Balakrishnan, Continuous Univariate
// Distributions, vol. 1, 10.1 (from memory), by sums of its density here.
TEST_CASE("A coat that was tested lies where its tests leave it", "[learn]") {
  const std::vector<std::pair<double, double>> stretches = {
      {-8, 0.3}, {0.4, 8}, {-0.5, 1.1}, {2.5, 8}, {-8, -3}, {6.0, 7.9}};
  for (const auto& [above, at_most] : stretches) {
    const ShopPaces own =
        paces_of_coat({{"varnish", Mechanism::kOxidation, above, at_most}}, ShopPaces());
    const ShopPace* pace = own.of(Mechanism::kOxidation, "varnish");
    REQUIRE(pace != nullptr);
    double inside = 0;
    double below_low = 0;
    double below_high = 0;
    constexpr double kFine = 1e-4;
    for (double z = above + 0.5 * kFine; z < at_most; z += kFine) {
      const double weight = std::exp(-0.5 * z * z);
      inside += weight;
      below_low += z <= pace->coat_low ? weight : 0;
      below_high += z <= pace->coat_high ? weight : 0;
    }
    INFO(above << " to " << at_most);
    CHECK(below_low / inside == Approx(0.1).margin(2e-3));
    CHECK(below_high / inside == Approx(0.9).margin(2e-3));
    CHECK(own.of(Mechanism::kOxidation, "oil") == nullptr);
  }
}

// Consistency check, not evidence: shops drawn from the prior itself.
TEST_CASE("Intervals of a thousand invented shops hold as often as they say", "[learn]") {
  Deviates deviates(20261130);
  constexpr int kShops = 1000;
  constexpr int kCoats = 6;
  constexpr int kLater = 20;
  int covered = 0;
  int early_as_labelled = 0;
  int early_learned = 0;
  double log_wait_ratio = 0;
  const DurationRange range(Hours::from_hours(4), Hours::from_hours(24));
  for (int i = 0; i < kShops; ++i) {
    const double shop =
        std::sqrt(1 - kProduct) * deviates.next() + std::sqrt(kProduct) * deviates.next();
    const auto coat = [&] {
      return std::sqrt(kShare) * shop + std::sqrt(1 - kShare) * deviates.next();
    };
    std::vector<CoatInterval> coats;
    for (int k = 0; k < kCoats; ++k) {
      const double true_deviate = coat();
      CoatInterval seen{"varnish", Mechanism::kOxidation, -8.0, 8.0};
      for (int touch = 0; touch < 2; ++touch) {
        const double looked = 1.5 * deviates.next();
        (true_deviate > looked ? seen.above : seen.at_most) =
            true_deviate > looked ? std::max(seen.above, looked) : std::min(seen.at_most, looked);
      }
      coats.push_back(seen);
    }
    const ShopPaces paces = paces_from(coats);
    const ShopPace& pace = *paces.of(Mechanism::kOxidation, "varnish");
    covered += pace.shop_low <= shop && shop <= pace.shop_high ? 1 : 0;
    const Hours labelled = range.quantile(0.9);
    const Hours learned = paced(range, pace).quantile(0.9);
    log_wait_ratio += std::log(learned.hours() / labelled.hours()) / kShops;
    for (int k = 0; k < kLater; ++k) {
      const Hours needed = range.at_deviate(coat());
      early_as_labelled += needed > labelled ? 1 : 0;
      early_learned += needed > learned ? 1 : 0;
    }
  }
  const double share = 1.0 / (kShops * kLater);
  INFO("covered " << covered << ", early as labelled " << early_as_labelled * share
                  << ", early learned " << early_learned * share << ", wait ratio "
                  << std::exp(log_wait_ratio));
  CHECK(covered >= 880);
  CHECK(covered <= 920);
  CHECK(early_as_labelled * share >= 0.08);
  CHECK(early_as_labelled * share <= 0.12);
  CHECK(early_learned * share <= early_as_labelled * share);
  CHECK(std::exp(log_wait_ratio) < 0.95);
}
