#pragma once

#include <string>
#include <utility>
#include <vector>

#include <catch2/catch.hpp>

#include "quantity/quantity.h"
#include "recipe/product_reader.h"

/// Products and coats of an invented shop.
namespace sample {

using namespace coatwright;

/// A product file that is in order. @param film the keys of [film] beyond the spreading rate.
/// @param more further tables.
inline std::string product_text(const std::string& name,
                                const std::string& film = "",
                                const std::string& more = "") {
  return "format = 1\nname = \"" + name + "\"\ntitle = \"" + name + R"("
kind = "clear-film"
carrier = "mineral spirits"
methods = ["wipe", "brush", "pad", "spray"]
oxidises = false
raises_grain = false
[film]
spread_low_m2_per_l = 8
spread_high_m2_per_l = 12
spread_source = "judgement"
)" + film +
         R"(
[[stage]]
name = "dust-free"
low_hours = 1
high_hours = 2
mechanism = "elapsed"
source = "judgement"
[[stage]]
name = "recoat"
low_hours = 4
high_hours = 8
mechanism = "elapsed"
source = "judgement"
[[recoat]]
condition = "none"
reason = "bites"
source = "judgement"
[limits]
[hazards]
rags_self_heat = false
flammable = true
nitrocellulose = false
sprayed_mist = true
isocyanates = false
formaldehyde = false
catalysed = true
source = "judgement"
)" + more;
}

inline Product product(const std::string& name,
                       const std::string& film = "",
                       const std::string& more = "") {
  auto read = parse_product(product_text(name, film, more), name + ".toml");
  INFO((read ? std::string() : read.error().text()));
  REQUIRE(read);
  return *std::move(read);
}

inline const std::string kFilm = R"(reference_wet_um = 100
reference_source = "judgement"
solids_low_percent = 30
solids_high_percent = 40
solids_source = "judgement"
total_dry_max_um = 100
total_dry_source = "judgement"
)";

/// Four parts of base to one of hardener; lives 2 h at 23 C, and stands a quarter of an hour.
inline const std::string kMix = R"(
[mix]
by = "volume"
parts_source = "judgement"
pot_life_low_hours = 2
pot_life_high_hours = 4
mechanism = "two-part"
activation_kj_per_mol = 55
pot_life_source = "judgement"
induction_minutes = 15
induction_source = "judgement"
[[mix.part]]
name = "base"
parts = 4
[[mix.part]]
name = "hardener"
parts = 1
)";

inline Tool tool(Method method, double percent) {
  Tool tool;
  tool.name = "a-tool";
  tool.title = "a tool";
  tool.method = method;
  tool.efficiency_percent = percent;
  return tool;
}

inline Application application(double waste_percent = 0.0) {
  Application application;
  application.waste.percent = waste_percent;
  return application;
}

inline CoatUse coat(const Product& product, const Tool& tool, double square_metres) {
  CoatUse use;
  use.piece = "table";
  use.product = &product;
  use.tool = &tool;
  use.area = Area::from_square_metres(square_metres);
  use.sessions = {{use.area, Hours::from_minutes(10)}};
  return use;
}

inline BatchAir air(double celsius = 23.0) {
  return {Temperature::from_celsius(celsius), RelativeHumidity::from_percent(50.0)};
}

inline double square_feet_per_gallon(double m2_per_l) {
  return Area::from_square_metres(m2_per_l).square_feet() * Volume::from_us_quarts(4).litres();
}

}  // namespace sample
