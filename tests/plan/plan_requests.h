#pragma once

#include <string>
#include <utility>
#include <vector>

#include "base/week_hours.h"
#include "plan/planner.h"
#include "recipe/recipe_book.h"

/// What the tests of planning ask for, of an invented shop.
namespace asked {

using namespace coatwright;

inline Zone zone(const std::string& name = "America/New_York") {
  return *Zone::find(name);
}

/// The built-in recipes. Read at the first call: they are not there yet while globals are made.
inline const RecipeBook& book() {
  static const RecipeBook built_in;
  return built_in;
}

/// @param text RFC 3339.
inline Time at(const std::string& text) {
  return parse_rfc3339(text).value();
}

inline AirRecord constant_air(double celsius, double percent, const Zone& zone) {
  return {{},
          UsualDay::constant(Temperature::from_celsius(celsius),
                             RelativeHumidity::from_percent(percent)),
          zone};
}

inline AirRecord usual_air(const std::string& day, const Zone& zone) {
  return {{}, *UsualDay::parse(day), zone};
}

inline AirEntry forecast(Time time, double celsius, double percent) {
  return {time,
          Temperature::from_celsius(celsius),
          RelativeHumidity::from_percent(percent),
          AirOrigin::kForecast};
}

inline std::vector<Interval> openings(const std::string& week,
                                      Time from,
                                      Time to,
                                      const Zone& zone) {
  return WeekHours::parse(week).value().between(from, to, zone);
}

struct Asked {
  std::string schedule;
  double square_metres = 1.0;
  Faces faces = Faces::kOne;
  std::string week = "Mon-Sun 8:00-17:00";
  double confidence = 0.9;
  std::chrono::hours given_up_after{24 * 28};
};

/// The schedule is left to the caller when `asked` names none.
inline PlanRequest request(const Asked& asked, Time from, Time by, const Zone& zone) {
  PlanRequest request;
  request.piece.name = "tray";
  if (!asked.schedule.empty()) {
    request.piece.schedule = *book().schedule_for(asked.schedule, {});
  }
  request.piece.area = Area::from_square_metres(asked.square_metres);
  request.piece.faces = asked.faces;
  request.made_at = from;
  request.from = from;
  request.by = by;
  request.confidence = asked.confidence;
  request.horizon = by + asked.given_up_after;
  request.hours = openings(asked.week, from, request.horizon, zone);
  return request;
}

inline ScheduleStep sanding(std::vector<std::string> grits) {
  ScheduleStep step;
  step.kind = ScheduleStepKind::kSand;
  step.grits = std::move(grits);
  return step;
}

inline ScheduleStep abrading(const std::string& grit) {
  ScheduleStep step;
  step.kind = ScheduleStepKind::kAbrade;
  step.grits = {grit};
  return step;
}

inline ScheduleStep coats(const std::string& product, Method method, int count) {
  ScheduleStep step;
  step.kind = ScheduleStepKind::kCoat;
  step.product = product;
  step.method = method;
  step.coats = count;
  return step;
}

inline Schedule schedule_of(std::vector<ScheduleStep> steps) {
  Schedule schedule;
  schedule.name = "by-hand";
  schedule.steps = std::move(steps);
  return schedule;
}

inline std::vector<const PlanStep*> of_kind(const Plan& plan, StepKind kind) {
  std::vector<const PlanStep*> found;
  for (const PlanStep& step : plan.steps) {
    if (step.kind == kind) {
      found.push_back(&step);
    }
  }
  return found;
}

/// All reasons that the plan gives for not being earlier, in one text.
inline std::string reasons(const Plan& plan) {
  std::string text;
  for (const HoldUp& hold_up : plan.hold_ups) {
    text += hold_up.text + "\n";
  }
  return text;
}

}  // namespace asked
