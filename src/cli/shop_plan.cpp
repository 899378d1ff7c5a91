#include "cli/shop_plan.h"

#include <fmt/format.h>

#include "base/time_expression.h"
#include "cli/kept_shop.h"
#include "cli/plan_page.h"
#include "plan/fan_air.h"
#include "plan/shop_load.h"
#include "plan/shop_planner.h"

namespace coatwright {
namespace {

bool is_divided(const StoredPiece& piece) {
  return !piece.units.empty() || !piece.work.empty();
}

/// Puts one date in place of every piece's own.
Result<void> put_dates(const PlanOptions& options, const Session& session, ShopRequest& request) {
  if (options.by.empty()) {
    return {};
  }
  const auto by = parse_time(options.by, request.from, session.zone, Direction::kForward);
  if (!by) {
    return pass_on(by.error(), "--by");
  }
  if (*by <= request.from) {
    return fail(ErrorCode::kOutOfRange,
                fmt::format("--by {} is not after the start, {}",
                            show_full(*by, session.zone),
                            show_full(request.from, session.zone)));
  }
  for (JobRequest& job : request.jobs) {
    job.due = *by;
  }
  return {};
}

SearchWatch watch_of(LongSearch& search, const Session& session) {
  const auto progress = [&search, &session](const PlanProgress& so_far) {
    std::string line = fmt::format("{} nodes", so_far.nodes);
    line += so_far.finish ? ", ends " + show_full(*so_far.finish, session.zone) : "";
    line += so_far.bound ? ", at best " + show_full(*so_far.bound, session.zone) : "";
    search.tell(line + "; Ctrl-C takes it");
  };
  return {[&search] { return search.is_to_stop(); }, progress};
}

Result<void> keep(const GlobalOptions& global, const Plan& plan) {
  auto session = open_session(global, Store::Mode::kWrite);
  if (!session) {
    return pass_on(session.error());
  }
  return keep_shop_plan(plan, session->store);
}

}  // namespace

Result<bool> is_of_shop(const PlanOptions& options, const Session& session) {
  const bool is_changed = !options.schedule.empty() || !options.species.empty() ||
                          !options.area.empty() || !options.faces.empty() ||
                          !options.surface.empty() || !options.over.empty() ||
                          !options.wood_moisture.empty();
  if (is_changed) {
    return false;
  }
  if (!options.piece.empty()) {
    return session.store.piece(options.piece).map(is_divided);
  }
  return session.store.pieces().map([](const std::vector<StoredPiece>& pieces) {
    return pieces.size() > 1 || (pieces.size() == 1 && is_divided(pieces.front()));
  });
}

Result<PreparedShop> shop_of_call(const PlanOptions& options,
                                  const GlobalOptions& global,
                                  const Session& session) {
  auto shop = prepare_shop(options, global, session);
  if (!shop) {
    return pass_on(shop.error());
  }
  if (const auto put = put_dates(options, session, shop->request); !put) {
    return pass_on(put.error());
  }
  shop->request.effort = options.effort > 0 ? options.effort : shop->request.effort;
  shop->request.seed = options.seed;
  for (const JobRequest& job : shop->request.jobs) {
    for (const PartRequest& part : job.parts) {
      if (const auto allowed = check_schedule(part.finish, shop->book); !allowed) {
        return pass_on(allowed.error(), job.name);
      }
    }
  }
  return shop;
}

Result<std::optional<std::chrono::milliseconds>> time_to_search(const PlanOptions& options) {
  if (options.at_most.empty()) {
    return std::nullopt;
  }
  const auto span = parse_span("--at-most", options.at_most);
  if (!span) {
    return pass_on(span.error());
  }
  return *span;
}

Result<ExitCode> run_shop_plan(const PlanOptions& options,
                               const GlobalOptions& global,
                               const Session& session) {
  const auto at_most = time_to_search(options);
  if (!at_most) {
    return pass_on(at_most.error());
  }
  const auto shop = shop_of_call(options, global, session);
  if (!shop) {
    return pass_on(shop.error());
  }
  const auto before = kept_plan_of_shop(shop->request, session.store);
  if (!before) {
    return pass_on(before.error());
  }
  const Plan to_keep = *before ? plan_as_kept(**before) : Plan();
  const auto outdoors = outdoors_for(options, shop->request.from, shop->request.horizon, session);
  if (!outdoors) {
    return pass_on(outdoors.error());
  }
  auto plan = [&] {
    LongSearch search(*at_most);
    const auto make = [&](const AirRecord& air) {
      return make_shop_plan(shop->request,
                            shop->book,
                            air,
                            watch_of(search, session),
                            options.keep && *before ? &to_keep : nullptr);
    };
    return plan_in_fan_air(make, shop->air, *outdoors, {shop->request.from, shop->request.horizon});
  }();
  if (!plan) {
    return pass_on(plan.error());
  }
  plan->shop = plan_shop_of(shop->request);
  complete_plan(options, session, shop->air, shop->left_aside, *plan);
  if (*before) {
    plan->changes = changes_since(**before, *plan);
  }
  if (options.is_of_stored_piece()) {
    if (const auto kept = keep(global, *plan); !kept) {
      return pass_on(kept.error());
    }
  }
  return put_out_plan(*plan, options, session);
}

}  // namespace coatwright
