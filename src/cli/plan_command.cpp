#include "cli/plan_command.h"

#include <memory>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include "cli/plan_options.h"
#include "cli/plan_page.h"
#include "cli/shop_plan.h"
#include "plan/fan_air.h"

namespace coatwright {
namespace {

/// Says what moved since the plan that was kept, and keeps this one in its place.
Result<void> note_changes(const GlobalOptions& global, const std::string& piece, Plan& plan) {
  auto session = open_session(global, Store::Mode::kWrite);
  if (!session) {
    return pass_on(session.error());
  }
  const auto before = session->store.kept_plan(piece);
  if (!before) {
    return pass_on(before.error());
  }
  if (*before) {
    plan.changes = changes_since(**before, plan);
  }
  return session->store.keep_plan(piece, kept_plan_of(plan));
}

Result<Plan> plan_of(const PreparedPlan& prepared,
                     const PlanOptions& options,
                     const Session& session) {
  const auto outdoors =
      outdoors_for(options, prepared.request.from, prepared.request.horizon, session);
  if (!outdoors) {
    return pass_on(outdoors.error());
  }
  return plan_in_fan_air(
      [&](const AirRecord& air) { return make_plan(prepared.request, prepared.book, air); },
      prepared.air,
      *outdoors,
      {prepared.request.from, prepared.request.horizon});
}

Result<ExitCode> run_plan(const PlanOptions& options, const GlobalOptions& global) {
  const auto session = open_session(global, Store::Mode::kRead);
  if (!session) {
    return pass_on(session.error());
  }
  const auto of_shop = is_of_shop(options, *session);
  if (!of_shop) {
    return pass_on(of_shop.error());
  }
  if (*of_shop) {
    return run_shop_plan(options, global, *session);
  }
  const auto prepared = prepare_plan(options, global, *session);
  if (!prepared) {
    return pass_on(prepared.error());
  }
  if (const auto allowed = check_schedule(prepared->request.piece, prepared->book); !allowed) {
    return pass_on(allowed.error());
  }
  auto plan = plan_of(*prepared, options, *session);
  if (!plan) {
    return pass_on(plan.error());
  }
  complete_plan(options, *session, prepared->air, prepared->log.left_aside, *plan);
  if (options.is_of_stored_piece()) {
    if (const auto noted = note_changes(global, prepared->request.piece.name, *plan); !noted) {
      return pass_on(noted.error());
    }
  }
  return put_out_plan(*plan, options, *session);
}

}  // namespace

void add_plan(CLI::App& app, const GlobalOptions& global, Work& chosen) {
  CLI::App* plan = app.add_subcommand(
      "plan", "Plan a piece, or all of them: a calendar of coats, waits and care");
  auto options = std::make_shared<PlanOptions>();
  add_planning_options(*plan, *options);
  add_search_options(*plan, *options);
  add_print_options(*plan, options->print);
  plan->add_flag("--keep",
                 options->keep,
                 "Of several pieces or parts: hold to the last plan where it can be held");
  plan->add_flag(
      "--explain", options->explain, "Show each wait's range, mechanism, air and integral");
  plan->add_flag("--odds", options->odds, "Simulate the chance that each step and the end hold");
  plan->callback(
      [=, &global, &chosen] { chosen = [=, &global] { return run_plan(*options, global); }; });
}

}  // namespace coatwright
