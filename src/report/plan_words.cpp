#include "report/plan_words.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <utility>

#include <date/date.h>
#include <fmt/format.h>

#include "base/quantity_text.h"

namespace coatwright {
namespace {

// "the front of the top", "both faces", "the piece"; "it" where the line has said what it is about.
std::string target_of(const Plan& plan, const PlanStep& step, bool with_face = true) {
  const bool is_named = has_several_parts(plan);
  std::string text = is_whole(step.part) || is_named ? "" : "the " + step.part;
  if (with_face && !step.face.empty()) {
    const std::string face = step.face == "both" ? "both faces" : "the " + step.face;
    text = text.empty() ? face : face + " of " + text;
  }
  return !text.empty() ? text : is_named ? "it" : "the piece";
}

std::string product_of(const PlanStep& step) {
  return step.product_title.empty() ? step.product : lower_first(step.product_title);
}

std::string apply_sentence(const std::string& target, const PlanStep& step) {
  constexpr std::array<std::pair<std::string_view, std::string_view>, 4> kVerbs = {
      {{"wipe", "Wipe"}, {"brush", "Brush"}, {"pad", "Pad"}, {"spray", "Spray"}}};
  std::string_view verb = "Put";
  for (const auto& [method, word] : kVerbs) {
    verb = step.method == method ? word : verb;
  }
  const std::string coat = step.coat > 0 ? fmt::format("coat {} of ", step.coat) : "";
  return fmt::format("{} {}{} on {}", verb, coat, product_of(step), target);
}

std::string with_product(std::string text, const PlanStep& step) {
  const std::string product = product_of(step);
  return product.empty() ? text : text + " with " + product;
}

std::string of_product(const PlanStep& step) {
  const std::string product = product_of(step);
  return product.empty() ? "" : " (" + product + ")";
}

// A clean step that names a product cleans its tools; dust is nobody's product.
std::string clean_sentence(const Plan& plan, const PlanStep& step) {
  return step.product.empty() ? "Take the dust off " + target_of(plan, step) : "Clean the tools";
}

std::string mix_sentence(const PlanStep& step) {
  return "Mix " + product_of(step) + (step.method == "spray" ? " and set up the gun" : "");
}

// The coat that a step prepares.
std::string coat_it_prepares(const PlanStep& step) {
  const bool prepares = step.kind == StepKind::kAbrade || step.kind == StepKind::kMix;
  return prepares && step.coat > 0 ? fmt::format(" for coat {}", step.coat) : "";
}

// NOLINTNEXTLINE(readability-function-size): one line for each kind of step.
std::string bare_sentence(const Plan& plan, const PlanStep& step) {
  const std::string target = target_of(plan, step);
  const std::string whole = target_of(plan, step, false);
  switch (step.kind) {
    case StepKind::kSample:
      return "Make the sample board for " + whole;
    case StepKind::kSand:
      return "Sand " + target;
    case StepKind::kClean:
      return clean_sentence(plan, step);
    case StepKind::kRaiseGrain:
      return "Raise the grain of " + target;
    case StepKind::kWash:
      return with_product("Wash " + target, step);
    case StepKind::kFill:
      return with_product("Fill " + target, step);
    case StepKind::kMask:
      return "Mask " + target;
    case StepKind::kMix:
      return mix_sentence(step);
    case StepKind::kApply:
      return apply_sentence(target, step);
    case StepKind::kWipe:
      return "Wipe the excess off " + target + of_product(step);
    case StepKind::kRags:
      return "See to the rags at once" + of_product(step);
    case StepKind::kAbrade:
      return "Abrade " + target;
    case StepKind::kFlip:
      return "Turn " + whole + " over";
    case StepKind::kUnmask:
      return "Take the masking off " + target;
    case StepKind::kGlue:
      return with_product("Glue " + whole + " up", step);
    case StepKind::kDryFit:
      return "Fit " + whole + " together dry";
    case StepKind::kAssemble:
      return "Assemble " + whole;
    case StepKind::kHardware:
      return "Fit the hardware to " + whole;
    case StepKind::kRubOut:
      return "Rub out " + target;
    case StepKind::kCleanGun:
      return "Clean the gun" + of_product(step);
    case StepKind::kFanOff:
      return "Fan off not before now, by calculation only; measure";
    case StepKind::kReenter:
      return "Without a respirator in the finishing room not before now, by calculation only; "
             "measure";
    case StepKind::kCleanBooth:
      return "Clean the booth: every deposit out of it, its filters new";
    case StepKind::kWait:
      // What dries lies on the rack; only clamps keep a bench.
      return "Leave " + target + (step.benches > 0 ? " in clamps" : " to dry") + of_product(step);
    case StepKind::kInspect:
      return "Look " + target + " over";
    case StepKind::kDeliver:
      return "Deliver " + whole;
  }
  return std::string(name_of(step.kind)) + " " + target;
}

// What a film must have reached, by the stage's name.
std::string needed_state(std::string_view stage) {
  constexpr std::array<std::pair<std::string_view, std::string_view>, 11> kStates = {{
      {"recoat", "must be dry enough to recoat"},
      {"sandable", "must be dry enough to sand"},
      {"handle", "must be dry enough to turn over"},
      {"rub-out", "must be hard enough to rub out"},
      {"pot life", "must have stood after it was mixed"},
      {"wipe-off", "must stand before it is wiped off"},
      {"light-use", "must be ready for light use"},
      {"full-cure", "must be fully cured"},
      {"print-free", "must be past leaving prints"},
      {"clamps-off", "must have set in its clamps"},
      {"surfacing", "must have lost its water, or the line sinks after it is sanded"},
  }};
  for (const auto& [name, state] : kStates) {
    if (name == stage) {
      return std::string(state);
    }
  }
  return fmt::format("must be {}", stage);
}

// fmt writes -0.04 with one decimal as "-0.0".
std::string without_minus_zero(std::string text) {
  const bool zero = text.find_first_of("123456789") == std::string::npos;
  return zero && !text.empty() && text[0] == '-' ? text.substr(1) : text;
}

}  // namespace

std::vector<const PlanStep*> steps_in_order(const Plan& plan) {
  std::vector<const PlanStep*> steps;
  for (const PlanStep& step : plan.steps) {
    steps.push_back(&step);
  }
  std::stable_sort(steps.begin(), steps.end(), [](const PlanStep* a, const PlanStep* b) {
    return a->start < b->start;
  });
  return steps;
}

std::string sentence_of(const Plan& plan, const PlanStep& step) {
  std::string text = bare_sentence(plan, step) + coat_it_prepares(step);
  const bool is_named = has_several_parts(plan) && !step.piece.empty();
  if (is_named) {
    text = part_label(step.piece, step.part) + ": " + lower_first(std::move(text));
  }
  if (!step.grit.empty()) {
    text += ", " + step.grit;
  }
  if (step.people > 1 && !is_named) {
    text += fmt::format(", {} people", step.people);
  }
  if (step.room != "finishing" && !step.room.empty()) {
    text += " (" + step.room + " room)";
  }
  return text;
}

bool has_several_parts(const Plan& plan) {
  const bool one = plan.pieces.size() == 1 && plan.pieces.front().parts.size() <= 1;
  return !plan.pieces.empty() && !one;
}

std::string part_label(std::string_view piece, std::string_view part) {
  return is_whole(part) ? std::string(piece) : fmt::format("{}, {}", piece, part);
}

std::string uses_of(const Plan& plan, const PlanStep& step) {
  std::vector<std::string> uses;
  const auto add = [&](int count, std::string_view one, std::string_view several) {
    if (count > 0) {
      uses.push_back(count == 1 ? std::string(one) : fmt::format("{} {}", count, several));
    }
  };
  add(step.attended && step.people > 1 ? step.people : 0, "", "people");
  const PlanShop shop = plan.shop.value_or(PlanShop());
  add(shop.spray_places ? step.spray_places : 0, "spray place", "spray places");
  add(shop.benches ? step.benches : 0, "bench", "benches");
  add(shop.rack_places ? step.rack_places : 0, "rack place", "rack places");
  return fmt::format("{}", fmt::join(uses, ", "));
}

std::string title_in_sentence(const Plan& plan, std::string_view product) {
  for (const PlanStep& step : plan.steps) {
    if (step.product == product && !step.product_title.empty()) {
      return lower_first(step.product_title);
    }
  }
  return lower_first(std::string(product));
}

std::string lower_first(std::string text) {
  const auto is_lower = [](char c) { return std::islower(static_cast<unsigned char>(c)) != 0; };
  if (text.size() > 1 && is_lower(text[1])) {
    text[0] = static_cast<char>(std::tolower(static_cast<unsigned char>(text[0])));
  }
  return text;
}

bool is_whole(std::string_view part) {
  return part.empty() || part == "all";
}

std::string reason_of(const Plan& plan, const Wait& wait) {
  if (wait.product.empty()) {
    return wait.stage + " must be over";
  }
  return title_in_sentence(plan, wait.product) + " " + needed_state(wait.stage);
}

std::string use_at_stage(std::string_view stage) {
  constexpr std::array<std::pair<std::string_view, std::string_view>, 6> kUses = {{
      {"handle", "lift and turn over, with care"},
      {"recoat", "coat again"},
      {"sandable", "sand"},
      {"print-free", "stack or wrap (print-free)"},
      {"light-use", "light use"},
      {"full-cure", "full use (fully cured)"},
  }};
  for (const auto& [name, use] : kUses) {
    if (name == stage) {
      return std::string(use);
    }
  }
  return std::string(stage);
}

std::string hours_text(Hours value, Hours scale) {
  constexpr double kMinutesBelow = 2.0;
  constexpr double kWholeHoursFrom = 100.0;
  if (scale.hours() < kMinutesBelow) {
    return fmt::format("{:.0f} min", std::abs(value.minutes()));
  }
  return fmt::format("{:.{}f} h", std::abs(value.hours()), scale.hours() < kWholeHoursFrom ? 1 : 0);
}

std::string chance_text(double chance) {
  constexpr double kAlmostCertain = 0.99;
  constexpr double kAlmostNever = 0.01;
  if (chance > kAlmostCertain) {
    return "over 99 %";
  }
  return chance < kAlmostNever ? "under 1 %" : fmt::format("{:.0f} %", chance * 100.0);
}

std::string reference_air_text(UnitSystem units) {
  return show_whole_temperature(kReferenceTemperature, units) + " / " +
         show_humidity(kReferenceHumidity);
}

std::string temperature_text(Temperature value, UnitSystem units) {
  return without_minus_zero(show_temperature(value, units));
}

std::string difference_text(TemperatureDifference value, UnitSystem units) {
  return without_minus_zero(show_difference(value, units));
}

Time shown_minute(Time time) {
  return std::chrono::ceil<std::chrono::minutes>(time);
}

std::string moment_text(Time time, Time near, const Zone& zone) {
  constexpr std::chrono::hours kWeekdayIsClear{6 * 24};
  const auto apart = std::chrono::abs(time - near);
  return apart < kWeekdayIsClear ? show_day_and_time(time, zone) : show_full(time, zone);
}

std::string short_moment(Time time, const Zone& zone) {
  constexpr std::size_t kLetters = 3;  // of a month's name
  const std::string full = show_date(time, zone);
  const auto day_end = full.find(' ', full.find(' ') + 1);
  return full.substr(0, day_end + 1 + kLetters) + " " + show_clock(time, zone);
}

std::string span_text(Time start, Time end, const Zone& zone) {
  const auto day_of = [&](Time time) { return date::floor<date::days>(zone.to_local(time)); };
  if (start == end) {
    return show_clock(start, zone);
  }
  const bool same_day = day_of(start) == day_of(end);
  return show_clock(start, zone) + "-" +
         (same_day ? show_clock(end, zone) : show_day_and_time(end, zone));
}

}  // namespace coatwright
