#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/units.h"
#include "drying/thinning.h"
#include "recipe/product.h"

namespace coatwright {

/// What a step of a finishing schedule is.
enum class ScheduleStepKind {
  kSample,
  kSand,
  kRaiseGrain,
  kWash,  ///< An oily wood is wiped with solvent just before its first coat.
  kCoat,
  kAbrade,
  kRubOut,
};

/// "sample", "raise-grain" ...
[[nodiscard]] std::string_view name_of(ScheduleStepKind kind);

/// A property of a wood that makes a step needed.
enum class WoodTrait { kOpenPored, kClosePored, kBlotching, kOily, kTannin, kSoftwood };

[[nodiscard]] std::string_view name_of(WoodTrait trait);

enum class Sheen { kMatt, kSatin, kSemiGloss, kGloss };

[[nodiscard]] std::string_view name_of(Sheen sheen);

enum class Skill { kBeginner, kPractised, kExpert };

[[nodiscard]] std::string_view name_of(Skill skill);

struct ScheduleStep {
  ScheduleStepKind kind = ScheduleStepKind::kSand;
  /// kSand, kRubOut: in turn; kAbrade, kRaiseGrain: the one grit. Empty: chosen for wood and
  /// product when the schedule is adapted; for kAbrade the product's own.
  std::vector<std::string> grits;
  std::string product;                    ///< kCoat
  Method method = Method::kBrush;         ///< kCoat
  int coats = 1;                          ///< kCoat
  std::optional<FilmThickness> wet_film;  ///< kCoat, when it differs from the product's.
  std::optional<Thinning> thinning;       ///< kCoat, with a thinner or retarder.
  std::vector<WoodTrait> woods;           ///< Only for a wood with any of these; empty: for all.
  /// kRubOut: from the last coat, in the law of its "recoat" stage; empty: from the sanding table.
  std::optional<DurationRange> waits;
  std::string source;  ///< Of what was chosen for the wood; empty: the schedule's own.
  std::string note;    ///< Printed with the step.
};

/// The ordered steps of a finish, as read from recipes/schedules/NAME.toml.
struct Schedule {
  std::string name;
  std::string title;
  std::string summary;  ///< One sentence: look, use.
  std::string look;     ///< "clear film", "stained clear film", "oiled": finishes to swap among.
  std::vector<std::string> suits;  ///< "table-top", "shelf", "chair" ...
  std::string uses;                ///< The same in words, with what it is not for.
  Sheen sheen = Sheen::kSatin;
  Skill skill = Skill::kPractised;
  bool filled = false;  ///< The pores are filled level, where the wood has any to fill.
  std::vector<std::string> tools;
  std::vector<ScheduleStep> steps;
};

}  // namespace coatwright
