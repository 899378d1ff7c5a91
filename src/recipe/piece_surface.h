#pragma once

#include "recipe/product.h"
#include "recipe/sanding_table.h"
#include "recipe/tables.h"

namespace coatwright {

/// The layer of what stands for an old finish of unknown kind.
inline constexpr std::string_view kOldFinishLayer = "old-finish";

/// What a finishing schedule begins on.
struct PieceSurface {
  const Species* species = nullptr;  ///< Null: nothing is known of the wood.
  WoodSurface wood;                  ///< How it was left by what worked it last.
  const Product* over = nullptr;     ///< A finish that lies on it, long dry; null: bare wood.
};

}  // namespace coatwright
