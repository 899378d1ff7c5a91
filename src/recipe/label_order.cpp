#include "recipe/label_order.h"

#include <algorithm>
#include <array>

#include <fmt/format.h>

namespace coatwright {
namespace {

/// The stages that a label may give, in the order in which it must give them: hours of one rank are
/// no shorter than those of a rank before. Source: judgement, from what the stages mean.
struct LabelStage {
  Stage stage;
  std::string_view option;
  int rank;
};
constexpr std::array<LabelStage, 7> kStages = {{{Stage::kDustFree, "--dust-free", 0},
                                                {Stage::kTackFree, "--touch", 1},
                                                {Stage::kRecoat, "--recoat", 2},
                                                {Stage::kSandable, "--sand", 2},
                                                {Stage::kHandle, "--handle", 2},
                                                {Stage::kLightUse, "--light-use", 3},
                                                {Stage::kFullCure, "--full-cure", 4}}};

Result<void> check_against_later(const LabelStage& one, const LabelFigures& label) {
  const Typed<HoursRange>& hours = label.stages.at(one.stage);
  for (const LabelStage& other : kStages) {
    const auto given = label.stages.find(other.stage);
    if (other.rank <= one.rank || given == label.stages.end()) {
      continue;
    }
    const HoursRange& later = given->second.value;
    if (later.low < hours.value.low || later.high < hours.value.high) {
      return fail(ErrorCode::kUsage,
                  fmt::format("{} {} is shorter than {} {}: the label's figures must be in order",
                              other.option,
                              given->second.text,
                              one.option,
                              hours.text));
    }
  }
  return {};
}

}  // namespace

std::string_view label_option_of(Stage stage) {
  const auto found = std::find_if(kStages.begin(), kStages.end(), [stage](const LabelStage& one) {
    return one.stage == stage;
  });
  return found == kStages.end() ? "" : found->option;
}

Result<void> check_label_order(const LabelFigures& label) {
  for (const LabelStage& one : kStages) {
    if (label.stages.contains(one.stage)) {
      if (auto done = check_against_later(one, label); !done) {
        return done;
      }
    }
  }
  return {};
}

}  // namespace coatwright
