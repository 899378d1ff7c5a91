#include "report/explanation.h"

#include <algorithm>
#include <array>
#include <map>

#include <fmt/format.h>

#include "report/air_range.h"
#include "report/plan_words.h"
#include "report/room_words.h"
#include "report/wrap.h"

namespace coatwright {
namespace {

constexpr std::size_t kLabelWidth = 16;

std::string field(std::string_view label, std::string_view text) {
  return wrap(
      text, padded("    " + std::string(label), kLabelWidth), std::string(kLabelWidth, ' '));
}

std::string section(std::string_view heading, const std::string& body) {
  return body.empty() ? "" : "\n" + underlined(heading, '-') + body;
}

std::string source_text(std::string_view source) {
  return source.empty() ? "not given" : std::string(source);
}

std::string range_text(Hours low, Hours high) {
  if (low == high) {
    return hours_text(low, low);
  }
  return hours_text(low, high) + " to " + hours_text(high, high);
}

/// Where this shop's own tests have moved a range: what the label or class says.
std::string labelled_field(const WaitPhase& phase) {
  return phase.labelled
             ? field("  label",
                     range_text(phase.labelled->low(), phase.labelled->high()) +
                         "; the range above is what this shop's touch tests have made of it")
             : "";
}

std::string law_text(const RateLaw& law) {
  std::string text = law.description();
  if (law.solvent) {
    text += fmt::format(" (log10 p/Pa = {:.5g} - {:.6g} / (T/K {} {:.5g}); {})",
                        law.solvent->a,
                        law.solvent->b,
                        law.solvent->c < 0 ? '-' : '+',
                        law.solvent->c < 0 ? -law.solvent->c : law.solvent->c,
                        source_text(law.solvent->source));
  }
  return text;
}

std::string phase_fields(const WaitPhase& phase,
                         std::string_view label,
                         Hours earned,
                         const PlanView& view) {
  const bool spread = phase.range.low() != phase.range.high();
  return field(label, law_text(phase.law)) +
         field("  range",
               fmt::format("{} at {}{}",
                           range_text(phase.range.low(), phase.range.high()),
                           reference_air_text(view.units),
                           spread ? " (10th to 90th percentile)" : "")) +
         labelled_field(phase) +
         field("  needed",
               fmt::format("{} at {:.0f} % confidence; earned by the step's start: {}",
                           hours_text(phase.needed, phase.needed),
                           view.plan.confidence * 100.0,
                           hours_text(earned, phase.needed)));
}

// A clock fills its phases in turn, and what is left over goes to the last one.
std::string phases_text(const Wait& wait, const PlanView& view) {
  std::string text;
  Hours left = wait.earned;
  for (std::size_t i = 0; i < wait.phases.size(); ++i) {
    const bool last = i + 1 == wait.phases.size();
    const Hours earned = last ? left : std::min(left, wait.phases[i].needed);
    const std::string label =
        wait.phases.size() == 1 ? std::string("law") : fmt::format("phase {}", i + 1);
    text += phase_fields(wait.phases[i], label, earned, view);
    left = left - earned;
  }
  return text;
}

std::string clock_text(const Wait& wait, const PlanStep& step, const PlanView& view) {
  std::string text = fmt::format("since {}, opens {}",
                                 moment_text(wait.since, step.start, view.zone),
                                 moment_text(shown_minute(wait.opens_at), step.start, view.zone));
  text += wait.closes_at ? ", closes " + moment_text(*wait.closes_at, step.start, view.zone)
                         : ", no closing";
  return text + (wait.condition.empty() || wait.condition == "none"
                     ? ""
                     : "; condition: " + wait.condition);
}

std::string wait_text(const Wait& wait, const PlanStep& step, const PlanView& view) {
  std::string text =
      wrap(fmt::format("{} (after step {}):", reason_of(view.plan, wait), wait.step), 2, 4);
  text += phases_text(wait, view);
  if (wait.phases.empty() && !wait.mechanism.empty()) {
    text += field("law", wait.mechanism);
  }
  if (wait.phases.size() != 1 && wait.needed.hours() > 0) {
    text += field("in all",
                  fmt::format("needed {}, earned {}",
                              hours_text(wait.needed, wait.needed),
                              hours_text(wait.earned, wait.needed)));
  }
  if (wait.gate) {
    text += field("gate", "nothing earned below " + temperature_text(*wait.gate, view.units));
  }
  text += field("clock", clock_text(wait, step, view));
  if (const AirRange air = air_between(view.plan, wait.since, step.start); !air.empty()) {
    text += field("air", air.text(view.units) + " (" + air.origins_text() + ")");
  }
  return text +
         field("chance", chance_text(wait.chance) + " of being inside the window at the start") +
         field("source", source_text(wait.source));
}

std::string waits_text(const PlanView& view) {
  std::string text;
  for (const PlanStep* step : steps_in_order(view.plan)) {
    if (step->after.empty()) {
      continue;
    }
    text += text.empty() ? "" : "\n";
    text += wrap(fmt::format("Step {}, {}: {}",
                             step->id,
                             show_full(shown_minute(step->start), view.zone),
                             sentence_of(view.plan, *step)),
                 0,
                 2);
    for (const Wait& wait : step->after) {
      text += wait_text(wait, *step, view);
    }
  }
  return text;
}

/// "waits for drying", "waits for people"; what a piece begins by stands alone.
std::string cause_text(const CriticalLink& link) {
  if (link.cause == "start") {
    return "begins with the plan";
  }
  if (link.cause == "earliest") {
    return "its piece may not be begun before";
  }
  const std::string cause = link.cause == "dust"   ? "the dust to settle"
                            : link.cause == "work" ? "the work before it"
                                                   : link.cause;
  return "waits for " + cause;
}

/// "Mon 3 May 8:30, step 12, Sand ..."
std::string step_words(int id, const PlanView& view) {
  const auto& steps = view.plan.steps;
  const auto step =
      std::find_if(steps.begin(), steps.end(), [&](const PlanStep& one) { return one.id == id; });
  std::string text = fmt::format("step {}", id);
  if (step != steps.end()) {
    text = fmt::format("{}, {}",
                       short_moment(shown_minute(step->start), view.zone),
                       text + ", " + sentence_of(view.plan, *step));
  }
  return text;
}

std::string shared_waits_text(const PlanView& view) {
  std::string text;
  for (const SharedWait& wait : view.plan.shared_waits) {
    CriticalLink link;
    link.cause = wait.cause;
    std::string line = step_words(wait.step, view) + ": " + cause_text(link);
    line += wait.after > 0 ? fmt::format(", after step {}", wait.after) : "";
    text += wrap(line + "; stood ready for " + show_duration(wait.waited), 2, 4);
  }
  return text;
}

std::string link_text(const CriticalLink& link, const PlanView& view) {
  std::string text = step_words(link.step, view);
  text += ": " + cause_text(link);
  text += link.after > 0 ? fmt::format(", after step {}", link.after) : "";
  const std::chrono::seconds none{0};
  text += link.waited > none ? "; " + show_duration(link.waited) : "";
  text += link.closed > none
              ? fmt::format(", {} of it with nobody there", show_duration(link.closed))
              : "";
  text += link.air > none ? fmt::format(", {} of it for air within limits", show_duration(link.air))
                          : "";
  return wrap(text, 2, 4);
}

std::string critical_text(const PlanView& view) {
  std::string text;
  for (const PlanPiece& piece : view.plan.pieces) {
    if (piece.critical.empty()) {
      continue;
    }
    text += wrap(piece.name + ", from its last step back:", 0, 2);
    for (const CriticalLink& link : piece.critical) {
      text += link_text(link, view);
    }
  }
  return text;
}

std::string air_text(const PlanView& view) {
  if (view.plan.air.empty()) {
    return "";
  }
  std::string text;
  const Time first = view.plan.air.front().at;
  const Time last = view.plan.air.back().at;
  for (const AirSpan& span : air_spans(view.plan, first, last)) {
    const AirRange range = air_between(view.plan, span.from, span.to);
    text += wrap(fmt::format("{} to {}: {}{}",
                             show_full(span.from, view.zone),
                             show_full(span.to, view.zone),
                             name_of(span.origin),
                             range.empty() ? "" : ", " + range.text(view.units)),
                 2,
                 4);
  }
  return text;
}

std::string rates_text(const PlanView& view) {
  std::string text;
  for (const PlanRate& rate : view.plan.rates) {
    text += wrap(rate.product + ", " + rate.stage, 2, 4);
    std::string line = fmt::format("{} at {} by {}",
                                   range_text(rate.low, rate.high),
                                   reference_air_text(view.units),
                                   law_text(rate.law));
    line += fmt::format("; times film factor {:.2f}", rate.film_factor);
    if (rate.gate) {
      line += "; nothing earned below " + temperature_text(*rate.gate, view.units);
    }
    text += wrap(line + "; source: " + source_text(rate.source), 4, 4);
  }
  return text;
}

std::string working_times_text(const PlanView& view) {
  std::map<std::string, std::vector<int>> steps;  // by source
  for (const PlanStep* step : steps_in_order(view.plan)) {
    if (!step->work_source.empty()) {
      steps[step->work_source].push_back(step->id);
    }
  }
  std::string text;
  for (const auto& [source, ids] : steps) {
    text +=
        wrap(fmt::format("{}: step{} {}", source, ids.size() == 1 ? "" : "s", fmt::join(ids, ", ")),
             2,
             4);
  }
  return text;
}

std::string or_none(const std::string& body) {
  return body.empty() ? "None.\n" : body;
}

}  // namespace

std::string show_explanation(const Plan& plan, const Zone& zone, UnitSystem units) {
  const PlanView view{plan, zone, units};
  return underlined("Why each wait is as long as it is", '=') +
         wrap(
             fmt::format("A wait is over when the hours earned reach the hours needed. One hour at "
                         "{} earns one hour; other air earns more or less, by the law of the wait. "
                         "Sources are keys of docs/references.bib.",
                         reference_air_text(units)),
             0,
             0) +
         section("Waits", or_none(waits_text(view))) +
         section("What stood ready and waited", shared_waits_text(view)) +
         section("What holds each end where it is", critical_text(view)) +
         section("The air that the clocks ran over", air_text(view)) +
         section("Rates", rates_text(view)) + section("Vapour", vapour_explained(view)) +
         section("Sources of the working times", working_times_text(view));
}

}  // namespace coatwright
