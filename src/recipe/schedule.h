#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/units.h"
#include "drying/thinning.h"
#include "recipe/product.h"

namespace coatwright {

/// What a step of a finishing schedule is.
enum class ScheduleStepKind { kSample, kSand, kRaiseGrain, kCoat, kAbrade };

struct ScheduleStep {
  ScheduleStepKind kind = ScheduleStepKind::kSand;
  std::vector<std::string> grits;         ///< kSand: in turn; kAbrade, kRaiseGrain: the one grit.
  std::string product;                    ///< kCoat
  Method method = Method::kBrush;         ///< kCoat
  int coats = 1;                          ///< kCoat
  std::optional<FilmThickness> wet_film;  ///< kCoat, when it differs from the product's.
  std::optional<Thinning> thinning;       ///< kCoat, with a thinner or retarder.
  std::string note;                       ///< Printed with the step.
};

/// The ordered steps of a finish, as read from recipes/schedules/NAME.toml.
struct Schedule {
  std::string name;
  std::string title;
  std::string summary;  ///< One sentence: look, use.
  std::string uses;     ///< "table tops, shelves, chairs"
  std::vector<std::string> tools;
  std::vector<ScheduleStep> steps;
};

}  // namespace coatwright
