#include "air/wood_moisture.h"

#include <catch2/catch.hpp>

using namespace coatwright;

namespace {

double percent_at(Temperature temperature, double humidity_percent) {
  return 100.0 * equilibrium_moisture_content(temperature,
                                              RelativeHumidity::from_percent(humidity_percent));
}

}  // namespace

TEST_CASE("Wood moisture agrees with the makers' rule at room temperature", "[air]") {
  // EVIDENCE: common-practice, a trade magazine's figures, independent of the equation's
  // coefficients
  const auto room = Temperature::from_celsius(20);
  CHECK(percent_at(room, 30) == Approx(6).margin(0.5));
  CHECK(percent_at(room, 50) == Approx(9).margin(0.5));
  CHECK(percent_at(room, 65) == Approx(12).margin(0.5));
  CHECK(percent_at(room, 80) == Approx(16).margin(0.5));
}

TEST_CASE("Bone-dry air dries wood to nothing, damper air leaves it wetter", "[air]") {
  // EVIDENCE: wood_handbook2010 ch. 4: moisture rises with humidity and falls with temperature
  const auto room = Temperature::from_celsius(20);
  CHECK(percent_at(room, 0) == 0.0);
  for (double humidity = 5; humidity <= 100; humidity += 5) {
    CAPTURE(humidity);
    CHECK(percent_at(room, humidity) > percent_at(room, humidity - 5));
    CHECK(percent_at(room, humidity) > percent_at(Temperature::from_celsius(45), humidity));
  }
}
