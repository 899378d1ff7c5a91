#include "cli/schedule_command.h"

#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "cli/schedule_check.h"
#include "cli/schedule_filter.h"
#include "cli/schedule_text.h"
#include "recipe/adaptation.h"

namespace coatwright {
namespace {

/// What `schedule show` was asked for.
struct ShowOptions {
  std::string name;
  std::string species;
  std::string surface;  ///< Empty: planed.
};

Result<ExitCode> print_shown(const ShownSchedule& shown, const Session& session) {
  print_out(session.json ? schedule_as_json(shown) : schedule_as_text(shown, session.units));
  return ExitCode::kDone;
}

/// Prints a schedule as it is for one wood.
Result<ExitCode> show_on_wood(const Schedule& schedule,
                              const ShowOptions& options,
                              const RecipeBook& book,
                              const Session& session) {
  const auto species = book.species(options.species);
  const auto surface = options.surface.empty() ? Result<WoodSurface>(WoodSurface{})
                                               : parse_wood_surface(options.surface);
  if (!species || !surface) {
    return pass_on(!species ? species.error() : surface.error());
  }
  const auto concrete = adapted(schedule, **species, *surface, book);
  if (!concrete) {
    return pass_on(concrete.error());
  }
  const auto hazards = hazards_of(*concrete, book);
  if (!hazards) {
    return pass_on(hazards.error());
  }
  return print_shown({*concrete, *hazards, *species, *surface}, session);
}

Result<ExitCode> run_show(const ShowOptions& options, const GlobalOptions& global) {
  if (options.species.empty() && !options.surface.empty()) {
    return fail(ErrorCode::kUsage, "--surface needs --species, the wood");
  }
  const auto session = open_session(global, Store::Mode::kRead);
  if (!session) {
    return pass_on(session.error());
  }
  const auto book = open_recipes(global);
  if (!book) {
    return pass_on(book.error());
  }
  const auto schedule = book->schedule(options.name);
  if (!schedule) {
    return pass_on(schedule.error());
  }
  if (!options.species.empty()) {
    return show_on_wood(**schedule, options, *book, *session);
  }
  const auto hazards = hazards_of(**schedule, *book);
  if (!hazards) {
    return pass_on(hazards.error());
  }
  return print_shown({**schedule, *hazards, nullptr, {}}, *session);
}

Result<ExitCode> run_list(const ScheduleFilter& filter, const GlobalOptions& global) {
  const auto book = open_recipes(global);
  if (!book) {
    return pass_on(book.error());
  }
  const auto found = filtered_schedules(filter, *book);
  if (!found) {
    return pass_on(found.error());
  }
  std::vector<ShownSchedule> all;
  std::string text;
  for (const Schedule* schedule : found->schedules) {
    const auto hazards = hazards_of(*schedule, *book);
    if (!hazards) {
      return pass_on(hazards.error());
    }
    all.push_back({*schedule, *hazards, nullptr, {}});
    text += schedule_entry(all.back());
  }
  print_out(global.json ? schedules_as_json(all) : all.empty() ? "No schedule fits.\n" : text);
  for (const Error& error : found->bad) {
    report_error(error);
  }
  if (!found->bad.empty()) {
    return ExitCode::kInput;
  }
  return all.empty() ? ExitCode::kNo : ExitCode::kDone;
}

void add_list(CLI::App& group, const GlobalOptions& global, Work& chosen) {
  CLI::App* list = group.add_subcommand("list", "List the schedules, all or those that fit");
  auto filter = std::make_shared<ScheduleFilter>();
  list->add_option("--suits", filter->suits, "For this use, such as table-top")->type_name("USE");
  list->add_option("--look", filter->look, "Of this look, such as \"clear film\"")
      ->type_name("LOOK");
  list->add_option("--sheen", filter->sheen, "Of this sheen")->type_name("SHEEN");
  list->add_option("--tool", filter->tool, "Done with this tool, such as brush")->type_name("TOOL");
  list->add_option("--skill", filter->skill, "Asking for no more skill")->type_name("SKILL");
  list->add_option("--species", filter->species, "That this wood bears")->type_name("WOOD");
  list->callback(
      [=, &global, &chosen] { chosen = [=, &global] { return run_list(*filter, global); }; });
}

void add_show(CLI::App& group, const GlobalOptions& global, Work& chosen) {
  CLI::App* show = group.add_subcommand("show", "Show a schedule's steps");
  auto options = std::make_shared<ShowOptions>();
  show->add_option("name", options->name)->required()->type_name("");
  show->add_option("--species", options->species, "As it is for this wood")->type_name("WOOD");
  show->add_option("--surface", options->surface, "How the wood was left; default planed")
      ->type_name("SURFACE");
  show->callback(
      [=, &global, &chosen] { chosen = [=, &global] { return run_show(*options, global); }; });
}

}  // namespace

void add_schedule(CLI::App& app, const GlobalOptions& global, Work& chosen) {
  CLI::App& group = add_group(app, "schedule", "The finishing schedules");
  add_list(group, global, chosen);
  add_show(group, global, chosen);
  add_schedule_check(group, global, chosen);
}

}  // namespace coatwright
