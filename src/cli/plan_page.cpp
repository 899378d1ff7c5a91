#include "cli/plan_page.h"

#include <algorithm>

#include "plan/odds.h"
#include "report/calendar.h"
#include "report/explanation.h"
#include "report/plan_json.h"
#include "report/plan_sheet.h"

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

}  // namespace

void complete_plan(const PlanOptions& options,
                   const Session& session,
                   const AirRecord& air,
                   const std::vector<std::string>& left_aside,
                   Plan& plan) {
  warn_of_assumed_air(options, session, plan);
  if (options.odds) {
    plan.odds = odds_of(plan, air, kTrials, kSeed);
  }
  for (const std::string& text : left_aside) {
    plan.warnings.push_back({"log", text, std::nullopt});
  }
}

Result<ExitCode> put_out_plan(const Plan& plan,
                              const PlanOptions& options,
                              const Session& session) {
  const auto put =
      options.print.is_on_paper()
          ? put_out_sheet(plan_sheet({plan, session.zone, session.units}), options.print, session)
          : put_out_page(page_of(plan, options, session), options.print);
  if (!put) {
    return pass_on(put.error());
  }
  return plan.fits ? ExitCode::kDone : ExitCode::kNo;
}

}  // namespace coatwright
