#pragma once

#include <optional>
#include <string>

#include "recipe/label_figures.h"
#include "recipe/label_stages.h"
#include "recipe/toml_document.h"

/// A product's recoat intervals once a label has set its recoat time.
namespace coatwright {

/// @return hours after which a window of the label's is closed in any air: those of the label, or
/// where its air is colder than the reference those that a coat needs to come as far there. Source:
/// judgement; the earlier of clock and label, as for every closing.
[[nodiscard]] HoursRange closing_by_label(const HoursRange& label,
                                          const RateLaw& law,
                                          const TemperatureAndHumidity& air);

/// How an own product's recoat stage differs from its class's.
struct RecoatChange {
  DurationRange in_class;
  DurationRange own;

  [[nodiscard]] double factor() const { return own.high().hours() / in_class.high().hours(); }
  /// By the middles of the ranges, for closings: a single figure of a label says nothing of the
  /// spread, and a window must not vanish by it.
  [[nodiscard]] double middle_factor() const;
  /// An opening of the class's, longer or shorter by the factor; one that was not before the
  /// class's recoat stage is not before the own one either. Source: judgement.
  [[nodiscard]] DurationRange opening(const DurationRange& of_class) const;
};

/// Changes the [[recoat]] intervals of a product's file.
/// @param change nothing when the recoat stage is as in the class.
/// @param before what the earlier phases of the recoat stage take.
/// @param closes the label's closing, at the reference.
/// Errors: kUsage when the closing stands before the opening.
[[nodiscard]] Result<void> set_recoat_intervals(TomlKeys& document,
                                                const std::optional<RecoatChange>& change,
                                                const DurationRange& before,
                                                const std::optional<HoursRange>& closes);

}  // namespace coatwright
