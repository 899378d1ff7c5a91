#include "cli/schedule_command.h"

#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "cli/schedule_check.h"
#include "report/wrap.h"

namespace coatwright {
namespace {

std::string joined(const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& word : words) {
    text += (text.empty() ? "" : ", ") + word;
  }
  return text;
}

std::string show_coat(const ScheduleStep& step, UnitSystem units) {
  std::string text = fmt::format("{} {} of {}, {}",
                                 step.coats,
                                 step.coats == 1 ? "coat" : "coats",
                                 step.product,
                                 name_of(step.method));
  if (step.thinning) {
    text += fmt::format(
        ", with {:.0f} % {}", step.thinning->share * 100.0, step.thinning->thinner.solvent);
  }
  if (step.wet_film) {
    text += units == UnitSystem::kUs ? fmt::format(", {:.1f} mil wet", step.wet_film->mils())
                                     : fmt::format(", {:.0f} um wet", step.wet_film->micrometres());
  }
  return text;
}

std::string show_step(const ScheduleStep& step, UnitSystem units) {
  std::string text = step.kind == ScheduleStepKind::kCoat
                         ? show_coat(step, units)
                         : fmt::format("{} {}", name_of(step.kind), joined(step.grits));
  text.erase(text.find_last_not_of(' ') + 1);
  return step.note.empty() ? text : text + ": " + step.note;
}

std::string as_text(const Schedule& schedule, UnitSystem units) {
  std::string text = underlined(fmt::format("{}: {}", schedule.name, schedule.title), '-');
  text += wrap(schedule.summary, 0, 0);
  text += schedule.uses.empty() ? "" : wrap("For " + schedule.uses, 0, 0);
  text += schedule.tools.empty() ? "" : wrap("Tools: " + joined(schedule.tools), 0, 0);
  text += "\n";
  int number = 1;
  for (const ScheduleStep& step : schedule.steps) {
    text += wrap(show_step(step, units), fmt::format("{:>3}. ", number++), "     ");
  }
  return text;
}

nlohmann::ordered_json as_json(const ScheduleStep& step) {
  nlohmann::ordered_json whole = {{"kind", name_of(step.kind)}};
  if (!step.grits.empty()) {
    whole["grits"] = step.grits;
  }
  if (step.kind == ScheduleStepKind::kCoat) {
    whole["product"] = step.product;
    whole["method"] = name_of(step.method);
    whole["coats"] = step.coats;
  }
  if (step.thinning) {
    whole["thinner"] = step.thinning->thinner.solvent;
    whole["thinner_percent"] = rounded(step.thinning->share * 100.0, 1);
  }
  if (step.wet_film) {
    whole["wet_film_um"] = rounded(step.wet_film->micrometres(), 1);
  }
  if (!step.note.empty()) {
    whole["note"] = step.note;
  }
  return whole;
}

std::string as_json(const Schedule& schedule) {
  nlohmann::ordered_json whole = {{"name", schedule.name},
                                  {"title", schedule.title},
                                  {"summary", schedule.summary},
                                  {"uses", schedule.uses},
                                  {"tools", schedule.tools},
                                  {"steps", nlohmann::ordered_json::array()}};
  for (const ScheduleStep& step : schedule.steps) {
    whole["steps"].push_back(as_json(step));
  }
  return whole.dump(2) + "\n";
}

Result<ExitCode> run_show(const std::string& name, const GlobalOptions& global) {
  const auto session = open_session(global, Store::Mode::kRead);
  if (!session) {
    return pass_on(session.error());
  }
  const auto book = open_recipes(global);
  if (!book) {
    return pass_on(book.error());
  }
  const auto schedule = book->schedule(name);
  if (!schedule) {
    return pass_on(schedule.error());
  }
  print_out(session->json ? as_json(**schedule) : as_text(**schedule, session->units));
  return ExitCode::kDone;
}

std::string list_entry(const Schedule& schedule) {
  return wrap(fmt::format("{}: {}", schedule.name, schedule.title), 0, 4) +
         wrap(schedule.summary, 4, 4) +
         (schedule.uses.empty() ? "" : wrap("For " + schedule.uses, 4, 4));
}

Result<ExitCode> run_list(const GlobalOptions& global) {
  const auto book = open_recipes(global);
  if (!book) {
    return pass_on(book.error());
  }
  std::string text;
  nlohmann::ordered_json whole = nlohmann::ordered_json::array();
  for (const std::string& name : book->schedule_names()) {
    const auto schedule = book->schedule(name);
    if (!schedule) {
      return pass_on(schedule.error());
    }
    text += list_entry(**schedule);
    whole.push_back({{"name", name},
                     {"title", (*schedule)->title},
                     {"summary", (*schedule)->summary},
                     {"uses", (*schedule)->uses}});
  }
  print_out(global.json ? whole.dump(2) + "\n" : text);
  return ExitCode::kDone;
}

using RunOnText = Result<ExitCode> (*)(const std::string& text, const GlobalOptions& global);

void add_on_text(CLI::App* command,
                 const std::string& what,
                 RunOnText run,
                 const GlobalOptions& global,
                 Work& chosen) {
  auto text = std::make_shared<std::string>();
  command->add_option(what, *text)->required()->type_name("");
  command->callback(
      [=, &global, &chosen] { chosen = [=, &global] { return run(*text, global); }; });
}

}  // namespace

void add_schedule(CLI::App& app, const GlobalOptions& global, Work& chosen) {
  CLI::App& group = add_group(app, "schedule", "The finishing schedules");
  CLI::App* list = group.add_subcommand("list", "List the schedules");
  list->callback([&global, &chosen] { chosen = [&global] { return run_list(global); }; });
  add_on_text(
      group.add_subcommand("show", "Show a schedule's steps"), "name", run_show, global, chosen);
  add_schedule_check(group, global, chosen);
}

}  // namespace coatwright
