#pragma once

#include <string>
#include <vector>

#include <nlohmann/json_fwd.hpp>

#include "recipe/paced_product.h"

/// How a shop's own pace stands to what is labelled.
namespace coatwright {

/// One stage of a product at the shop's pace.
struct PacedStage {
  Stage stage = Stage::kRecoat;
  DurationRange labelled;
  DurationRange own;
  double factor = 1;       ///< Times longer than the middle of the label's range: the median,
  double factor_low = 1;   ///< 5th percentile
  double factor_high = 1;  ///< and 95th of what is believed.
  int coats = 0;           ///< Whose touch tests it rests on.
};

/// The stages of which something was learned; none: nothing was.
[[nodiscard]] std::vector<PacedStage> paced_stages(const Product& labelled,
                                                   const LearnedPaces& learned);

/// A table under a heading; empty where there is nothing.
[[nodiscard]] std::string shop_pace_as_text(const std::vector<PacedStage>& stages);
[[nodiscard]] nlohmann::ordered_json shop_pace_as_json(const std::vector<PacedStage>& stages);

/// "recoat 1.46 times as labelled (90 %: 1.13 to 1.88), by touch tests of 3 coats".
[[nodiscard]] std::string factor_words(const PacedStage& stage);

/// What a plan says of it: by which mechanisms this shop's own pace is used.
[[nodiscard]] std::string learned_words(const LearnedPaces& learned);

}  // namespace coatwright
