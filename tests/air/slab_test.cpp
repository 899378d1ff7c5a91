#include "air/slab.h"

#include <cmath>
#include <functional>
#include <vector>

#include <catch2/catch.hpp>

using namespace coatwright;

namespace {

constexpr Slab kTop{.thickness = Length::from_millimetres(40)};

/// Conduction in half the slab in small steps, told from the heat equation alone: cells of equal
/// size, the face gaining h (air - face) and the middle nothing.
class ConductingSlab {
 public:
  ConductingSlab(const Slab& slab, double celsius) : slab_(slab), cells_(kCells, celsius) {}

  void run(double seconds, const std::function<double(double)>& air) {
    const double size = slab_.thickness.metres() / 2 / kCells;
    const double heat = slab_.density_kg_per_m3 * slab_.specific_heat_j_per_kg_k * size;
    const double inner = slab_.conductivity_w_per_m_k / size;
    const double outer = 1 / (1 / slab_.transfer_w_per_m2_k + 0.5 / inner);
    const double step = 0.2 * heat / inner;
    for (const double end = now_ + seconds; now_ < end; now_ += step) {
      std::vector<double> next = cells_;
      for (int i = 0; i + 1 < kCells; ++i) {
        const double flow = inner * (cells_[i + 1] - cells_[i]) * step / heat;
        next[i] += flow;
        next[i + 1] -= flow;
      }
      next[0] += outer * (air(now_) - cells_[0]) * step / heat;
      cells_ = next;
      air_ = air(now_);
      face_share_ = outer / slab_.transfer_w_per_m2_k;
    }
  }

  /// The face itself, half a cell outside the first cell's middle.
  [[nodiscard]] double face() const { return air_ - face_share_ * (air_ - cells_[0]); }

 private:
  static constexpr int kCells = 40;
  Slab slab_;
  std::vector<double> cells_;
  double now_ = 0;
  double air_ = 0;
  double face_share_ = 1;
};

double seconds_of(std::chrono::seconds lag) {
  return static_cast<double>(lag.count());
}

}  // namespace

TEST_CASE("The first eigenvalue of a plane wall agrees with the textbook's table", "[air]") {
  // EVIDENCE: incropera2007 table 5.1, values from memory, printed to four decimals
  CHECK(first_eigenvalue(0.01) == Approx(0.0998).margin(5e-5));
  CHECK(first_eigenvalue(0.1) == Approx(0.3111).margin(6e-5));
  CHECK(first_eigenvalue(0.5) == Approx(0.6533).margin(6e-5));
  CHECK(first_eigenvalue(1.0) == Approx(0.8603).margin(5e-5));
  CHECK(first_eigenvalue(2.0) == Approx(1.0769).margin(5e-5));
  CHECK(first_eigenvalue(10.0) == Approx(1.4289).margin(5e-5));
}

TEST_CASE("Lag and Biot number follow from thickness and density", "[air]") {
  // EVIDENCE: definition: rho c (d/2)/h and h (d/2)/k
  CHECK(kTop.lag() == std::chrono::minutes(40));
  CHECK(kTop.biot_number() == Approx(8 * 0.020 / 0.15));
  const Slab dense{.thickness = Length::from_millimetres(40), .density_kg_per_m3 = 1200};
  CHECK(dense.lag() == std::chrono::minutes(80));
  CHECK_FALSE(kTop.is_lumped());
}

TEST_CASE("Denser wood conducts better, as the handbook's table has it", "[air]") {
  // EVIDENCE: wood_handbook2010 ch. 4 table 4-7, values from memory at 12 % moisture: gravity 0.65
  // (northern red oak) 0.18 W/(m K), 0.51 (Douglas-fir) 0.14
  const auto of = [](double density) {
    return wooden_slab(Length::from_millimetres(20), density).conductivity_w_per_m_k;
  };
  CHECK(of(0.65 * 1120) == Approx(0.18).margin(0.005));
  CHECK(of(0.51 * 1120) == Approx(0.14).margin(0.005));
  // Consistency check: the default is that of the default's density.
  CHECK(of(600) == Approx(kTop.conductivity_w_per_m_k).margin(0.005));
}

TEST_CASE("Only veneers are lumped by the usual criterion", "[air]") {
  // EVIDENCE: incropera2007 ch. 5: Bi < 0.1; with 8 W/(m2 K) and 0.15 W/(m K) that is 3.75 mm
  CHECK(Slab{.thickness = Length::from_millimetres(3.7)}.is_lumped());
  CHECK_FALSE(Slab{.thickness = Length::from_millimetres(3.8)}.is_lumped());
}

TEST_CASE("A thin slab's slowest lag is its lumped lag", "[air]") {
  // EVIDENCE: incropera2007 ch. 5: below a Biot number of 0.1 the two differ by a few percent
  const Slab veneer{.thickness = Length::from_millimetres(3)};
  CHECK(seconds_of(veneer.slowest_lag()) == Approx(seconds_of(veneer.lag())).epsilon(0.035));
  CHECK(kTop.slowest_lag() > kTop.lag() * 13 / 10);
}

TEST_CASE("A face of a slab carried in is never reckoned warmer than conduction makes it",
          "[air]") {
  // EVIDENCE: definition: the heat equation, solved here in small steps
  for (const double millimetres : {3.0, 20.0, 40.0, 80.0, 200.0}) {
    const Slab slab{.thickness = Length::from_millimetres(millimetres)};
    ConductingSlab conducting(slab, 5.0);
    const double tau = seconds_of(slab.slowest_lag());
    for (int part = 1; part <= 30; ++part) {
      CAPTURE(millimetres, part);
      conducting.run(tau / 10, [](double) { return 20.0; });
      const double reckoned = 20.0 - 15.0 * std::exp(-part / 10.0);
      CHECK(reckoned <= conducting.face() + 0.02);
    }
    // Nor much colder late: the face's share of the slowest mode is what is between.
    CHECK(conducting.face() - (20.0 - 15.0 * std::exp(-3.0)) < 0.75);
  }
}

TEST_CASE("The lumped lag promises a thick slab's last degrees too early", "[air]") {
  // EVIDENCE: definition: the heat equation, solved here in small steps. This is why a piece
  // carried in is reckoned with the slowest lag.
  ConductingSlab conducting(kTop, 5.0);
  conducting.run(2.5 * seconds_of(kTop.lag()), [](double) { return 20.0; });
  CHECK(20.0 - 15.0 * std::exp(-2.5) > conducting.face() + 0.4);
}

TEST_CASE("In air that warms steadily the face lags by the lumped lag at any thickness", "[air]") {
  // EVIDENCE: definition: the heat equation, solved here in small steps: the flow h (air - face) is
  // what warms the slab, rho c (d/2) times the slope. So kBoardLag serves the shop's slow air.
  ConductingSlab conducting(kTop, 5.0);
  constexpr double kSlope = 2.0 / 3600;  // K/s
  const double long_after = 10 * seconds_of(kTop.slowest_lag());
  conducting.run(long_after, [](double at) { return 5.0 + kSlope * at; });
  const double lagging = 5.0 + kSlope * (long_after - seconds_of(kTop.lag()));
  CHECK(conducting.face() == Approx(lagging).margin(0.02));
}
