#include "cli/plan_command.h"

#include <memory>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include "cli/plan_options.h"
#include "plan/odds.h"
#include "report/calendar.h"
#include "report/explanation.h"
#include "report/plan_json.h"

namespace coatwright {
namespace {

// Enough for a half width of 1 %; the seed is fixed, so that an answer repeats.
constexpr int kTrials = 10000;
constexpr unsigned kSeed = 1;

std::string page_of(const Plan& plan, const PlanOptions& options, const Session& session) {
  if (session.json) {
    return plan_as_json(plan, session.zone);
  }
  std::string page = show_calendar(plan, session.zone, session.units);
  if (options.explain) {
    page += "\n" + show_explanation(plan, session.zone, session.units);
  }
  return page;
}

bool rests_on_usual_day(const PlanWarning& warning) {
  return warning.code == "usual-day-only" || warning.code == "usual-day-from";
}

/// Says what the air is where nothing was read: a what-if of the call, or a usual day that nobody
/// set.
void warn_of_assumed_air(const PlanOptions& options, const Session& session, Plan& plan) {
  if (!options.in_air.empty()) {
    std::erase_if(plan.warnings, rests_on_usual_day);
    plan.warnings.push_back({"what-if-air",
                             "Reckoned for " + options.in_air +
                                 " all the time, as the call says: a what-if, not a forecast. Read "
                                 "the air before each coat.",
                             std::nullopt});
    return;
  }
  if (!session.shop.usual_day &&
      std::any_of(plan.warnings.begin(), plan.warnings.end(), rests_on_usual_day)) {
    plan.warnings.push_back({"usual-day-assumed",
                             "The shop's usual day is not set; " +
                                 session.shop.usual_day_or_assumed().text(session.units) +
                                 " is assumed. Set it: coatwright shop set --usual-day.",
                             std::nullopt});
  }
}

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

Result<ExitCode> run_plan(const PlanOptions& options, const GlobalOptions& global) {
  const auto session = open_session(global, Store::Mode::kRead);
  if (!session) {
    return pass_on(session.error());
  }
  const auto prepared = prepare_plan(options, global, *session);
  if (!prepared) {
    return pass_on(prepared.error());
  }
  if (const auto allowed = check_schedule(prepared->request.piece, prepared->book); !allowed) {
    return pass_on(allowed.error());
  }
  auto plan = make_plan(prepared->request, prepared->book, prepared->air);
  if (!plan) {
    return pass_on(plan.error());
  }
  warn_of_assumed_air(options, *session, *plan);
  if (options.odds) {
    plan->odds = odds_of(*plan, prepared->air, kTrials, kSeed);
  }
  for (const std::string& text : prepared->log.left_aside) {
    plan->warnings.push_back({"log", text, std::nullopt});
  }
  if (options.is_of_stored_piece()) {
    if (const auto noted = note_changes(global, prepared->request.piece.name, *plan); !noted) {
      return pass_on(noted.error());
    }
  }
  const std::string page = page_of(*plan, options, *session);
  if (options.out.empty()) {
    print_out(page);
  } else if (const auto written = write_output_file(options.out, page); !written) {
    return pass_on(written.error());
  }
  return plan->fits ? ExitCode::kDone : ExitCode::kNo;
}

}  // namespace

void add_plan(CLI::App& app, const GlobalOptions& global, Work& chosen) {
  CLI::App* plan = app.add_subcommand("plan", "Plan a piece: a calendar of coats, waits and care");
  auto options = std::make_shared<PlanOptions>();
  add_planning_options(*plan, *options);
  plan->add_option("--out", options->out, "Write there instead of on standard output")
      ->type_name("FILE");
  plan->add_flag(
      "--explain", options->explain, "Show each wait's range, mechanism, air and integral");
  plan->add_flag("--odds", options->odds, "Simulate the chance that each step and the end hold");
  plan->callback(
      [=, &global, &chosen] { chosen = [=, &global] { return run_plan(*options, global); }; });
}

}  // namespace coatwright
