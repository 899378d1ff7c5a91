#include "cli/advise_command.h"

#include <memory>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include "cli/plan_options.h"
#include "cli/search_watch.h"
#include "plan/advice.h"
#include "plan/plan_alone.h"
#include "report/advice_page.h"

namespace coatwright {
namespace {

struct AdviseOptions {
  PlanOptions plan;
  std::string at_most;
};

AdviceWatch watch_of(LongSearch& search) {
  return {[&search] { return search.is_to_stop(); },
          [&search](int replans) {
            search.tell(fmt::format("{} plans tried; Ctrl-C shows what was found so far", replans));
          }};
}

/// Hours from the present moment up to the start of the work.
Result<std::vector<StaffedHours>> hours_before(const PlanOptions& options,
                                               const PlanRequest& request,
                                               const Session& session) {
  std::vector<StaffedHours> earlier;
  if (request.made_at >= request.from) {
    return earlier;
  }
  const auto week = week_hours_of(options, session);
  if (!week) {
    return pass_on(week.error());
  }
  for (const Interval& open : week->between(request.made_at, request.from, session.zone)) {
    earlier.push_back({open, 1});
  }
  return earlier;
}

Result<DateAdvice> advice_alone(const PlanOptions& options,
                                const PreparedPlan& prepared,
                                const Session& session,
                                const AdviceWatch& watch) {
  AdviceRequest request;
  request.shop = shop_request_of(prepared.request);
  const auto earlier = hours_before(options, prepared.request, session);
  if (!earlier) {
    return pass_on(earlier.error());
  }
  request.earlier = *earlier;
  request.surfaces[prepared.request.piece.name] = prepared.surface;
  const Replan replan = [&](const ShopRequest& shop, const AirRecord& air) {
    return make_plan(request_alone(shop), prepared.book, air);
  };
  return advise(request, prepared.book, prepared.air, replan, watch);
}

std::optional<std::chrono::milliseconds> span_of(const Result<std::chrono::milliseconds>& parsed) {
  return parsed ? std::optional(*parsed) : std::nullopt;
}

/// Yes where the dates are met, as it stands or in some way.
ExitCode exit_of(const DateAdvice& advice) {
  return advice.plan.fits || !advice.ways.empty() ? ExitCode::kDone : ExitCode::kNo;
}

Result<ExitCode> run_advise(const AdviseOptions& options, const GlobalOptions& global) {
  const auto session = open_session(global, Store::Mode::kRead);
  if (!session) {
    return pass_on(session.error());
  }
  const auto at_most = parse_at_most(options.at_most);
  if (!options.at_most.empty() && !at_most) {
    return pass_on(at_most.error());
  }
  const auto prepared = prepare_plan(options.plan, global, *session);
  if (!prepared) {
    return pass_on(prepared.error());
  }
  if (const auto allowed = check_schedule(prepared->request.piece, prepared->book); !allowed) {
    return pass_on(allowed.error());
  }
  LongSearch search(span_of(at_most));
  const auto advice = advice_alone(options.plan, *prepared, *session, watch_of(search));
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
  auto options = std::make_shared<AdviseOptions>();
  add_planning_options(*advise, options->plan);
  advise
      ->add_option(
          "--at-most", options->at_most, "Stop after this long and show what was found: 30s, 2min")
      ->type_name("SPAN");
  advise->callback(
      [=, &global, &chosen] { chosen = [=, &global] { return run_advise(*options, global); }; });
}

}  // namespace coatwright
