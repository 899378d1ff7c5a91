#include "recipe/tables.h"

namespace coatwright {

std::string_view name_of(PairVerdict verdict) {
  switch (verdict) {
    case PairVerdict::kOk:
      return "ok";
    case PairVerdict::kWithinWindow:
      return "within window";
    case PairVerdict::kAbradeFirst:
      return "abrade first";
    case PairVerdict::kBarrierFirst:
      return "barrier first";
    case PairVerdict::kFullCureFirst:
      return "full cure first";
    case PairVerdict::kNever:
      return "never";
  }
  return "";
}

bool has_trait(const Species& species, WoodTrait trait) {
  const bool softwood = species.pores == Pores::kSoftwood;
  const bool open = !softwood && (species.pores != Pores::kDiffuse || species.fills);
  switch (trait) {
    case WoodTrait::kOpenPored:
      return open;
    case WoodTrait::kClosePored:
      return !open && !softwood;
    case WoodTrait::kBlotching:
      return species.blotches;
    case WoodTrait::kOily:
      return species.oily;
    case WoodTrait::kTannin:
      return species.tannin;
    case WoodTrait::kSoftwood:
      return softwood;
  }
  return false;
}

Hours WorkingTime::duration(Area area, double probability) const {
  const Hours fixed = Hours::from_minutes(fixed_minutes);
  if (low_minutes_per_m2 <= 0.0 || area.square_metres() <= 0.0) {
    return fixed;
  }
  const DurationRange per_square_metre = {Hours::from_minutes(low_minutes_per_m2),
                                          Hours::from_minutes(high_minutes_per_m2)};
  return fixed + per_square_metre.quantile(probability) * area.square_metres();
}

}  // namespace coatwright
