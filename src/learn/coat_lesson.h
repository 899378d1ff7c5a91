#pragma once

#include <string>
#include <vector>

#include "drying/touch_test.h"
#include "learn/shop_belief.h"
#include "plan/piece_state.h"

namespace coatwright {

/// A coat with the touch tests that were made of it, at one place.
struct TouchedCoat {
  LaidCoat coat;  ///< Its product as labelled.
  std::vector<TouchTest> tests;
};

/// What a coat teaches.
struct CoatLesson {
  std::vector<CoatInterval> intervals;  ///< At most one for each mechanism.
  std::vector<TouchContradiction> contradictions;
  std::string left_aside;  ///< Why it teaches nothing; empty where it does.
};

/// Reads the touches of one coat as one interval for each mechanism: of the stage that was tested,
/// or where its product has no such stage of those that are surely reached before it, or after it.
/// Two stages of one mechanism that disagree, though neither test contradicts the other, give the
/// stretch between them. Tests that contradict each other teach nothing: which is wrong is for the
/// maker to say. Source: judgement, no source.
/// @param clocks reach back to the coat.
[[nodiscard]] CoatLesson lesson_of(const TouchedCoat& touched, DryingClocks& clocks);

}  // namespace coatwright
