#pragma once

#include <algorithm>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "plan/plan_requests.h"

/// Logs, as a maker would keep them.
namespace asked {

inline std::vector<int> faces_named(const std::string& face) {
  if (face == "both") {
    return {0, 1};
  }
  return {face == "front" ? 1 : 0};
}

inline LoggedWork done(StepKind kind, Time at, std::vector<int> faces = {0}) {
  LoggedWork entry;
  entry.kind = kind;
  entry.faces = std::move(faces);
  entry.at = at;
  return entry;
}

inline LoggedWork sanded(const std::string& grit, Time at, std::vector<int> faces = {0}) {
  LoggedWork entry = done(StepKind::kSand, at, std::move(faces));
  entry.grit = grit;
  return entry;
}

inline LoggedWork coated(const std::string& product, Time at, std::vector<int> faces = {0}) {
  LoggedWork entry = done(StepKind::kApply, at, std::move(faces));
  entry.product = *book().product(product);
  entry.product_name = product;
  return entry;
}

/// What a maker logs who does the first `count` steps of a plan: a coat and its wiping when their
/// last section is done.
inline std::vector<LoggedWork> log_of(const Plan& plan, std::size_t count) {
  std::vector<LoggedWork> log;
  int last_coat = 0;
  for (std::size_t i = 0; i < count; ++i) {
    const PlanStep& step = plan.steps[i];
    const std::vector<int> faces = faces_named(step.face);
    switch (step.kind) {
      case StepKind::kApply:
        log.push_back(coated(step.product, step.end, faces));
        break;
      case StepKind::kWipe:
      case StepKind::kRags:
      case StepKind::kSample:
      case StepKind::kSand:
      case StepKind::kRaiseGrain:
      case StepKind::kAbrade:
      case StepKind::kFlip:
      case StepKind::kRubOut:
        log.push_back(done(step.kind, step.end, faces));
        log.back().grit = step.grit;
        break;
      default:
        continue;  // not worth an entry
    }
    if (step.kind == StepKind::kApply) {
      // A coat of several batches is one coat, done with the last.
      const std::size_t size = log.size();
      if (size >= 2 && step.coat == last_coat && log[size - 2].kind == StepKind::kApply &&
          log[size - 2].faces == faces) {
        log.erase(log.end() - 2);
      }
      // A coat in sections goes on, off, on, off: its last ones count.
      const std::size_t n = log.size();
      if (n >= 3 && step.coat == last_coat && log[n - 2].kind == StepKind::kWipe &&
          log[n - 3].kind == StepKind::kApply && log[n - 3].faces == faces) {
        log.erase(log.end() - 3, log.end() - 1);
      }
      last_coat = step.coat;
    }
  }
  return log;
}

/// Whether the work may be broken off after this step: the next one is of another session.
inline bool ends_session(const Plan& plan, std::size_t step) {
  const auto readies_wood = [](const PlanStep& one) {
    return one.kind == StepKind::kAbrade || (one.kind == StepKind::kClean && one.product.empty());
  };
  if (plan.steps[step].kind == StepKind::kWait || readies_wood(plan.steps[step])) {
    return false;
  }
  if (step + 1 == plan.steps.size()) {
    return true;
  }
  const PlanStep& next = plan.steps[step + 1];
  return readies_wood(next) || next.kind == StepKind::kWait || next.kind == StepKind::kSample ||
         next.kind == StepKind::kSand || next.kind == StepKind::kRaiseGrain ||
         next.kind == StepKind::kFlip || next.kind == StepKind::kRubOut;
}

}  // namespace asked
