#include "recipe/grits.h"

#include <cmath>
#include <cstddef>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

#include <catch2/catch.hpp>

#include "recipe/recipe_names.h"

using namespace coatwright;

namespace {

double um(const std::string& grit) {
  const std::optional<double> size = mean_grain_um(grit);
  REQUIRE(size);
  return *size;
}

std::vector<std::string> sequence(const std::string& first, const std::string& last) {
  const auto result = sanding_sequence(first, last);
  REQUIRE(result);
  return *result;
}

/// Steps of a sequence and the sum of the squared logarithms of its ratios; none where one is not
/// good.
std::optional<std::pair<std::size_t, double>> measure(const std::vector<std::string>& grits) {
  double sum = 0;
  for (std::size_t i = 1; i < grits.size(); ++i) {
    const double ratio = um(grits[i - 1]) / um(grits[i]);
    if (ratio > 1.65) {
      return std::nullopt;
    }
    sum += std::log(ratio) * std::log(ratio);
  }
  return std::pair(grits.size(), sum);
}

/// The least measure of all choices of trade grits between two grits.
std::optional<std::pair<std::size_t, double>> least_of_all(const std::string& first,
                                                           const std::string& last) {
  std::vector<std::string> between;
  for (const std::string_view grit : trade_grits()) {
    const std::string name(grit);
    if (um(name) < um(first) && um(name) > um(last)) {
      between.push_back(name);
    }
  }
  std::optional<std::pair<std::size_t, double>> least;
  for (std::size_t chosen = 0; chosen < (std::size_t{1} << between.size()); ++chosen) {
    std::vector<std::string> grits = {first};
    for (std::size_t i = 0; i < between.size(); ++i) {
      if ((chosen >> i & 1U) != 0) {
        grits.push_back(between[i]);
      }
    }
    grits.push_back(last);
    const auto measured = measure(grits);
    if (measured && (!least || *measured < *least)) {
      least = measured;
    }
  }
  return least;
}

}  // namespace

TEST_CASE("Grits are as coarse as the standard's table says", "[recipe]") {
  // EVIDENCE: iso_6344 table of P grades, all 28, read in a copy of the table
  const std::vector<std::pair<std::string, double>> published = {
      {"P12", 1815},   {"P16", 1324},   {"P20", 1000},  {"P24", 764},    {"P30", 642},
      {"P36", 538},    {"P40", 425},    {"P50", 336},   {"P60", 269},    {"P80", 201},
      {"P100", 162},   {"P120", 125},   {"P150", 100},  {"P180", 82},    {"P220", 68},
      {"P240", 58.5},  {"P280", 52.2},  {"P320", 46.2}, {"P360", 40.5},  {"P400", 35.0},
      {"P500", 30.2},  {"P600", 25.8},  {"P800", 21.8}, {"P1000", 18.3}, {"P1200", 15.3},
      {"P1500", 12.6}, {"P2000", 10.3}, {"P2500", 8.4}};
  for (const auto& [grit, size] : published) {
    CAPTURE(grit);
    CHECK(um(grit) == Approx(size));
  }
  CHECK_FALSE(mean_grain_um("180"));
  CHECK_FALSE(mean_grain_um("P170"));
}

TEST_CASE("Every grit that a recipe may name has a size", "[recipe]") {
  double before = 2000;
  for (const std::string_view grit : known_grits()) {  // consistency check
    CAPTURE(std::string(grit));
    CHECK(um(std::string(grit)) < before);
    before = um(std::string(grit));
  }
}

TEST_CASE("The rule for jumps agrees with the sequences that the trade publishes", "[recipe]") {
  // EVIDENCE: trade_finishing_web sequence 80-120-180-220, "do not skip more than one grade"
  CHECK(grit_remarks({"P80", "P120", "P180", "P220"}).empty());

  // EVIDENCE: trade_finishing_web sequence 80-150-220-320, doubling at first: its first jump is
  // the largest that a page still publishes
  const auto doubled = grit_remarks({"P80", "P150", "P220", "P320"});
  REQUIRE(doubled.size() == 1);
  CHECK(doubled[0].from == "P80");
  CHECK(doubled[0].to == "P150");
  CHECK(doubled[0].jump == GritJump::kLarge);
  CHECK(doubled[0].ratio == Approx(2.01));
  CHECK_THAT(doubled[0].text(), Catch::Contains("From P80 to P150 is a large jump"));

  // EVIDENCE: trade_finishing_web 80 to 180 is called a skip
  const auto skip = grit_remarks({"P80", "P180"});
  REQUIRE(skip.size() == 1);
  CHECK(skip[0].jump == GritJump::kTooLarge);
  CHECK(skip[0].between == std::vector<std::string>{"P120"});
  CHECK(skip[0].text() ==
        "From P80 to P180 is too large a jump: the grains are 2.45 times as large, and 2.05 is the "
        "most; P120 in between.");
}

TEST_CASE("A sanding sequence takes the grits of the trade", "[recipe]") {
  using Grits = std::vector<std::string>;
  // EVIDENCE: trade_finishing_web sequence 80-120-180
  CHECK(sequence("P80", "P180") == Grits{"P80", "P120", "P180"});
  CHECK(sequence("P120", "P180") == Grits{"P120", "P180"});
  CHECK(sequence("P120", "P120") == Grits{"P120"});
  CHECK(sequence("P220", "P150") == Grits{"P150"});
  CHECK(sanding_sequence("P12", "P180").error().code == ErrorCode::kOutOfRange);
  CHECK_THAT(sanding_sequence("fine", "P180").error().message, Catch::Contains("'fine'"));
}

TEST_CASE("No choice of trade grits is shorter than a sanding sequence, or as short and evener",
          "[recipe]") {
  std::size_t pairs = 0;
  for (const std::string_view first : known_grits()) {
    for (const std::string_view last : known_grits()) {
      if (grit_number(first) >= grit_number(last)) {
        continue;
      }
      CAPTURE(std::string(first), std::string(last));
      const auto least = least_of_all(std::string(first), std::string(last));
      REQUIRE(least);
      const auto measured = measure(sequence(std::string(first), std::string(last)));
      REQUIRE(measured);
      CHECK(measured->first == least->first);
      CHECK(measured->second == Approx(least->second));
      ++pairs;
    }
  }
  CHECK(pairs == known_grits().size() * (known_grits().size() - 1) / 2);
}
