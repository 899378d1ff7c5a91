#include "drying/range.h"

#include <cmath>

#include <catch2/catch.hpp>

using namespace coatwright;

namespace {

DurationRange range(double low, double high) {
  return {Hours::from_hours(low), Hours::from_hours(high)};
}

}  // namespace

TEST_CASE("Standard normal probabilities agree with the handbook table", "[drying]") {
  // EVIDENCE: nist_sematech 1.3.6.7.1 (cumulative standard normal table, five decimals)
  const std::pair<double, double> rows[] = {{0.00, 0.50000},
                                            {0.50, 0.69146},
                                            {1.00, 0.84134},
                                            {1.28, 0.89973},
                                            {1.64, 0.94950},
                                            {1.96, 0.97500},
                                            {2.33, 0.99010},
                                            {3.00, 0.99865}};
  for (const auto& [z, probability] : rows) {
    CHECK(normal_probability(z) == Approx(probability).margin(0.6e-5));
    CHECK(normal_probability(-z) == Approx(1.0 - probability).margin(0.6e-5));
  }
}

TEST_CASE("Critical values of the standard normal come back", "[drying]") {
  // EVIDENCE: nist_sematech 1.3.6.7.1 (critical values as tabulated to three decimals)
  CHECK(normal_deviate(0.90) == Approx(1.282).margin(0.0006));
  CHECK(normal_deviate(0.95) == Approx(1.645).margin(0.0006));
  CHECK(normal_deviate(0.975) == Approx(1.960).margin(0.0006));
  CHECK(normal_deviate(0.99) == Approx(2.326).margin(0.0006));
}

TEST_CASE("The deviate is the inverse of the probability, out to the tails", "[drying]") {
  for (double p = 1e-10; p < 1.0; p = p < 0.01 ? p * 3.0 : p + 0.0137) {
    CHECK(normal_probability(normal_deviate(p)) == Approx(p).epsilon(1e-12));
  }
}

TEST_CASE("A range's ends are its 10th and 90th percentile", "[drying]") {
  // EVIDENCE: definition (design: low and high are those percentiles of a log-normal)
  const auto stain = range(12, 24);
  CHECK(stain.quantile(0.1).hours() == Approx(12.0));
  CHECK(stain.quantile(0.9).hours() == Approx(24.0));
  CHECK(stain.quantile(0.5).hours() == Approx(std::sqrt(12.0 * 24.0)));
  CHECK(stain.deviate_of(stain.at_deviate(0.7)) == Approx(0.7));
}

TEST_CASE("A single figure has no spread and is reached at once when it is reached", "[drying]") {
  const auto fixed = range(1, 1);
  CHECK(fixed.log_spread() == 0.0);
  CHECK(fixed.quantile(0.99).hours() == Approx(1.0));
  CHECK(fixed.deviate_of(Hours::from_hours(0.99)) < -10.0);
  CHECK(fixed.deviate_of(Hours::from_hours(1.0)) > 10.0);
  CHECK(fixed.deviate_of(Hours::from_hours(0.0)) < -10.0);
}
