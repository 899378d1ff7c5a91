#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "drying/range.h"
#include "recipe/product.h"
#include "recipe/schedule.h"

namespace coatwright {

/// What the compatibility table says of one layer over another.
enum class PairVerdict { kOk, kWithinWindow, kAbradeFirst, kBarrierFirst, kFullCureFirst, kNever };

/// "ok", "within window", "abrade first", "barrier first", "full cure first", "never".
[[nodiscard]] std::string_view name_of(PairVerdict verdict);

/// What one product over another needs, from recipes/compatibility/.
struct PairRule {
  std::string under;  ///< The layer's name.
  std::string over;
  PairVerdict verdict = PairVerdict::kOk;
  std::vector<RecoatInterval> intervals;  ///< Their laws are those of the product under.
  std::vector<std::string> barriers;      ///< Layers that would make it work in between.
  std::string reason;
  std::string source;
  std::string how;      ///< How it is known: "read", "common practice", "from memory".
  std::string dissent;  ///< Where sources differ; the stricter one is used.
};

enum class Pores { kRing, kSemiRing, kDiffuse, kSoftwood };

/// A wood, from recipes/species.toml.
struct Species {
  std::string name;   ///< "red-oak"
  std::string title;  ///< "Northern red oak"
  Pores pores = Pores::kDiffuse;
  double density_kg_per_m3 = 0;
  bool blotches = false;
  bool oily = false;
  bool tannin = false;
  bool fills = false;  ///< Its pores are filled where a film is to lie level.
  /// Of the green size, from green to oven-dry; above 0.
  double radial_shrinkage_percent = 0;
  double tangential_shrinkage_percent = 0;
  std::string source;
  std::string shrinkage_source;
};

/// Whether a wood has a trait. Open-pored: ring-porous, semi-ring-porous, or diffuse-porous with
/// pores large enough to be filled; close-pored: any other wood that has pores.
[[nodiscard]] bool has_trait(const Species& species, WoodTrait trait);

/// How long an operation takes, from recipes/working_times.toml: minutes fixed and per square
/// metre, as 10th and 90th percentile.
struct WorkingTime {
  double fixed_minutes = 0;
  double low_minutes_per_m2 = 0;
  double high_minutes_per_m2 = 0;
  std::string source;

  /// @param area may be zero; @param probability above 0 and below 1. @return hours of work.
  [[nodiscard]] Hours duration(Area area, double probability) const;
};

using WorkingTimes = std::map<std::string, WorkingTime, std::less<>>;

}  // namespace coatwright
