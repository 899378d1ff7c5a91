#include "plan/plan.h"

#include <array>

namespace coatwright {

std::string_view name_of(StepKind kind) {
  // In the order of the enumeration.
  static constexpr std::array<std::string_view, 24> kNames = {
      "sample",   "sand",     "clean",   "raise_grain", "wash",    "fill",   "mask",    "mix",
      "apply",    "wipe",     "rags",    "abrade",      "flip",    "unmask", "glue",    "dry_fit",
      "assemble", "hardware", "rub_out", "clean_gun",   "fan_off", "wait",   "inspect", "deliver"};
  return kNames[static_cast<std::size_t>(kind)];
}

}  // namespace coatwright
