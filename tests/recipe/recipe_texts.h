#pragma once

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

#include <catch2/catch.hpp>

#include "base/result.h"

/// Recipe texts that the tests of the readers bend, one line at a time.
namespace coatwright::test {

/// A product that is in order, of an invented class.
inline const std::string kProduct = R"(format = 1
name = "test-varnish"
title = "Test varnish"
kind = "clear-film"
carrier = "mineral spirits"
methods = ["brush", "pad"]
oxidises = true
raises_grain = false
abrade_grit = "P320"

[film]
reference_wet_um = 100
reference_source = "judgement"
spread_low_m2_per_l = 8
spread_high_m2_per_l = 12.5
spread_source = "judgement"

[[stage]]
name = "dust-free"
low_hours = 1
high_hours = 2
mechanism = "evaporation"
solvent = "n-decane"
film_exponent = 1
source = "judgement"

[[stage]]
name = "recoat"
after = "dust-free"
low_hours = 12
high_hours = 24
mechanism = "oxidation"
source = "judgement"
note = "overnight"

[[recoat]]
condition = "abrade"
reason = "does not bite into itself"
source = "judgement"
closes_low_hours = 48
closes_high_hours = 72

[limits]
temperature_min = { celsius = 13, source = "judgement" }
temperature_max = { celsius = 32, source = "judgement", note = "dries too fast" }
humidity_max = { percent = 75, source = "judgement" }
dew_point_spread_min = { kelvin = 3, source = "judgement" }

[hazards]
rags_self_heat = true
flammable = true
nitrocellulose = false
sprayed_mist = false
isocyanates = false
formaldehyde = false
catalysed = false
source = "judgement"
cautions = ["Spread rags flat to dry, outdoors."]
)";

/// A schedule that is in order.
inline const std::string kSchedule = R"(format = 1
name = "test-finish"
title = "Test finish"
summary = "A finish for tests."
look = "clear film"
suits = ["shelf"]
uses = "nothing"
sheen = "satin"
skill = "practised"
tools = ["brush"]

[[step]]
kind = "sample"
note = "On an off-cut."

[[step]]
kind = "sand"
grits = ["P120", "P180"]

[[step]]
kind = "coat"
product = "test-varnish"
method = "brush"
coats = 2
wet_film_um = 75

[[step]]
kind = "abrade"
grits = ["P320"]

[[step]]
kind="coat"
product="test-varnish"
method="brush"
)";

/// @return the text with one passage, which must be in it once, replaced.
inline std::string with(std::string text, std::string_view passage, std::string_view other) {
  const std::size_t at = text.find(passage);
  REQUIRE(at != std::string::npos);
  REQUIRE(text.find(passage, at + 1) == std::string::npos);
  return text.replace(at, passage.size(), other);
}

/// The line on which a passage begins, as an error shows it.
/// @param from where in the text to look for it.
inline std::string line_of(const std::string& text,
                           std::string_view passage,
                           std::size_t from = 0) {
  const std::size_t at = text.find(passage, from);
  REQUIRE(at != std::string::npos);
  const auto end = text.begin() + static_cast<std::ptrdiff_t>(at);
  return "line " + std::to_string(std::count(text.begin(), end, '\n') + 1) + ":";
}

/// Checks that a reading failed as an input file that is wrong, with all of the parts in its text.
template <class T>
void check_refused(const Result<T>& result, const std::vector<std::string>& parts) {
  REQUIRE_FALSE(result.has_value());
  CHECK(result.error().code == ErrorCode::kInputFile);
  for (const std::string& part : parts) {
    CHECK_THAT(result.error().text(), Catch::Contains(part));
  }
}

}  // namespace coatwright::test
