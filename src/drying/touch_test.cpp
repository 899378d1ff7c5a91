#include "drying/touch_test.h"

#include <algorithm>
#include <array>
#include <utility>

#include <fmt/format.h>

#include "base/loose_match.h"

namespace coatwright {
namespace {

constexpr std::array<TouchFinding, 14> kFindings = {{
    {Stage::kSetToTouch,
     false,
     "wet",
     "A finger laid lightly on the film picks some of it up: it is not set to touch yet.",
     "Leave it alone, and keep dust and draught off it. Do not sand in the room, turn it over or "
     "coat it, unless the product goes wet on wet."},
    {Stage::kSetToTouch,
     true,
     "set to touch",
     "A finger laid lightly on the film picks nothing up, though it may still feel tacky.",
     "It runs no more, but dust still sticks: do not sand in the room, turn it over or stack it."},
    {Stage::kDustFree,
     false,
     "dust sticks",
     "Fibres dropped on the film stay on it: it is not dust-free yet.",
     "Do not sand or sweep in the room, and do not turn it over or stack it."},
    {Stage::kDustFree,
     true,
     "dust-free",
     "Fibres dropped on the film can be blown off.",
     "Dust in the room harms it no more. Do not touch, turn over or stack it yet."},
    {Stage::kTackFree,
     false,
     "tacky",
     "Paper laid on the film clings to it: it is not tack-free yet.",
     "Do not sand, turn over or stack it, and do not coat it but inside a window that allows it. "
     "Test again before the next step."},
    {Stage::kTackFree,
     true,
     "tack-free",
     "Paper pressed on the film comes away clean.",
     "It may be touched. Try at a hidden place whether it sands to powder before sanding it, and "
     "do not stack it yet. The next coat waits for its window."},
    {Stage::kSandable,
     false,
     "gums the paper",
     "Sanding rolls the film up and clogs the paper: it is not sandable yet.",
     "Stop sanding, and do not coat over it but inside a window that allows it. Try again later "
     "with fresh paper."},
    {Stage::kSandable,
     true,
     "sands to powder",
     "Sanding gives a dry powder, and the paper stays open.",
     "It may be sanded. The next coat waits for its window."},
    {Stage::kPrintFree,
     false,
     "thumb leaves a print",
     "A thumb or cloth pressed on the film leaves its mark: it is not print-free yet.",
     "Do not stack, wrap, clamp or pad it. Set it down on points."},
    {Stage::kPrintFree,
     true,
     "no print",
     "A thumb or cloth pressed on the film leaves no mark.",
     "It may be stacked and wrapped, with soft sheets between. It is not fully cured yet."},
    {Stage::kDryHard,
     false,
     "soft",
     "A hard pinch of thumb and finger leaves a mark that stays: it is not dry-hard yet.",
     "Do not rub it out, fit hardware or put weight on it."},
    {Stage::kDryHard,
     true,
     "hard",
     "A hard pinch of thumb and finger leaves no lasting mark.",
     "It may be handled with care. Below the skin it may still be soft: twist the thumb on it "
     "before it is assembled or rubbed out."},
    {Stage::kDryThrough,
     false,
     "thumb twists the film",
     "The thumb, pressed on with the arm and turned, loosens or wrinkles the film: it is not dry "
     "through yet.",
     "Do not assemble it, rub it out or shut it in under another coat but inside a window that "
     "allows it."},
    {Stage::kDryThrough,
     true,
     "dry through",
     "The thumb, pressed on with the arm and turned, neither loosens nor wrinkles the film.",
     "It may be handled and assembled. Full cure takes longer: hard use waits for it."},
}};

/// Each stage beside one that comes after it at once; see the header for where this is from.
constexpr std::array<std::pair<Stage, Stage>, 6> kNext = {{
    {Stage::kSetToTouch, Stage::kDustFree},
    {Stage::kDustFree, Stage::kTackFree},
    {Stage::kTackFree, Stage::kDryHard},
    {Stage::kDryHard, Stage::kDryThrough},
    {Stage::kTackFree, Stage::kSandable},
    {Stage::kTackFree, Stage::kPrintFree},
}};

bool contradict(const TouchTest& reached, const TouchTest& not_reached) {
  return reached.reached && !not_reached.reached && reached.at <= not_reached.at &&
         comes_before_or_with(not_reached.stage, reached.stage);
}

}  // namespace

std::span<const TouchFinding> touch_findings() {
  return kFindings;
}

Result<TouchFinding> touch_finding_named(std::string_view text) {
  std::string known;
  for (const TouchFinding& finding : kFindings) {
    if (matches_loosely(finding.words, text)) {
      return finding;
    }
    known += fmt::format("{}{}", known.empty() ? "" : ", ", finding.words);
  }
  return fail(ErrorCode::kUsage,
              fmt::format("'{}' is not what a touch test finds; say one of: {}", text, known));
}

bool comes_before_or_with(Stage earlier, Stage later) {
  if (earlier == later || later == Stage::kFullCure) {
    return true;
  }
  return std::any_of(kNext.begin(), kNext.end(), [&](const auto& step) {
    return step.first == earlier && comes_before_or_with(step.second, later);
  });
}

std::vector<TouchContradiction> touch_contradictions(std::span<const TouchTest> tests) {
  std::vector<TouchContradiction> found;
  for (const TouchTest& one : tests) {
    for (const TouchTest& other : tests) {
      if (contradict(one, other)) {
        found.push_back({one.id, other.id});
      }
    }
  }
  return found;
}

}  // namespace coatwright
