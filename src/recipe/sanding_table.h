#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "drying/range.h"
#include "recipe/schedule.h"
#include "recipe/tables.h"

/// What a wood is sanded to, from recipes/sanding.toml.
namespace coatwright {

/// How the wood was left by what worked it last.
enum class SurfaceLeft { kSawn, kPlaned, kScraped, kSanded, kOldFinish };

/// "sawn", "planed", "scraped", "sanded", "old-finish".
[[nodiscard]] std::string_view name_of(SurfaceLeft left);

/// The surface that a finishing schedule begins with.
struct WoodSurface {
  SurfaceLeft left = SurfaceLeft::kPlaned;
  std::string grit;  ///< kSanded: the last grit.
};

/// @param text "sawn", "planed", "scraped", "old-finish", or the grit it was sanded to, "P120".
/// Errors: kUsage for another text.
[[nodiscard]] Result<WoodSurface> parse_wood_surface(std::string_view text);

/// The woods that the table tells apart when it says what to sand to.
enum class SandedWood { kRing, kSemiRing, kDiffuse, kDiffuseBlotching, kSoftwood };

[[nodiscard]] SandedWood sanded_wood(const Species& species);

/// Where a figure of the table comes from, and why it is so.
struct SandingGround {
  std::string reason;  ///< Half a sentence.
  std::string source;
  std::string how;  ///< How it is known.
};

/// Of three grits the typical one is chosen.
struct GritLimits {
  std::string coarsest;
  std::string typical;
  std::string finest;
};

struct FinalGrit {
  std::map<SandedWood, GritLimits> limits;  ///< All five.
  SandingGround ground;
};

struct GritChoice {
  GritLimits limits;
  SandingGround ground;
};

struct RubOut {
  std::vector<std::string> grits;
  std::string then;  ///< With what it goes on after the last grit; half a sentence.
  SandingGround ground;
};

struct RubOutWait {
  DurationRange waits;  ///< From the last coat.
  SandingGround ground;
};

/// All of the table.
struct SandingTable {
  std::map<std::string, FinalGrit, std::less<>> final_grits;  ///< By the first layer.
  std::map<SurfaceLeft, GritChoice> start_grits;              ///< All but kSanded.
  std::optional<GritChoice> raised_hardwood;  ///< Raised grain is cut back with it; always there.
  std::optional<GritChoice> raised_softwood;  ///< The same.
  std::map<Sheen, RubOut> rub_outs;           ///< All four.
  std::map<std::string, RubOutWait, std::less<>> rub_out_waits;  ///< By the last layer.
};

}  // namespace coatwright
