#include "cli/plan_command.h"

#include <memory>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include "cli/plan_request.h"
#include "plan/odds.h"
#include "recipe/schedule_check.h"
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

/// A schedule in which a coat must not go over the one beneath is refused as a whole, with the
/// nearest one that works. Errors: kNo; from the recipes.
Result<void> check_schedule(const PieceRequest& piece, const RecipeBook& book) {
  const Product* over = piece.over ? piece.over->product : nullptr;
  const auto findings = check_pairs(*piece.schedule, over, book);
  if (!findings) {
    return pass_on(findings.error(), "schedule " + piece.schedule->name);
  }
  const PairFinding* refused = first_refusal(*findings);
  if (refused == nullptr) {
    return {};
  }
  const PieceSurface surface{piece.species, {}, over};
  const std::string nearest = nearest_working_schedule(*piece.schedule, surface, book);
  return fail(ErrorCode::kNo,
              fmt::format("schedule {}, step {}: {}{}",
                          piece.schedule->name,
                          refused->step,
                          refusal_of(*refused),
                          nearest.empty() ? "; no schedule here works over that"
                                          : "; the nearest schedule that works: " + nearest));
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
  const auto option =
      [&](const char* name, std::string& into, const char* type, const char* about) {
        return plan->add_option(name, into, about)->type_name(type);
      };
  option("--piece", options->piece, "NAME", "A stored piece, or a name for one given by options");
  option(
      "--schedule", options->schedule, "NAME", "Finishing schedule, as `schedule list` shows them");
  option("--species", options->species, "NAME", "Wood, such as white-ash");
  option("--area", options->area, "AREA", "Area of one face: 1.9m2 or 20sqft");
  option("--faces",
         options->faces,
         "1|2|points",
         "1 face; 2 faces lying flat; points: both in one session")
      ->check(CLI::IsMember({"1", "2", "points"}));
  option(
      "--surface",
      options->surface,
      "SURFACE",
      "How the wood was left: sawn, planed, scraped, old-finish, or its last grit P120 [planed]");
  option("--over",
         options->over,
         "PRODUCT",
         "A finish that lies on it and stays: a product, or old-finish [bare wood]");
  option("--from", options->from, "TIME", "Start of the work; now where it is left out");
  option("--by", options->by, "TIME", "When the last step must be done: \"Sun 20:00\"");
  option("--hours",
         options->hours,
         "HOURS",
         "When people are there: \"Fri 16:00-21:00; Sat 8:00-18:00\"");
  option("--air", options->air_file, "FILE", "Readings or a forecast of the shop's air (CSV)");
  option("--in-air", options->in_air, "AIR", "The same air all the time: 14C,62%");
  option("--confidence", options->confidence, "SHARE", "How sure each wait is to be: 0.9 or 90%");
  option("--wood-moisture",
         options->wood_moisture,
         "PERCENT",
         "What the moisture meter shows: 9%; warned of when this air keeps wood otherwise");
  option("--out", options->out, "FILE", "Write there instead of on standard output");
  plan->add_flag(
      "--explain", options->explain, "Show each wait's range, mechanism, air and integral");
  plan->add_flag("--odds", options->odds, "Simulate the chance that each step and the end hold");
  plan->callback(
      [=, &global, &chosen] { chosen = [=, &global] { return run_plan(*options, global); }; });
}

}  // namespace coatwright
