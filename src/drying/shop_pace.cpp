#include "drying/shop_pace.h"

#include <cmath>

namespace coatwright {

DurationRange paced(const DurationRange& labelled, const ShopPace& pace) {
  return {labelled.at_deviate(pace.coat_low), labelled.at_deviate(pace.coat_high), pace.shop_share};
}

double shop_factor(const DurationRange& labelled, double shop_deviate) {
  return std::exp(labelled.log_spread() * std::sqrt(labelled.shop_share()) * shop_deviate);
}

Mechanism pacing_mechanism(const StageTiming& timing) {
  return timing.phases.back().law.mechanism;
}

const ShopPace* ShopPaces::of(Mechanism mechanism, const std::string& product) const {
  auto found = paces_.find({mechanism, product});
  if (found == paces_.end()) {
    found = paces_.find({mechanism, ""});
  }
  return found == paces_.end() ? nullptr : &found->second;
}

void ShopPaces::overrule(const ShopPaces& others) {
  for (const auto& [key, pace] : others.paces_) {
    paces_[key] = pace;
  }
}

std::map<Mechanism, int> ShopPaces::coats() const {
  std::map<Mechanism, int> coats;
  for (const auto& [key, pace] : paces_) {
    coats[key.first] = pace.coats;
  }
  return coats;
}

}  // namespace coatwright
