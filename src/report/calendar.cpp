#include "report/calendar.h"

#include "report/calendar_changes.h"
#include "report/calendar_days.h"
#include "report/calendar_foot.h"
#include "report/calendar_head.h"
#include "report/calendar_odds.h"
#include "report/week_chart.h"

namespace coatwright {

std::string show_calendar(const Plan& plan, const Zone& zone, UnitSystem units) {
  const PlanView view{plan, zone, units};
  return calendar_head(view) + calendar_log_warnings(view) + calendar_changes(view) +
         (has_several_parts(plan) ? week_chart(view) : "") + calendar_days(view) +
         calendar_odds(view) + calendar_foot(view);
}

}  // namespace coatwright
