#include "recipe/substance.h"

#include <algorithm>

namespace coatwright {

const Known<VapourFraction>* Substance::lowest_explosive_limit() const {
  const auto lowest =
      std::min_element(lower_explosive_limits.begin(),
                       lower_explosive_limits.end(),
                       [](const auto& a, const auto& b) { return a.value < b.value; });
  return lowest == lower_explosive_limits.end() ? nullptr : &*lowest;
}

const ExposureLimit* Substance::strictest_limit() const {
  const auto stricter = [](const ExposureLimit& a, const ExposureLimit& b) {
    const bool a_shift = a.averaging == Averaging::kShift;
    const bool b_shift = b.averaging == Averaging::kShift;
    return a_shift != b_shift ? a_shift : a.at_most.value < b.at_most.value;
  };
  const auto strictest = std::min_element(limits.begin(), limits.end(), stricter);
  return strictest == limits.end() ? nullptr : &*strictest;
}

double Vapour::voc_g_per_l() const {
  double grams = 0.0;
  for (const SolventShare& one : solvents) {
    if (one.substance->density) {
      grams += volatile_share * one.share * one.substance->density->value.g_per_l();
    }
  }
  return grams;
}

}  // namespace coatwright
