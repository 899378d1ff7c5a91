#include "recipe/substance.h"

#include <algorithm>

namespace coatwright {

std::string_view name_of(Averaging averaging) {
  switch (averaging) {
    case Averaging::kShift:
      return "shift";
    case Averaging::kShortTerm:
      return "short-term";
    case Averaging::kCeiling:
      break;
  }
  return "ceiling";
}

const Known<VapourFraction>* Substance::lowest_explosive_limit() const {
  const auto lowest =
      std::min_element(lower_explosive_limits.begin(),
                       lower_explosive_limits.end(),
                       [](const auto& a, const auto& b) { return a.value < b.value; });
  return lowest == lower_explosive_limits.end() ? nullptr : &*lowest;
}

const ExposureLimit* Substance::strictest_limit() const {
  const auto stricter = [](const ExposureLimit& a, const ExposureLimit& b) {
    return a.at_most.value != b.at_most.value
               ? a.at_most.value < b.at_most.value
               : a.averaging == Averaging::kShift && b.averaging != Averaging::kShift;
  };
  const auto strictest = std::min_element(limits.begin(), limits.end(), stricter);
  return strictest == limits.end() ? nullptr : &*strictest;
}

double Vapour::voc_g_per_l() const {
  double grams = 0.0;
  for (const SolventShare& one : solvents) {
    if (one.substance != nullptr && one.substance->organic && one.substance->density) {
      grams += volatile_share * one.share * one.substance->density->value.g_per_l();
    }
  }
  return grams;
}

}  // namespace coatwright
