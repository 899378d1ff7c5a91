#include "drying/thinning.h"

#include <catch2/catch.hpp>

using namespace coatwright;

namespace {

/// g/mol, from the formulas.
double molar_mass(std::string_view solvent) {
  constexpr std::pair<std::string_view, double> kMasses[] = {{"acetone", 58.08},
                                                             {"methyl ethyl ketone", 72.11},
                                                             {"ethyl acetate", 88.11},
                                                             {"ethanol", 46.07},
                                                             {"isopropanol", 60.10},
                                                             {"n-butanol", 74.12},
                                                             {"toluene", 92.14},
                                                             {"m-xylene", 106.17},
                                                             {"n-butyl acetate", 116.16},
                                                             {"2-butoxyethanol", 118.17},
                                                             {"alpha-pinene", 136.23},
                                                             {"n-octane", 114.23},
                                                             {"n-nonane", 128.26},
                                                             {"n-decane", 142.28}};
  for (const auto& [name, mass] : kMasses) {
    if (name == solvent) {
      return mass;
    }
  }
  return 0.0;
}

Thinning with(std::string_view solvent, double share) {
  return {*relative_evaporation_of(solvent), share};
}

}  // namespace

TEST_CASE("Relative evaporation follows vapour pressure times molar mass", "[drying]") {
  // EVIDENCE: relative_evaporation_lists against poling2001: the rate of a free surface goes with
  // p M to within a factor of two (fast solvents cool themselves and fall behind).
  const Antoine reference = *antoine_of("n-butyl acetate");
  const Temperature warm = Temperature::from_celsius(25.0);
  for (const RelativeEvaporation& one : relative_evaporations()) {
    INFO(one.solvent);
    const auto antoine = antoine_of(one.solvent);
    REQUIRE(antoine);
    const double expected = vapour_pressure_of(*antoine, warm).pascal() * molar_mass(one.solvent) /
                            (vapour_pressure_of(reference, warm).pascal() * 116.16);
    CHECK(one.rate / expected > 0.5);
    CHECK(one.rate / expected < 2.0);
  }
}

TEST_CASE("A retarder slows, a fast thinner hastens, the solvent itself does nothing", "[drying]") {
  // EVIDENCE: relative_evaporation_lists; worked by hand: 0.95 + 0.05 / 0.075, 0.9 + 0.1 / 5.6
  CHECK(with("2-butoxyethanol", 0.05).factor_for("n-butyl acetate") == Approx(1.6167).margin(1e-4));
  CHECK(with("acetone", 0.10).factor_for("n-butyl acetate") == Approx(0.9179).margin(1e-4));
  CHECK(with("n-butyl acetate", 0.5).factor_for("n-butyl acetate") == Approx(1.0));
  CHECK(with("acetone", 0.2).factor_for("no such solvent") == 1.0);
}

TEST_CASE("Only the phases that wait for a solvent are moved", "[drying]") {
  const DurationRange range(Hours::from_hours(1), Hours::from_hours(2));
  StageTiming timing;
  timing.phases.push_back(
      {rate_law_of(Mechanism::kEvaporation, antoine_of("n-butyl acetate")), range, 1.0});
  timing.phases.push_back({rate_law_of(Mechanism::kOxidation), range, 0.0});
  const StageTiming slow = with("2-butoxyethanol", 0.05).applied_to(timing);
  CHECK(slow.phases[0].duration.high().hours() == Approx(3.2333).margin(1e-3));
  CHECK(slow.phases[1].duration == range);
}
