#include <exception>

#include <CLI/CLI.hpp>

#include "cli/advise_command.h"
#include "cli/air_command.h"
#include "cli/coat_command.h"
#include "cli/common.h"
#include "cli/handover_command.h"
#include "cli/moisture_command.h"
#include "cli/now_command.h"
#include "cli/outcome_command.h"
#include "cli/piece_command.h"
#include "cli/plan_command.h"
#include "cli/product_command.h"
#include "cli/quantities_command.h"
#include "cli/safety_command.h"
#include "cli/schedule_command.h"
#include "cli/shop_command.h"
#include "cli/step_command.h"
#include "cli/story_command.h"
#include "cli/strike_command.h"
#include "cli/touch_command.h"
#include "cli/watch_command.h"
#include "cli/why_command.h"

namespace coatwright {
namespace {

/// Declares every command; --help lists them in this order.
void add_commands(CLI::App& app, const GlobalOptions& global, Work& chosen) {
  add_plan(app, global, chosen);
  add_advise(app, global, chosen);
  add_now(app, global, chosen);
  add_watch(app, global, chosen);
  add_coat(app, global, chosen);
  add_done(app, global, chosen);
  add_skip(app, global, chosen);
  add_touch(app, global, chosen);
  add_moisture(app, global, chosen);
  add_outcome(app, global, chosen);
  add_strike(app, global, chosen);
  add_story(app, global, chosen);
  add_why(app, global, chosen);
  add_piece(app, global, chosen);
  add_shop(app, global, chosen);
  add_air(app, global, chosen);
  add_product(app, global, chosen);
  add_schedule(app, global, chosen);
  add_quantities(app, global, chosen);
  add_safety(app, global, chosen);
  add_handover(app, global, chosen);
}

ExitCode run(int count, char** words) {
  CLI::App app("Plans the finishing of furniture: coats, waits and dates for the shop's own air.",
               "coatwright");
  GlobalOptions global;
  Work chosen;
  add_global_options(app, global);
  add_commands(app, global, chosen);
  if (const auto ended = parse_call(app, count, words)) {
    return *ended;
  }
  const auto answer = chosen ? chosen() : show_today(global);
  return answer ? *answer : report_error(answer.error());
}

}  // namespace
}  // namespace coatwright

int main(int count, char** words) {
  using coatwright::ErrorCode;
  try {
    return static_cast<int>(coatwright::run(count, words));
  } catch (const std::exception& fault) {
    return static_cast<int>(coatwright::report_error({ErrorCode::kFault, fault.what(), {}}));
  }
}
