#include "recipe/sanding_table.h"

#include <fmt/format.h>

#include "recipe/grits.h"

namespace coatwright {

std::string_view name_of(SurfaceLeft left) {
  switch (left) {
    case SurfaceLeft::kSawn:
      return "sawn";
    case SurfaceLeft::kPlaned:
      return "planed";
    case SurfaceLeft::kScraped:
      return "scraped";
    case SurfaceLeft::kSanded:
      return "sanded";
    case SurfaceLeft::kOldFinish:
      return "old-finish";
  }
  return "";
}

Result<WoodSurface> parse_wood_surface(std::string_view text) {
  for (const SurfaceLeft left :
       {SurfaceLeft::kSawn, SurfaceLeft::kPlaned, SurfaceLeft::kScraped, SurfaceLeft::kOldFinish}) {
    if (text == name_of(left)) {
      return WoodSurface{left, ""};
    }
  }
  for (const std::string_view grit : trade_grits()) {
    if (text == grit) {
      return WoodSurface{SurfaceLeft::kSanded, std::string(text)};
    }
  }
  return fail(ErrorCode::kUsage,
              fmt::format("'{}' is no surface; allowed: sawn, planed, scraped, old-finish, or the "
                          "grit it was sanded to: {}",
                          text,
                          fmt::join(trade_grits(), ", ")));
}

SandedWood sanded_wood(const Species& species) {
  switch (species.pores) {
    case Pores::kRing:
      return SandedWood::kRing;
    case Pores::kSemiRing:
      return SandedWood::kSemiRing;
    case Pores::kDiffuse:
      return species.blotches ? SandedWood::kDiffuseBlotching : SandedWood::kDiffuse;
    case Pores::kSoftwood:
      return SandedWood::kSoftwood;
  }
  return SandedWood::kDiffuse;
}

}  // namespace coatwright
