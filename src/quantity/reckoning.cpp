#include "quantity/reckoning.h"

#include <fmt/format.h>

#include "base/quantity_text.h"

namespace coatwright {
namespace {

// 1 m2/L in square feet per US gallon: 3.785411784 / 0.09290304.
constexpr double kSquareFeetPerGallon = 40.745833;

using Units = std::optional<UnitSystem>;

/// In the units asked for, or in both.
std::string in_units(const std::string& metric, const std::string& us, Units units) {
  if (!units) {
    return fmt::format("{} ({})", metric, us);
  }
  return *units == UnitSystem::kUs ? us : metric;
}

std::string area_text(Area area, Units units) {
  return in_units(show_area(area, UnitSystem::kMetric),
                  fmt::format("{:.{}f} sq ft", area.square_feet(), units ? 1 : 0),
                  units);
}

std::string film_text(FilmThickness film, Units units) {
  return in_units(
      fmt::format("{:.0f} um", film.micrometres()), fmt::format("{:.1f} mil", film.mils()), units);
}

std::string spread_text(double m2_per_l, Units units) {
  return in_units(fmt::format("{:.1f} m2/L", m2_per_l),
                  fmt::format("{:.0f} sq ft/gal", m2_per_l * kSquareFeetPerGallon),
                  units);
}

}  // namespace

std::string reckoning_of(const CoatGroup& group, Units units) {
  const CoverRate& rate = group.rate;
  std::string text = fmt::format("{} {} on {}",
                                 group.coats,
                                 group.coats == 1 ? "coat" : "coats",
                                 area_text(group.area, units));
  text += rate.film ? fmt::format(", {} wet", film_text(*rate.film, units))
                    : fmt::format(" at {}, the low end of its spreading rate",
                                  spread_text(rate.spread_m2_per_l, units));
  if (rate.on_the_wood) {
    text += fmt::format(", {:.0f} % of {} on the wood with {}",
                        *rate.on_the_wood * 100.0,
                        rate.film ? "it" : "what is used",
                        group.tool->title);
  }
  return text;
}

std::string reckoning_of(const ProductAmount& amount, Units units) {
  std::string text;
  for (const CoatGroup& group : amount.groups) {
    text += (text.empty() ? "" : "; ") + reckoning_of(group, units);
  }
  return text + fmt::format("; {:.0f} % more for waste", amount.waste_percent);
}

}  // namespace coatwright
