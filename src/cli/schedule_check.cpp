#include "cli/schedule_check.h"

#include <filesystem>
#include <memory>

#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "cli/plan_request.h"
#include "recipe/over_finish.h"
#include "recipe/schedule_check.h"
#include "report/wrap.h"

namespace coatwright {
namespace {

/// The options of `schedule check`, as typed; empty: not given.
struct CheckOptions {
  std::string which;
  std::string species;
  std::string over;
};

/// What was found of one schedule.
struct Checked {
  std::string label;
  Schedule schedule;
  std::vector<PairFinding> findings;
  std::vector<GritFinding> grits;
  std::string nearest;  ///< Empty: it is not refused, or no schedule works.
};

bool names_a_file(const std::string& which) {
  std::error_code failed;
  return which.find('/') != std::string::npos || which.ends_with(".toml") ||
         std::filesystem::exists(which, failed);
}

Result<Schedule> schedule_meant(const std::string& which, const RecipeBook& book) {
  if (!names_a_file(which)) {
    const auto schedule = book.schedule(which);
    return schedule ? Result<Schedule>(**schedule) : pass_on(schedule.error());
  }
  const auto text = read_input_file(which);
  return text ? RecipeBook::read_schedule(*text, which) : pass_on(text.error());
}

Result<Checked> check(const CheckOptions& options, const RecipeBook& book) {
  auto schedule = schedule_meant(options.which, book);
  if (!schedule) {
    return pass_on(schedule.error());
  }
  const auto surface = surface_of(options.species, "", options.over, book);
  if (!surface) {
    return pass_on(surface.error());
  }
  // Without a wood the steps for some woods are all looked at.
  if (surface->species != nullptr || surface->over != nullptr) {
    schedule = schedule_on(*schedule, *surface, book);
    if (!schedule) {
      return pass_on(schedule.error());
    }
  }
  auto findings = check_pairs(*schedule, surface->over, book);
  if (!findings) {
    Error error = findings.error();
    error.code = names_a_file(options.which) ? ErrorCode::kInputFile : error.code;
    return pass_on(std::move(error), options.which);
  }
  std::vector<GritFinding> grits = check_grits(*schedule);
  Checked checked{options.which, std::move(*schedule), std::move(*findings), std::move(grits), ""};
  if (first_refusal(checked.findings) != nullptr) {
    checked.nearest = nearest_working_schedule(checked.schedule, *surface, book);
  }
  return checked;
}

std::string show(const PairFinding& finding) {
  const PairRule& rule = finding.rule;
  std::string text =
      wrap(fmt::format(
               "{} over {}: {}", finding.over->title, finding.under->title, name_of(rule.verdict)),
           fmt::format("  step {:>2}  ", finding.step),
           "           ");
  const std::string known = rule.how.empty() ? rule.source : rule.source + ", " + rule.how;
  text += wrap(as_sentence(fmt::format("{} ({})", rule.reason, known)), 11, 11);
  if (!rule.barriers.empty()) {
    text += wrap(
        fmt::format("It would go with one of these between: {}.", fmt::join(rule.barriers, ", ")),
        11,
        11);
  }
  if (!rule.dissent.empty()) {
    text += wrap(as_sentence("Sources differ: " + rule.dissent), 11, 11);
  }
  return text;
}

std::string as_text(const Checked& checked, const RecipeBook& book) {
  const bool refused = first_refusal(checked.findings) != nullptr;
  std::string text = wrap(
      fmt::format("{}: the schedule '{}' {} ({} steps).",
                  checked.label,
                  checked.schedule.name,
                  refused ? "is refused: a coat must not go over the one beneath" : "can be used",
                  checked.schedule.steps.size()),
      0,
      0);
  for (const PairFinding& finding : checked.findings) {
    text += show(finding);
  }
  for (const GritFinding& finding : checked.grits) {
    text += wrap(finding.remark.text(), fmt::format("  step {:>2}  ", finding.step), "           ");
  }
  if (!refused) {
    return text;
  }
  const auto nearest = book.schedule(checked.nearest);
  return text + (nearest ? wrap(fmt::format("The nearest schedule that works: {} ({}).",
                                            checked.nearest,
                                            (*nearest)->title),
                                0,
                                0)
                         : "No schedule here works over that.\n");
}

nlohmann::ordered_json as_json(const PairFinding& finding) {
  const PairRule& rule = finding.rule;
  nlohmann::ordered_json whole = {{"step", finding.step},
                                  {"under", finding.under->name},
                                  {"over", finding.over->name},
                                  {"verdict", name_of(rule.verdict)},
                                  {"reason", rule.reason},
                                  {"source", rule.source}};
  if (!rule.how.empty()) {
    whole["how"] = rule.how;
  }
  if (!rule.barriers.empty()) {
    whole["barriers"] = rule.barriers;
  }
  if (!rule.dissent.empty()) {
    whole["dissent"] = rule.dissent;
  }
  return whole;
}

std::string as_json(const Checked& checked) {
  nlohmann::ordered_json whole = {{"file", checked.label},
                                  {"name", checked.schedule.name},
                                  {"ok", first_refusal(checked.findings) == nullptr},
                                  {"pairs", nlohmann::ordered_json::array()}};
  for (const PairFinding& finding : checked.findings) {
    whole["pairs"].push_back(as_json(finding));
  }
  for (const GritFinding& finding : checked.grits) {
    whole["grits"].push_back({{"step", finding.step},
                              {"from", finding.remark.from},
                              {"to", finding.remark.to},
                              {"ratio", rounded(finding.remark.ratio, 2)},
                              {"text", finding.remark.text()}});
  }
  if (!checked.nearest.empty()) {
    whole["nearest"] = checked.nearest;
  }
  return whole.dump(2) + "\n";
}

Result<ExitCode> run_check(const CheckOptions& options, const GlobalOptions& global) {
  const auto book = open_recipes(global);
  if (!book) {
    return pass_on(book.error());
  }
  const auto checked = check(options, *book);
  if (!checked) {
    return pass_on(checked.error());
  }
  print_out(global.json ? as_json(*checked) : as_text(*checked, *book));
  return first_refusal(checked->findings) == nullptr ? ExitCode::kDone : ExitCode::kNo;
}

}  // namespace

void add_schedule_check(CLI::App& group, const GlobalOptions& global, Work& chosen) {
  CLI::App* command =
      group.add_subcommand("check", "Check a schedule, by name or a file of your own");
  auto options = std::make_shared<CheckOptions>();
  command->add_option("which", options->which, "A schedule's name, or a TOML file")
      ->required()
      ->type_name("NAME|FILE");
  command->add_option("--species", options->species, "For this wood [any]")->type_name("NAME");
  command
      ->add_option("--over",
                   options->over,
                   "What lies on the piece already: a product, or old-finish [bare wood]")
      ->type_name("PRODUCT");
  command->callback(
      [=, &global, &chosen] { chosen = [=, &global] { return run_check(*options, global); }; });
}

}  // namespace coatwright
