#include "recipe/application.h"

#include <algorithm>
#include <iterator>

namespace coatwright {

Volume CanSize::volume() const {
  constexpr double kMillilitresPerLitre = 1000.0;
  constexpr double kFluidOuncesPerQuart = 32.0;
  return units == UnitSystem::kMetric ? Volume::from_litres(amount / kMillilitresPerLitre)
                                      : Volume::from_us_quarts(amount / kFluidOuncesPerQuart);
}

const Tool* Application::tool(std::string_view name) const {
  const auto found = std::find_if(
      tools.begin(), tools.end(), [name](const Tool& tool) { return tool.name == name; });
  return found == tools.end() ? nullptr : &*found;
}

const Tool& Application::usual_for(Method method) const {
  return *std::find_if(tools.begin(), tools.end(), [method](const Tool& tool) {
    return tool.method == method && tool.usual;
  });
}

std::vector<CanSize> Application::cans_in(UnitSystem units) const {
  std::vector<CanSize> sizes;
  std::copy_if(cans.begin(), cans.end(), std::back_inserter(sizes), [units](const CanSize& can) {
    return can.units == units;
  });
  return sizes;
}

}  // namespace coatwright
