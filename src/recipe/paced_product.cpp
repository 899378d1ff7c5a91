#include "recipe/paced_product.h"

#include <algorithm>

namespace coatwright {
namespace {

/// On which side of the label a learned range must stay.
enum class Bound {
  kFree,
  kNotBelowLeast,  ///< No figure of it below the low end of the label's range.
  kNotBelow,       ///< Each end not below the label's.
  kNotAbove        ///< Each end not above the label's.
};

DurationRange bounded(const DurationRange& learned, const DurationRange& labelled, Bound bound) {
  const double share = learned.shop_share();
  switch (bound) {
    case Bound::kNotBelowLeast:
      return {
          std::max(learned.low(), labelled.low()), std::max(learned.high(), labelled.low()), share};
    case Bound::kNotBelow:
      return {std::max(learned.low(), labelled.low()),
              std::max(learned.high(), labelled.high()),
              share};
    case Bound::kNotAbove:
      return {std::min(learned.low(), labelled.low()),
              std::min(learned.high(), labelled.high()),
              share};
    case Bound::kFree:
      break;
  }
  return learned;
}

StageTiming paced(const StageTiming& labelled,
                  const std::string& product,
                  const ShopPaces& paces,
                  Bound bound) {
  if (labelled.phases.empty()) {
    return labelled;
  }
  const ShopPace* pace = paces.of(pacing_mechanism(labelled), product);
  if (pace == nullptr) {
    return labelled;
  }
  StageTiming timing = labelled;
  for (Phase& phase : timing.phases) {
    phase.labelled = phase.duration;
    phase.duration = bounded(paced(phase.duration, *pace), *phase.labelled, bound);
  }
  return timing;
}

Bound bound_of(Stage stage, const LearnedPaces& learned) {
  switch (stage) {
    case Stage::kRecoat:
      return learned.recoat_below_label ? Bound::kFree : Bound::kNotBelowLeast;
    case Stage::kLightUse:
    case Stage::kFullCure:
      return Bound::kNotBelow;
    default:
      return Bound::kFree;
  }
}

void label(StageTiming& timing) {
  for (Phase& phase : timing.phases) {
    phase.duration = phase.labelled.value_or(phase.duration);
    phase.labelled.reset();
  }
}

}  // namespace

LearnedPaces LearnedPaces::for_coat(std::int64_t number) const {
  const auto own = of_coats.find(number);
  LearnedPaces learned{paces, recoat_below_label, {}};
  if (own != of_coats.end()) {
    learned.paces.overrule(own->second);
  }
  return learned;
}

Product paced(const Product& labelled, const LearnedPaces& learned) {
  Product product = labelled;
  if (learned.paces.empty()) {
    return product;
  }
  product.paced_by =
      std::make_shared<LearnedPaces>(LearnedPaces{learned.paces, learned.recoat_below_label, {}});
  for (auto& [stage, drying] : product.stages) {
    drying.timing = paced(drying.timing, product.name, learned.paces, bound_of(stage, learned));
  }
  for (RecoatInterval& interval : product.recoat) {
    interval = paced(interval, product.name, learned);
  }
  return product;
}

RecoatInterval paced(const RecoatInterval& labelled,
                     const std::string& product,
                     const LearnedPaces& learned) {
  // A stretch in which nothing may go on becomes no shorter at either end.
  const bool never = labelled.condition == RecoatCondition::kNever;
  RecoatInterval interval = labelled;
  interval.opens = paced(labelled.opens,
                         product,
                         learned.paces,
                         never ? Bound::kNotAbove : bound_of(Stage::kRecoat, learned));
  if (labelled.closes) {
    interval.closes = paced(
        *labelled.closes, product, learned.paces, never ? Bound::kNotBelow : Bound::kNotAbove);
  }
  return interval;
}

Product as_labelled(const Product& product) {
  Product labelled = product;
  labelled.paced_by = nullptr;
  for (auto& [stage, drying] : labelled.stages) {
    label(drying.timing);
  }
  for (RecoatInterval& interval : labelled.recoat) {
    label(interval.opens);
    if (interval.closes) {
      label(*interval.closes);
    }
  }
  return labelled;
}

}  // namespace coatwright
