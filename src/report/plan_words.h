#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/zone.h"
#include "plan/plan.h"

/// A plan's parts in plain words, for every page that shows one.
namespace coatwright {

/// What a page is written from.
struct PlanView {
  const Plan& plan;
  const Zone& zone;
  UnitSystem units;
};

/// The plan's steps by their start.
[[nodiscard]] std::vector<const PlanStep*> steps_in_order(const Plan& plan);

/// "Spray coat 2 of nitrocellulose lacquer on the front of the top"; in a plan of several parts
/// "Sideboard, top: spray coat 2 of nitrocellulose lacquer on the front".
[[nodiscard]] std::string sentence_of(const Plan& plan, const PlanStep& step);

/// Whether the plan is of more than one part, so that each of its lines must say which it is about.
[[nodiscard]] bool has_several_parts(const Plan& plan);

/// "Sideboard, top"; the piece alone where it is finished as one thing.
[[nodiscard]] std::string part_label(std::string_view piece, std::string_view part);

/// "2 people, spray place, 3 rack places": what a step takes beside one person, of that which the
/// shop says how much it has of; may be empty.
[[nodiscard]] std::string uses_of(const Plan& plan, const PlanStep& step);

/// A product's title as it stands inside a sentence.
/// @param product its recipe name, or already its title.
[[nodiscard]] std::string title_in_sentence(const Plan& plan, std::string_view product);

/// A text as it goes on a sentence: "Oil wiping stain" loses its capital; "UV oil" keeps it.
[[nodiscard]] std::string lower_first(std::string text);

/// Whether the part of a step or milestone is the whole piece, which needs no name.
[[nodiscard]] bool is_whole(std::string_view part);

/// What a wait is for: "oil wiping stain must be dry enough to recoat".
[[nodiscard]] std::string reason_of(const Plan& plan, const Wait& wait);

/// A stage as the maker asks for it: "may be lifted and turned over, with care".
[[nodiscard]] std::string use_at_stage(std::string_view stage);

/// "24.0 h"; "15 min" or "720 h" where the amount beside it, `scale`, is below 2 h or from 100 h
/// on.
[[nodiscard]] std::string hours_text(Hours value, Hours scale);
/// "87 %"; "over 99 %" and "under 1 %" at the ends, because nothing here is certain.
[[nodiscard]] std::string chance_text(double chance);
/// "23 C / 50 %": the reference atmosphere.
[[nodiscard]] std::string reference_air_text(UnitSystem units);
/// As show_temperature, without the minus sign of a rounded zero.
[[nodiscard]] std::string temperature_text(Temperature value, UnitSystem units);
/// As show_difference, without the minus sign of a rounded zero.
[[nodiscard]] std::string difference_text(TemperatureDifference value, UnitSystem units);

/// The whole minute at or after a moment: a start that is shown is never too early.
[[nodiscard]] Time shown_minute(Time time);
/// "Sat 17:30"; with the date where it is six days or more from `near`.
[[nodiscard]] std::string moment_text(Time time, Time near, const Zone& zone);
/// "Fri 5 Mar 16:00", for tables.
[[nodiscard]] std::string short_moment(Time time, const Zone& zone);
/// "16:00-16:40", "18:00-Sat 09:00" (end on another day), "16:00" (no length).
[[nodiscard]] std::string span_text(Time start, Time end, const Zone& zone);

}  // namespace coatwright
