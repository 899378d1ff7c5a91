#include "cli/schedule_text.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "cli/common.h"
#include "report/wrap.h"

namespace coatwright {
namespace {

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

/// Whole days where it is some.
std::string hours_text(const DurationRange& range) {
  const double low = range.low().hours();
  const double high = range.high().hours();
  constexpr double kDay = 24.0;
  const bool days = low >= 2 * kDay;
  const double scale = days ? kDay : 1.0;
  const std::string unit = days ? "days" : "h";
  return low == high ? fmt::format("{:.3g} {}", low / scale, unit)
                     : fmt::format("{:.3g} to {:.3g} {}", low / scale, high / scale, unit);
}

std::vector<std::string_view> wood_names(const ScheduleStep& step) {
  std::vector<std::string_view> names;
  for (const WoodTrait trait : step.woods) {
    names.push_back(name_of(trait));
  }
  return names;
}

std::string show_step(const ScheduleStep& step, UnitSystem units) {
  std::string text = step.kind == ScheduleStepKind::kCoat
                         ? show_coat(step, units)
                         : fmt::format("{} {}", name_of(step.kind), fmt::join(step.grits, ", "));
  text.erase(text.find_last_not_of(' ') + 1);
  if (step.waits) {
    text += fmt::format(", after {}", hours_text(*step.waits));
  }
  if (!step.woods.empty()) {
    text += fmt::format(", for {} wood", fmt::join(wood_names(step), " or "));
  }
  return step.note.empty() ? text : text + ": " + step.note;
}

/// "sanded to P120", else as its name.
std::string surface_text(const WoodSurface& surface) {
  return surface.left == SurfaceLeft::kSanded ? "sanded to " + surface.grit
                                              : std::string(name_of(surface.left));
}

std::string kind_of(const Schedule& schedule) {
  return fmt::format("Look: {}{}. Sheen: {}. Skill: {}.",
                     schedule.look,
                     schedule.filled ? ", pores filled" : "",
                     name_of(schedule.sheen),
                     name_of(schedule.skill));
}

std::string hazards_text(const std::vector<std::string>& hazards) {
  return hazards.empty() ? "Hazards: see label and data sheet."
                         : fmt::format("Hazards at a glance: {}. Label and data sheet come first.",
                                       fmt::join(hazards, ", "));
}

/// What both a list's entry and a whole schedule say of it.
std::string facts_of(const ShownSchedule& shown, std::size_t indent) {
  const Schedule& schedule = shown.schedule;
  return wrap(schedule.summary, indent, indent) + wrap("For " + schedule.uses, indent, indent) +
         wrap(kind_of(schedule), indent, indent) +
         wrap(fmt::format("Suits: {}", fmt::join(schedule.suits, ", ")), indent, indent) +
         wrap(fmt::format("Tools: {}", fmt::join(schedule.tools, ", ")), indent, indent) +
         wrap(hazards_text(shown.hazards), indent, indent);
}

nlohmann::ordered_json step_json(const ScheduleStep& step) {
  nlohmann::ordered_json whole = {{"kind", name_of(step.kind)}};
  if (!step.woods.empty()) {
    whole["woods"] = wood_names(step);
  }
  if (!step.grits.empty()) {
    whole["grits"] = step.grits;
  }
  if (step.waits) {
    whole["waits_low_hours"] = rounded(step.waits->low().hours(), 2);
    whole["waits_high_hours"] = rounded(step.waits->high().hours(), 2);
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
  if (!step.source.empty()) {
    whole["source"] = step.source;
  }
  if (!step.note.empty()) {
    whole["note"] = step.note;
  }
  return whole;
}

nlohmann::ordered_json facts_json(const ShownSchedule& shown) {
  const Schedule& schedule = shown.schedule;
  return {{"name", schedule.name},
          {"title", schedule.title},
          {"summary", schedule.summary},
          {"look", schedule.look},
          {"suits", schedule.suits},
          {"uses", schedule.uses},
          {"sheen", name_of(schedule.sheen)},
          {"skill", name_of(schedule.skill)},
          {"filled", schedule.filled},
          {"tools", schedule.tools},
          {"hazards", shown.hazards}};
}

}  // namespace

Result<std::vector<std::string>> hazards_of(const Schedule& schedule, const RecipeBook& book) {
  Hazards all;
  for (const ScheduleStep& step : schedule.steps) {
    all.flammable = all.flammable || step.kind == ScheduleStepKind::kWash;
    if (step.kind != ScheduleStepKind::kCoat) {
      continue;
    }
    const auto product = book.product(step.product);
    if (!product) {
      return pass_on(product.error(), "schedule " + schedule.name);
    }
    const Hazards& one = (*product)->hazards;
    all.rags_self_heat = all.rags_self_heat || one.rags_self_heat;
    all.flammable = all.flammable || one.flammable;
    all.sprayed_mist = all.sprayed_mist || step.method == Method::kSpray;
    all.isocyanates = all.isocyanates || one.isocyanates;
    all.formaldehyde = all.formaldehyde || one.formaldehyde;
    all.nitrocellulose = all.nitrocellulose || one.nitrocellulose;
    all.catalysed = all.catalysed || one.catalysed;
  }
  std::vector<std::string> words;
  for (const auto& [there, word] :
       {std::pair(all.rags_self_heat, "rags that heat up by themselves"),
        std::pair(all.flammable, "flammable vapour"),
        std::pair(all.nitrocellulose, "nitrocellulose"),
        std::pair(all.sprayed_mist, "spray mist"),
        std::pair(all.isocyanates, "isocyanates"),
        std::pair(all.formaldehyde, "formaldehyde"),
        std::pair(all.catalysed, "hardener or catalyst")}) {
    if (there) {
      words.emplace_back(word);
    }
  }
  return words;
}

std::string schedule_as_text(const ShownSchedule& shown, UnitSystem units) {
  const Schedule& schedule = shown.schedule;
  std::string text = underlined(fmt::format("{}: {}", schedule.name, schedule.title), '-');
  if (shown.species != nullptr) {
    text += wrap(fmt::format("On {}, {}", shown.species->title, surface_text(shown.surface)), 0, 0);
  }
  text += facts_of(shown, 0) + "\n";
  int number = 1;
  for (const ScheduleStep& step : schedule.steps) {
    text += wrap(show_step(step, units), fmt::format("{:>3}. ", number++), "     ");
  }
  return text;
}

std::string schedule_as_json(const ShownSchedule& shown) {
  nlohmann::ordered_json whole = facts_json(shown);
  if (shown.species != nullptr) {
    whole["species"] = shown.species->name;
    whole["surface"] = shown.surface.grit.empty() ? name_of(shown.surface.left)
                                                  : std::string_view{shown.surface.grit};
  }
  whole["steps"] = nlohmann::ordered_json::array();
  for (const ScheduleStep& step : shown.schedule.steps) {
    whole["steps"].push_back(step_json(step));
  }
  return whole.dump(2) + "\n";
}

std::string schedule_entry(const ShownSchedule& shown) {
  return wrap(fmt::format("{}: {}", shown.schedule.name, shown.schedule.title), 0, 4) +
         facts_of(shown, 4);
}

std::string schedules_as_json(const std::vector<ShownSchedule>& all) {
  nlohmann::ordered_json whole = nlohmann::ordered_json::array();
  for (const ShownSchedule& shown : all) {
    whole.push_back(facts_json(shown));
  }
  return whole.dump(2) + "\n";
}

}  // namespace coatwright
