#include "cli/advise_command.h"

#include <memory>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include "cli/plan_options.h"
#include "cli/shop_plan.h"
#include "plan/advice.h"
#include "plan/plan_alone.h"
#include "plan/shop_planner.h"
#include "report/advice_page.h"

namespace coatwright {
namespace {

AdviceWatch watch_of(LongSearch& search) {
  return {[&search] { return search.is_to_stop(); },
          [&search](int replans) {
            search.tell(fmt::format("{} plans tried; Ctrl-C shows what was found so far", replans));
          }};
}

/// Hours from the present moment up to the start of the work.
Result<std::vector<StaffedHours>> hours_before(const PlanOptions& options,
                                               const ShopRequest& shop,
                                               const Session& session) {
  if (shop.made_at >= shop.from) {
    return std::vector<StaffedHours>();
  }
  const auto times = plan_times(options, session);
  if (!times) {
    return pass_on(times.error());
  }
  return staffed_hours(*times, shop.made_at, shop.from, session.zone);
}

/// On one piece, as if it had the shop to itself.
Result<DateAdvice> advice_alone(const PlanOptions& options,
                                const GlobalOptions& global,
                                const Session& session,
                                const AdviceWatch& watch) {
  const auto prepared = prepare_plan(options, global, session);
  if (!prepared) {
    return pass_on(prepared.error());
  }
  if (const auto allowed = check_schedule(prepared->request.piece, prepared->book); !allowed) {
    return pass_on(allowed.error());
  }
  AdviceRequest request;
  request.shop = shop_request_of(prepared->request);
  auto earlier = hours_before(options, request.shop, session);
  if (!earlier) {
    return pass_on(earlier.error());
  }
  request.earlier = std::move(*earlier);
  request.surfaces[prepared->request.piece.name] = prepared->surface;
  const Replan replan = [&](const ShopRequest& shop, const AirRecord& air) {
    return make_plan(request_alone(shop), prepared->book, air);
  };
  return advise(request, prepared->book, prepared->air, replan, watch);
}

Result<std::map<std::string, WoodSurface>> surfaces_of(const Session& session) {
  const auto pieces = session.store.pieces();
  if (!pieces) {
    return pass_on(pieces.error());
  }
  std::map<std::string, WoodSurface> surfaces;
  for (const StoredPiece& piece : *pieces) {
    const auto surface = parse_wood_surface(piece.surface);
    if (!surface) {
      return pass_on(surface.error(), piece.name);
    }
    surfaces[piece.name] = *surface;
  }
  return surfaces;
}

/// On all stored pieces together, or on the parts of one.
Result<DateAdvice> advice_on_shop(const PlanOptions& options,
                                  const GlobalOptions& global,
                                  const Session& session,
                                  const AdviceWatch& watch) {
  const auto shop = shop_of_call(options, global, session);
  if (!shop) {
    return pass_on(shop.error());
  }
  auto earlier = hours_before(options, shop->request, session);
  auto surfaces = surfaces_of(session);
  if (!earlier || !surfaces) {
    return pass_on(earlier ? surfaces.error() : earlier.error());
  }
  Replanning replanning([&](const ShopRequest& request, const AirRecord& air) {
    return make_shop_plan(request, shop->book, air, {watch.stop, {}});
  });
  replanning.dates = [&](const ShopRequest& request, const AirRecord& air) {
    return sketch_shop_plan(request, shop->book, air, {watch.stop, {}});
  };
  replanning.may_meet_dates = [&](const ShopRequest& request, const AirRecord& air) {
    return may_meet_dates(request, shop->book, air);
  };
  return advise({shop->request, std::move(*earlier), std::move(*surfaces)},
                shop->book,
                shop->air,
                replanning,
                watch);
}

/// Yes where the dates are met, as it stands or in some way.
ExitCode exit_of(const DateAdvice& advice) {
  return advice.plan.fits || !advice.ways.empty() ? ExitCode::kDone : ExitCode::kNo;
}

Result<ExitCode> run_advise(const PlanOptions& options, const GlobalOptions& global) {
  const auto session = open_session(global, Store::Mode::kRead);
  if (!session) {
    return pass_on(session.error());
  }
  const auto at_most = time_to_search(options);
  const auto of_shop = is_of_shop(options, *session);
  if (!at_most || !of_shop) {
    return pass_on(at_most ? of_shop.error() : at_most.error());
  }
  const auto advice = [&] {
    LongSearch search(*at_most);
    return (*of_shop ? advice_on_shop : advice_alone)(options, global, *session, watch_of(search));
  }();
  if (!advice) {
    return pass_on(advice.error());
  }
  print_out(session->json ? advice_as_json(*advice, session->zone)
                          : show_advice(*advice, session->zone, session->units));
  return exit_of(*advice);
}

}  // namespace

void add_advise(CLI::App& app, const GlobalOptions& global, Work& chosen) {
  CLI::App* advise = app.add_subcommand("advise", "Ways to make the date, the least change first");
  auto options = std::make_shared<PlanOptions>();
  add_planning_options(*advise, *options);
  add_search_options(*advise, *options);
  advise->callback(
      [=, &global, &chosen] { chosen = [=, &global] { return run_advise(*options, global); }; });
}

}  // namespace coatwright
