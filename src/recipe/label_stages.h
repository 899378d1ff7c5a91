#pragma once

#include <map>
#include <optional>
#include <vector>

#include "base/quantity_text.h"
#include "base/range_text.h"
#include "recipe/product.h"

/// The stages of a product once a label has set some of them.
namespace coatwright {

/// A stage in the order of the file, and the one whose phases it begins with.
struct StageLink {
  Stage stage;
  std::optional<Stage> after;
};

enum class FigureOrigin {
  kClass,   ///< As the class has it.
  kLabel,   ///< The label's.
  kScaled,  ///< Moved with the label's figures, so that the stages stay in order.
};

struct LabelledStage {
  DurationRange whole;   ///< At the reference, from application.
  DurationRange before;  ///< Of it what the stage's earlier phases take; 0 where there is none.
  FigureOrigin origin = FigureOrigin::kClass;
};

/// Brings a label's hours to the reference: the earlier phases run in the label's air as they are,
/// and the last takes what is left of the label's hours, at its own rate there. Where a label is
/// shorter than the earlier phases, or narrower, these are shortened, or their low end raised.
/// @param given hours in `air`, each of a stage that the product has.
/// Source: judgement for what is moved; the hours by the laws of the drying clock.
[[nodiscard]] std::map<Stage, LabelledStage> stages_by_label(
    const Product& product,
    const std::vector<StageLink>& links,
    const std::map<Stage, HoursRange>& given,
    const TemperatureAndHumidity& air);

}  // namespace coatwright
