#include "report/step_lines.h"

#include <fmt/format.h>

#include "base/quantity_text.h"

namespace coatwright {
namespace {

std::string closing_text(const Wait& wait, const PlanStep& step, const Zone& zone) {
  const std::string moment = moment_text(*wait.closes_at, step.start, zone);
  if (*wait.closes_at <= step.start) {
    return "Its window closed " + moment + ".";
  }
  if (wait.stage == "wipe-off") {
    return "Begin before " + moment + ", where it was wetted first.";
  }
  if (wait.stage == "pot life") {
    return "Use the batch up before " + moment + ".";
  }
  const bool abrades_later = wait.stage == "recoat" && wait.condition == "none";
  return "Start before " + moment +
         (abrades_later ? "; after that abrade first, if the label allows." : ".");
}

}  // namespace

std::string air_line(const PlanView& view, const PlanStep& step) {
  return fmt::format("Air {}, {}; surface {}, {} above dew point.",
                     temperature_text(step.air.temperature, view.units),
                     show_humidity(step.air.humidity),
                     temperature_text(step.surface, view.units),
                     difference_text(step.surface - step.air.dew_point, view.units));
}

std::string hazards_mark(const PlanStep& step) {
  return step.hazards.empty() ? "" : fmt::format(" [{}]", fmt::join(step.hazards, ", "));
}

std::vector<std::string> closing_lines(const PlanView& view, const PlanStep& step) {
  std::vector<std::string> lines;
  for (const Wait& wait : step.after) {
    if (wait.condition == "abrade") {
      lines.emplace_back("Only on an abraded coat.");
    } else if (!wait.condition.empty() && wait.condition != "none") {
      lines.push_back("Condition: " + wait.condition + ".");
    }
    if (wait.closes_at) {
      lines.push_back(closing_text(wait, step, view.zone));
    }
  }
  constexpr double kHalfPercent = 0.005;
  if (step.chance < view.plan.confidence - kHalfPercent) {
    lines.push_back(fmt::format("Chance of being in its window: {}.", chance_text(step.chance)));
  }
  return lines;
}

bool is_told_by_gaps(const PlanStep& step, const PlanStep& last) {
  return step.kind == StepKind::kWait && !step.attended && step.notes.empty() &&
         step.cautions.empty() && step.end <= last.start;
}

}  // namespace coatwright
