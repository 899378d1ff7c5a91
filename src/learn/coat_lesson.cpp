#include "learn/coat_lesson.h"

#include <algorithm>
#include <map>
#include <utility>

#include <fmt/format.h>

namespace coatwright {
namespace {

/// The stages of a product that a test tells of: the one tested or, where there is no such stage,
/// those that are surely reached with it, or surely not without it.
std::vector<Stage> stages_told(const TouchTest& test, const Product& product) {
  if (product.stages.contains(test.stage)) {
    return {test.stage};
  }
  std::vector<Stage> told;
  for (const auto& [stage, drying] : product.stages) {
    if (test.reached ? comes_before_or_with(stage, test.stage)
                     : comes_before_or_with(test.stage, stage)) {
      told.push_back(stage);
    }
  }
  return told;
}

bool has_spread(const StageTiming& timing) {
  return std::any_of(timing.phases.begin(), timing.phases.end(), [](const Phase& phase) {
    return phase.duration.low() < phase.duration.high();
  });
}

class LessonReader {
 public:
  LessonReader(const TouchedCoat& touched, DryingClocks& clocks)
      : touched_(touched), drying_(touched.coat.since_end(clocks)) {}

  CoatLesson read() {
    CoatLesson lesson;
    lesson.contradictions = touch_contradictions(touched_.tests);
    if (!lesson.contradictions.empty()) {
      lesson.left_aside = "its touch tests contradict each other";
      return lesson;
    }
    for (const TouchTest& test : touched_.tests) {
      add(test);
    }
    for (auto& [mechanism, interval] : intervals_) {
      if (interval.above > interval.at_most) {
        std::swap(interval.above, interval.at_most);
      }
      lesson.intervals.push_back(interval);
    }
    if (lesson.intervals.empty()) {
      lesson.left_aside = fmt::format("{} has no figure with a range for what was tested",
                                      touched_.coat.product->title);
    }
    return lesson;
  }

 private:
  void add(const TouchTest& test) {
    for (const Stage stage : stages_told(test, *touched_.coat.product)) {
      const auto timing = touched_.coat.timing(stage);
      if (!timing || !has_spread(*timing)) {
        continue;
      }
      const Mechanism mechanism = pacing_mechanism(*timing);
      CoatInterval& interval =
          intervals_
              .try_emplace(
                  mechanism,
                  CoatInterval{
                      touched_.coat.product->name, mechanism, -kWidestDeviate, kWidestDeviate})
              .first->second;
      const double deviate = drying_.opening_deviate(*timing, test.at);
      if (test.reached) {
        interval.at_most = std::min(interval.at_most, deviate);
      } else {
        interval.above = std::max(interval.above, deviate);
      }
    }
  }

  const TouchedCoat& touched_;
  CoatProgress drying_;
  std::map<Mechanism, CoatInterval> intervals_;
};

}  // namespace

CoatLesson lesson_of(const TouchedCoat& touched, DryingClocks& clocks) {
  return LessonReader(touched, clocks).read();
}

}  // namespace coatwright
