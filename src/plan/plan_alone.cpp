#include "plan/plan_alone.h"

#include <algorithm>
#include <cassert>

namespace coatwright {

PlanRequest request_alone(const ShopRequest& shop) {
  assert(shop.jobs.size() == 1 && shop.jobs.front().parts.size() == 1);
  const JobRequest& job = shop.jobs.front();
  PlanRequest request;
  request.piece = job.parts.front().finish;
  request.made_at = shop.made_at;
  request.from = std::max(shop.from, job.earliest.value_or(shop.from));
  request.by = job.due.value_or(shop.horizon);
  request.confidence = shop.confidence;
  request.horizon = shop.horizon;
  for (const StaffedHours& one : shop.hours) {
    if (one.open.end <= request.from || one.people == 0) {
      continue;
    }
    if (!request.hours.empty() && request.hours.back().end >= one.open.start) {
      request.hours.back().end = std::max(request.hours.back().end, one.open.end);
    } else {
      request.hours.push_back({std::max(one.open.start, request.from), one.open.end});
    }
  }
  return request;
}

ShopRequest shop_request_of(const PlanRequest& request) {
  ShopRequest shop;
  JobRequest job;
  job.name = request.piece.name;
  job.due = request.by;
  job.parts = {{"all", request.piece}};
  shop.jobs = {std::move(job)};
  shop.made_at = request.made_at;
  shop.from = request.from;
  shop.horizon = request.horizon;
  shop.confidence = request.confidence;
  for (const Interval& open : request.hours) {
    shop.hours.push_back({open, 1});
  }
  return shop;
}

}  // namespace coatwright
