#include "recipe/own_pairs.h"

#include <algorithm>

namespace coatwright {
namespace {

/// The closing that the product's label gives for itself.
std::optional<DurationRange> closing_of_label(const Product& product) {
  for (const RecoatInterval& interval : product.recoat) {
    if (interval.condition == RecoatCondition::kNone && interval.source == "label" &&
        interval.closes) {
      return interval.closes->whole();
    }
  }
  return std::nullopt;
}

/// Whether the recoat stage's last phase has hours of its own within an opening.
bool leaves_a_last_phase(const Product& under, const DurationRange& opens) {
  StageTiming before = under.stages.at(Stage::kRecoat).timing;
  before.phases.pop_back();
  return rest_after(before, opens).has_value();
}

IntervalHours fitted(IntervalHours interval, const Product& under, const RecoatChange& change) {
  if (interval.condition == RecoatCondition::kNever) {
    if (interval.opens) {
      interval.opens = interval.opens->scaled(std::min(1.0, change.factor()));
    }
    if (interval.closes) {
      interval.closes = interval.closes->scaled(std::max(1.0, change.factor()));
    }
    return interval;
  }
  if (interval.opens) {
    interval.opens = change.opening(*interval.opens);
    if (!leaves_a_last_phase(under, *interval.opens)) {
      interval.opens.reset();  // opens with the recoat stage
    }
  }
  const auto label = closing_of_label(under);
  if (interval.closes && label && interval.condition == RecoatCondition::kNone) {
    interval.closes = DurationRange(std::min(interval.closes->low(), label->low()),
                                    std::min(interval.closes->high(), label->high()));
  }
  return interval;
}

bool closes_before_opening(const IntervalHours& interval, const RecoatChange& change) {
  const DurationRange opens = interval.opens.value_or(change.own);
  return interval.condition != RecoatCondition::kNever && interval.closes && !interval.opens_with &&
         (interval.closes->low() < opens.low() || interval.closes->high() < opens.high());
}

}  // namespace

std::vector<IntervalHours> fitted_intervals(const std::vector<IntervalHours>& of_class,
                                            const Product& under,
                                            const RecoatChange& change) {
  std::vector<IntervalHours> all;
  for (const IntervalHours& interval : of_class) {
    all.push_back(fitted(interval, under, change));
  }
  std::vector<IntervalHours> kept;
  std::copy_if(all.begin(), all.end(), std::back_inserter(kept), [&](const IntervalHours& each) {
    return !closes_before_opening(each, change);
  });
  return kept.empty() ? all : kept;
}

}  // namespace coatwright
