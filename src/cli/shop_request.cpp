#include "cli/shop_request.h"

#include <algorithm>

#include "base/time_expression.h"
#include "cli/building_log.h"
#include "cli/finished_parts.h"
#include "cli/learned_shop.h"

namespace coatwright {
namespace {

Result<std::vector<StoredPiece>> pieces_to_plan(const PlanOptions& options,
                                                const Session& session) {
  if (!options.piece.empty()) {
    return session.store.piece(options.piece).map([](const StoredPiece& one) {
      return std::vector{one};
    });
  }
  auto pieces = session.store.pieces();
  if (pieces && pieces->empty()) {
    return fail(ErrorCode::kUsage,
                "there is no piece to plan: store one with `coatwright piece add`");
  }
  return pieces;
}

Result<Time> start_of(const PlanOptions& options, const Session& session) {
  if (options.from.empty()) {
    return session.now;
  }
  const auto from = parse_time(options.from, session.now, session.zone, Direction::kForward);
  return from ? from : pass_on(from.error(), "--from");
}

/// Makes the jobs of stored pieces.
class JobMaker {
 public:
  JobMaker(const Session& session, Time from, PreparedShop& shop)
      : session_(session), from_(from), shop_(shop) {}

  Result<void> add(const StoredPiece& piece) {
    JobRequest job;
    job.name = piece.name;
    job.earliest = piece.earliest;
    job.due = piece.due;
    job.weight = piece.weight;
    auto parts = finished_parts(piece, shop_.book, session_);
    if (!parts) {
      return pass_on(parts.error());
    }
    auto works = building_work_of(piece, *parts, shop_.book);
    if (!works) {
      return pass_on(works.error(), piece.name);
    }
    job.build = std::move(*works);
    for (FinishedPart& part : *parts) {
      add_part(piece, part, job);
    }
    shop_.request.jobs.push_back(std::move(job));
    return {};
  }

 private:
  void add_part(const StoredPiece& piece, FinishedPart& part, JobRequest& job) {
    add_new(part.log.left_aside, shop_.left_aside);
    settle_existing_finish(std::max(from_, piece.earliest.value_or(from_)), part.request);
    job.parts.push_back({part.name, std::move(part.request), part.rack_places});
    shop_.logs.push_back(std::move(part.log));
  }

  const Session& session_;
  Time from_;
  PreparedShop& shop_;
};

/// The latest date of a job, or the start where there is none; and whether any part is rubbed out.
Time horizon_of(const ShopRequest& request) {
  Time by = request.from;
  bool any_rubbed_out = false;
  for (const JobRequest& job : request.jobs) {
    by = std::max({by, job.due.value_or(by), job.earliest.value_or(by)});
    for (const PartRequest& part : job.parts) {
      any_rubbed_out = any_rubbed_out || rubs_out(*part.finish.schedule);
    }
  }
  return plan_horizon(by, any_rubbed_out);
}

/// The earliest moment that the plan looks back to.
Time first_moment(const ShopRequest& request) {
  Time first = request.from;
  for (const JobRequest& job : request.jobs) {
    for (const PartRequest& part : job.parts) {
      first = part.finish.log.empty() ? first : std::min(first, part.finish.log.front().at);
    }
  }
  return first;
}

}  // namespace

std::vector<StaffedHours> staffed_hours(const ShopTimes& times,
                                        Time from,
                                        Time to,
                                        const Zone& zone) {
  std::vector<StaffedHours> hours;
  for (const PeopledHours& one : times.staffed(from, to, zone)) {
    hours.push_back({one.open, one.people});
  }
  return hours;
}

ShopResources resources_of(const ShopSettings& shop) {
  return {shop.spray_places,
          shop.rack_places,
          shop.benches,
          shop.finishing_apart.value_or(false),
          shop.room};
}

Result<PreparedShop> prepare_shop(const PlanOptions& options,
                                  const GlobalOptions& global,
                                  const Session& session) {
  const auto pieces = pieces_to_plan(options, session);
  if (!pieces) {
    return pass_on(pieces.error());
  }
  const auto from = start_of(options, session);
  if (!from) {
    return pass_on(from.error());
  }
  const auto confidence = plan_confidence(options);
  if (!confidence) {
    return pass_on(confidence.error());
  }
  const auto times = plan_times(options, session);
  if (!times) {
    return pass_on(times.error());
  }
  auto recipes = open_shop_recipes(global, session, options.as_labelled);
  if (!recipes) {
    return pass_on(recipes.error());
  }
  PreparedShop shop{std::move(recipes->book),
                    {},
                    std::move(recipes->remarks),
                    {},
                    AirRecord({}, session.shop.usual_day_or_assumed(), session.zone)};
  for (const StoredPiece& piece : *pieces) {
    if (const auto added = JobMaker(session, *from, shop).add(piece); !added) {
      return pass_on(added.error());
    }
  }
  ShopRequest& request = shop.request;
  request.made_at = session.now;
  request.from = *from;
  request.confidence = *confidence;
  request.resources = resources_of(session.shop);
  request.horizon = horizon_of(request);
  request.hours = staffed_hours(*times, request.from, request.horizon, session.zone);
  auto air = plan_air(options, first_moment(request), request.horizon, session);
  if (!air) {
    return pass_on(air.error());
  }
  shop.air = std::move(*air);
  return shop;
}

}  // namespace coatwright
