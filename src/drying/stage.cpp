#include "drying/stage.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <utility>

namespace coatwright {
namespace {

constexpr std::array<std::pair<Stage, std::string_view>, 11> kNames = {{
    {Stage::kSetToTouch, "set-to-touch"},
    {Stage::kDustFree, "dust-free"},
    {Stage::kTackFree, "tack-free"},
    {Stage::kDryHard, "dry-hard"},
    {Stage::kDryThrough, "dry-through"},
    {Stage::kSandable, "sandable"},
    {Stage::kRecoat, "recoat"},
    {Stage::kHandle, "handle"},
    {Stage::kPrintFree, "print-free"},
    {Stage::kLightUse, "light-use"},
    {Stage::kFullCure, "full-cure"},
}};

}  // namespace

std::string_view name_of(Stage stage) {
  for (const auto& [value, name] : kNames) {
    if (value == stage) {
      return name;
    }
  }
  return "";
}

std::optional<Stage> stage_named(std::string_view name) {
  for (const auto& [value, known] : kNames) {
    if (known == name) {
      return value;
    }
  }
  return std::nullopt;
}

DurationRange StageTiming::whole() const {
  Hours low = Hours::from_hours(0);
  Hours high = Hours::from_hours(0);
  for (const Phase& phase : phases) {
    low = low + phase.duration.low();
    high = high + phase.duration.high();
  }
  return {low, high};
}

StageTiming StageTiming::for_film(double ratio) const {
  StageTiming timing;
  for (Phase phase : phases) {
    const double factor = std::pow(ratio, phase.film_exponent);
    phase.duration = phase.duration.scaled(factor);
    if (phase.labelled) {
      phase.labelled = phase.labelled->scaled(factor);
    }
    timing.phases.push_back(phase);
  }
  return timing;
}

bool StageTiming::is_learned() const {
  return std::any_of(
      phases.begin(), phases.end(), [](const Phase& phase) { return phase.labelled.has_value(); });
}

std::string StageTiming::description() const {
  std::string text;
  for (const Phase& phase : phases) {
    text += (text.empty() ? "" : ", then ") + phase.law.description();
  }
  return is_learned() ? text + ", by touch tests" : text;
}

}  // namespace coatwright
