#include "cli/handover_moment.h"

#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "report/plan_words.h"

namespace coatwright {
namespace {

/// When the piece was logged as delivered, the last time.
Result<std::optional<Time>> logged_delivery(const StoredPiece& piece, const Session& session) {
  const auto entries = session.store.log(piece.name);
  if (!entries) {
    return pass_on(entries.error());
  }
  std::optional<Time> at;
  for (const LogEntry& entry : *entries) {
    if (!entry.struck() && entry.kind == LogKind::kStep &&
        entry.step == name_of(StepKind::kDeliver) && entry.at <= session.now) {
      at = entry.at;
    }
  }
  return at;
}

std::optional<Time> planned_delivery(const std::optional<KeptPlan>& kept, Time now) {
  std::optional<Time> at;
  for (const KeptStep& step : kept ? kept->steps : std::vector<KeptStep>{}) {
    if (step.kind == StepKind::kDeliver && step.start > now) {
      at = step.start;
    }
  }
  return at;
}

}  // namespace

Result<Delivery> delivery_of(const HandoverRequest& request,
                             const std::optional<KeptPlan>& kept,
                             const Session& session) {
  if (request.at) {
    return Delivery{*request.at, HandoverMoment::kAsked};
  }
  const auto logged = logged_delivery(*request.piece, session);
  if (!logged) {
    return pass_on(logged.error());
  }
  if (*logged) {
    return Delivery{**logged, HandoverMoment::kLogged};
  }
  if (const auto planned = planned_delivery(kept, session.now)) {
    return Delivery{*planned, HandoverMoment::kPlanned};
  }
  if (request.piece->due && *request.piece->due > session.now) {
    return Delivery{*request.piece->due, HandoverMoment::kDue};
  }
  return Delivery{session.now, HandoverMoment::kNow};
}

Result<Delivery> not_before(Delivery delivery, Time last, const Session& session) {
  if (delivery.at >= last) {
    return delivery;
  }
  if (delivery.moment == HandoverMoment::kNow || delivery.moment == HandoverMoment::kDue) {
    return Delivery{last, delivery.moment};  // planned coats end later: as soon as they are on
  }
  return fail(ErrorCode::kUsage,
              fmt::format("the piece is handed over {}, but its last coat is on only {}: give a "
                          "later --at",
                          show_full(delivery.at, session.zone),
                          show_full(shown_minute(last), session.zone)));
}

/// What the shop's air was like, for the maker.
void describe_shop_air(const AirRecord& shop, CardAir& air) {
  std::set<AirOrigin> origins;
  bool first = true;
  for (const AirKnot& knot : shop.knots(air.from, std::max(air.from, air.handed_over))) {
    const AirState state = shop.at(knot.at);
    air.coldest = first ? state.temperature : std::min(air.coldest, state.temperature);
    air.warmest = first ? state.temperature : std::max(air.warmest, state.temperature);
    air.driest = first ? state.humidity : std::min(air.driest, state.humidity);
    air.dampest = first ? state.humidity : std::max(air.dampest, state.humidity);
    origins.insert(knot.origin);
    first = false;
  }
  air.origins.assign(origins.begin(), origins.end());
}

}  // namespace coatwright
