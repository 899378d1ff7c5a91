#include "plan/plan.h"

#include <algorithm>
#include <array>

namespace coatwright {
namespace {

// In the order of the enumeration.
constexpr std::array<std::string_view, 26> kNames = {
    "sample", "sand",    "clean",    "raise_grain", "wash",    "fill",      "mask",
    "mix",    "apply",   "wipe",     "rags",        "abrade",  "flip",      "unmask",
    "glue",   "dry_fit", "assemble", "hardware",    "rub_out", "clean_gun", "fan_off",
    "wait",   "inspect", "deliver",  "clean_booth", "reenter"};

}  // namespace

std::string_view name_of(StepKind kind) {
  return kNames[static_cast<std::size_t>(kind)];
}

std::optional<StepKind> step_kind_named(std::string_view name) {
  const auto found = std::find(kNames.begin(), kNames.end(), name);
  return found == kNames.end() ? std::nullopt
                               : std::optional(static_cast<StepKind>(found - kNames.begin()));
}

}  // namespace coatwright
