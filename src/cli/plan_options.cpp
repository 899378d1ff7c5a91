#include "cli/plan_options.h"

#include <CLI/CLI.hpp>

namespace coatwright {

void add_planning_options(CLI::App& command, PlanOptions& options) {
  const auto option =
      [&](const char* name, std::string& into, const char* type, const char* about) {
        return command.add_option(name, into, about)->type_name(type);
      };
  option("--piece", options.piece, "NAME", "A stored piece, or a name for one given by options");
  option(
      "--schedule", options.schedule, "NAME", "Finishing schedule, as `schedule list` shows them");
  option("--species", options.species, "NAME", "Wood, such as white-ash");
  option("--area", options.area, "AREA", "Area of one face: 1.9m2 or 20sqft");
  option("--faces",
         options.faces,
         "1|2|points",
         "1 face; 2 faces lying flat; points: both in one session")
      ->check(CLI::IsMember({"1", "2", "points"}));
  option(
      "--surface",
      options.surface,
      "SURFACE",
      "How the wood was left: sawn, planed, scraped, old-finish, or its last grit P120 [planed]");
  option("--over",
         options.over,
         "PRODUCT",
         "A finish that lies on it and stays: a product, or old-finish [bare wood]");
  option("--from", options.from, "TIME", "Start of the work; now where it is left out");
  option("--by", options.by, "TIME", "When the last step must be done: \"Sun 20:00\"");
  option("--hours",
         options.hours,
         "HOURS",
         "When people are there: \"Fri 16:00-21:00; Sat 8:00-18:00\"");
  option("--air", options.air_file, "FILE", "Readings or a forecast of the shop's air (CSV)");
  option("--in-air", options.in_air, "AIR", "The same air all the time: 14C,62%");
  option("--confidence", options.confidence, "SHARE", "How sure each wait is to be: 0.9 or 90%");
  option("--wood-moisture",
         options.wood_moisture,
         "PERCENT",
         "What the moisture meter shows: 9%; warned of when this air keeps wood otherwise");
  command.add_flag(
      "--as-labelled", options.as_labelled, "Set aside what this shop's touch tests have taught");
}

void add_search_options(CLI::App& command, PlanOptions& options) {
  command
      .add_option(
          "--effort", options.effort, "Search nodes for a plan of several pieces or parts [20000]")
      ->type_name("N")
      ->check(CLI::Range(std::int64_t{1}, std::int64_t{1'000'000'000}));
  command.add_option("--seed", options.seed, "Start of the search's random numbers [1]")
      ->type_name("N");
  command
      .add_option("--at-most",
                  options.at_most,
                  "Stop searching after this long, with the best so far: 5s, 2min")
      ->type_name("SPAN");
}

}  // namespace coatwright
