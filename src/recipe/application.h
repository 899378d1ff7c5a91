#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/units.h"
#include "recipe/product.h"

/// How products are put on and bought, as read from recipes/application.toml.
namespace coatwright {

/// What puts a product on, and how much of what it gives off stays on the wood.
struct Tool {
  std::string name;   ///< "hvlp-gun"
  std::string title;  ///< "an HVLP gun"
  Method method = Method::kBrush;
  bool usual = false;                         ///< Taken for its method where none is named.
  PercentRange efficiency_range;              ///< What sources say.
  double efficiency_percent = 100;            ///< Reckoned with, above 0.
  std::optional<double> small_parts_percent;  ///< Of frames, spindles and other small parts.
  std::string source;
  std::string how;  ///< How it is known: "read", "judgement" ...
  std::string note;
};

/// What is left over in can, strainer, cup and tool, of what is used.
struct Waste {
  double percent = 0;
  std::string source;
  std::string how;
  std::string note;
};

/// A can as shops sell it.
struct CanSize {
  std::string name;  ///< "0.25 L", "half pint"
  UnitSystem units = UnitSystem::kMetric;
  int amount = 0;  ///< In millilitres or US fluid ounces, above 0.

  [[nodiscard]] Volume volume() const;
};

struct Application {
  std::vector<Tool> tools;  ///< One is usual for each method.
  Waste waste;
  std::vector<CanSize> cans;  ///< Some of each system of units.

  [[nodiscard]] const Tool* tool(std::string_view name) const;
  [[nodiscard]] const Tool& usual_for(Method method) const;
  [[nodiscard]] std::vector<CanSize> cans_in(UnitSystem units) const;
};

}  // namespace coatwright
