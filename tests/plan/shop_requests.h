#pragma once

#include <list>
#include <string>
#include <utility>
#include <vector>

#include "plan/plan_requests.h"
#include "plan/shop_planner.h"

/// What the tests of a whole shop's plans ask for.
namespace asked {

/// A shop without a limit on its places.
inline ShopRequest shop(
    Time from, Time horizon, const Zone& zone, const std::string& week, int people = 1) {
  ShopRequest request;
  request.made_at = from;
  request.from = from;
  request.horizon = horizon;
  for (const Interval& open : openings(week, from, horizon, zone)) {
    request.hours.push_back({open, people});
  }
  return request;
}

inline PartRequest part(const std::string& name,
                        const std::string& schedule,
                        double square_metres,
                        Faces faces = Faces::kOne) {
  PartRequest part;
  part.name = name;
  part.finish.schedule = *book().schedule_for(schedule, {});
  part.finish.area = Area::from_square_metres(square_metres);
  part.finish.faces = faces;
  return part;
}

/// A piece of these parts. Its finishing carries the piece's name.
inline JobRequest job(const std::string& name,
                      std::vector<PartRequest> parts,
                      std::optional<Time> due = std::nullopt) {
  JobRequest job;
  job.name = name;
  job.due = due;
  job.parts = std::move(parts);
  for (PartRequest& one : job.parts) {
    one.finish.name = name;
  }
  return job;
}

inline BuildWork build(StepKind kind,
                       std::vector<int> parts,
                       double work_minutes,
                       bool before_finish = false) {
  BuildWork work;
  work.kind = kind;
  work.name = std::string(name_of(kind));
  work.parts = std::move(parts);
  work.before_finish = before_finish;
  work.work = Hours::from_minutes(work_minutes);
  work.source = "judgement";
  return work;
}

/// One part of one piece as a shop of its own, with as many people and places as it may want.
inline ShopRequest shop_of(const PlanRequest& request) {
  ShopRequest shop;
  shop.made_at = request.made_at;
  shop.from = request.from;
  shop.horizon = request.horizon;
  shop.confidence = request.confidence;
  for (const Interval& open : request.hours) {
    shop.hours.push_back({open, 1});
  }
  PartRequest part;
  part.name = "all";
  part.finish = request.piece;
  JobRequest one;
  one.name = request.piece.name;
  one.due = request.by;
  one.parts.push_back(std::move(part));
  shop.jobs.push_back(std::move(one));
  return shop;
}

/// The plan in lines, for a failing test to show.
inline std::string in_lines(const Plan& plan) {
  std::string text;
  for (const PlanStep& step : plan.steps) {
    text += fmt::format("{:3} {} {:.16} - {:.16} {} {} {} {} c{} p{} s{} r{} b{}{}\n",
                        step.id,
                        step.done ? "done" : "    ",
                        show_utc(step.start),
                        show_utc(step.end),
                        step.piece,
                        step.part,
                        name_of(step.kind),
                        step.product,
                        step.coat,
                        step.people,
                        step.spray_places,
                        step.rack_places,
                        step.benches,
                        step.attended ? "" : " (unattended)");
  }
  return text;
}

}  // namespace asked
