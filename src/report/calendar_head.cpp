#include "report/calendar_head.h"

#include <algorithm>

#include <fmt/format.h>

#include "base/quantity_text.h"
#include "report/shop_hours.h"
#include "report/text_table.h"
#include "report/wrap.h"

namespace coatwright {
namespace {

constexpr std::size_t kLabelWidth = 12;

std::string field(std::string_view label, std::string_view text) {
  return wrap(text, padded(label, kLabelWidth), std::string(kLabelWidth, ' '));
}

std::string piece_fields(const PlanPiece& piece, const PlanView& view) {
  std::string text = field("Wood", piece.species) + field("Schedule", piece.schedule) +
                     field("Area", area_of(piece, view.units));
  if (piece.due && *piece.due != view.plan.by) {
    text += field("Due", show_full(*piece.due, view.zone));
  }
  return text;
}

/// "2 d 3 h late"; minutes only where it is less than a day.
std::string beside_date(const PlanPiece& piece) {
  if (!piece.due || !piece.finish) {
    return "-";
  }
  constexpr std::chrono::hours kDay{24};
  const auto apart = *piece.due - *piece.finish;
  const auto span = std::chrono::abs(apart);
  const std::string text =
      show_duration(span < kDay ? span : std::chrono::round<std::chrono::hours>(span));
  return span < std::chrono::minutes(1) ? "at the date"
                                        : text + (apart < apart.zero() ? " late" : " early");
}

std::string pieces_table(const PlanView& view) {
  constexpr std::size_t kName = 14;
  const auto moment = [&](const std::optional<Time>& time, std::string_view without) {
    return time ? short_moment(shown_minute(*time), view.zone) : std::string(without);
  };
  const auto& pieces = view.plan.pieces;
  const bool has_chances = std::any_of(
      pieces.begin(), pieces.end(), [](const PlanPiece& one) { return one.chance.has_value(); });
  std::vector<TextTable::Column> columns = {
      {"piece", {}}, {"due", {}}, {"ends", {}}, {"that is", {}}};
  if (has_chances) {
    columns.push_back({"chance", {}});
  }
  TextTable table(std::move(columns));
  for (const PlanPiece& piece : pieces) {
    table.add({shortened(piece.name, kName),
               moment(piece.due, "no date"),
               moment(piece.finish, "no place"),
               beside_date(piece),
               piece.chance && piece.due ? chance_text(*piece.chance) : "-"});
  }
  return table.text();
}

/// What each piece is, in a line or two.
std::string pieces_text(const PlanView& view) {
  std::string text;
  for (const PlanPiece& piece : view.plan.pieces) {
    std::string line = fmt::format("{}: {}{}; {}",
                                   piece.name,
                                   piece.species.empty() ? "" : piece.species + ", ",
                                   piece.schedule,
                                   area_of(piece, view.units));
    if (piece.parts.size() > 1) {
      line += fmt::format("; parts: {}", fmt::join(piece.parts, ", "));
    }
    text += wrap(line + ".", 0, 2);
  }
  return text;
}

std::string verdict_of_several(const Plan& plan, const std::string& end) {
  const auto late = std::count_if(plan.pieces.begin(), plan.pieces.end(), [](const PlanPiece& one) {
    return one.late > std::chrono::seconds(0);
  });
  if (late > 0) {
    return fmt::format("Does not fit: {} of {} pieces {} late; the last ends {}.",
                       late,
                       plan.pieces.size(),
                       late == 1 ? "is" : "are",
                       end);
  }
  return fmt::format("All {} pieces are in time; the last ends {}.", plan.pieces.size(), end);
}

std::string chance_field(const Plan& plan) {
  return field(
      "Chance",
      fmt::format("{} that {}; each wait is taken at {:.0f} % confidence.",
                  chance_text(plan.chance),
                  plan.pieces.size() > 1 ? "all end by their dates" : "it ends by its date",
                  plan.confidence * 100.0));
}

std::string bound_field(const PlanView& view) {
  const Plan& plan = view.plan;
  if (!plan.bound) {
    return field("Bound", "None is known: it is open whether another plan could end sooner.");
  }
  std::string text = fmt::format("No plan can end before {}", show_full(*plan.bound, view.zone));
  if (plan.finish && *plan.finish > *plan.bound) {
    text += fmt::format("; this one ends {} after that", show_duration(*plan.finish - *plan.bound));
  } else if (plan.finish) {
    text += "; this one reaches it";
  }
  if (plan.search.stopped_by == "clock") {
    text += ". The search was stopped by the clock, so another run may differ";
  }
  return field("Bound", text + ".");
}

std::string lateness_field(const PlanLateness& late) {
  std::string text = fmt::format("{} in all, each piece's lateness times its weight",
                                 show_duration(late.weighted));
  if (late.weighted == late.bound) {
    text += "; no plan is less late.";
  } else if (late.bound > std::chrono::seconds(0)) {
    text += fmt::format("; no plan comes below {}.", show_duration(late.bound));
  } else {
    text += "; whether a plan without any exists is open.";
  }
  return field("Late", text);
}

std::string shop_text(const PlanShop& shop) {
  std::string text =
      fmt::format("up to {} {}", shop.people, shop.people == 1 ? "person" : "people");
  const auto add =
      [&](const std::optional<int>& count, std::string_view one, std::string_view many) {
        text += count ? fmt::format(", {} {}", *count, *count == 1 ? one : many) : "";
      };
  add(shop.spray_places, "spray place", "spray places");
  add(shop.rack_places, "rack place", "rack places");
  add(shop.benches, "bench", "benches");
  return text;
}

std::string search_text(const PlanSearch& search) {
  if (search.stopped_by == "proof") {
    return "Ended by proof: no plan is better by what is weighed.";
  }
  if (search.stopped_by == "clock") {
    return "Stopped by the clock before its effort was spent: another run may differ.";
  }
  return fmt::format(
      "Ended after {} nodes (seed {}) without a proof: another seed or more effort may find a "
      "better plan.",
      search.nodes,
      search.seed);
}

}  // namespace

std::string title_of(const Plan& plan) {
  std::string text;
  for (const PlanPiece& piece : plan.pieces) {
    text += (text.empty() ? "" : ", ") + piece.name;
  }
  return text.empty() ? "Plan" : text;
}

std::string verdict_of(const PlanView& view) {
  const Plan& plan = view.plan;
  if (plan.steps.empty()) {
    return "Nothing is planned: no step has a place.";
  }
  if (!plan.complete || !plan.finish) {
    return "Does not fit: not every step has its place. The plan stops at what holds it up; see "
           "the end of this page.";
  }
  const std::string end = show_full(shown_minute(*plan.finish), view.zone);
  if (plan.pieces.size() > 1) {
    return verdict_of_several(plan, end);
  }
  if (!plan.fits) {
    return fmt::format(
        "Does not fit: ends {} after the date, {}.", show_duration(*plan.finish - plan.by), end);
  }
  if (plan.finish == plan.by) {
    return fmt::format("Ends {}, at the date itself.", end);
  }
  return fmt::format("Ends {}, {} before the date.", end, show_duration(plan.by - *plan.finish));
}

std::string area_of(const PlanPiece& piece, UnitSystem units) {
  std::string text = show_area(piece.area, units);
  if (piece.faces > 1) {
    text += fmt::format(" a face, {} faces", piece.faces);
    text += piece.on_points ? " in one session (on points or hung)" : ", one after the other";
  }
  return text;
}

std::vector<std::string> handling_of(const PlanView& view) {
  std::vector<std::string> sentences;
  for (const Milestone& milestone : view.plan.milestones) {
    if (milestone.stage == "handle" && milestone.at > view.plan.by) {
      sentences.push_back(
          fmt::format("The last coat is on by then, but the piece is not to be "
                      "handled before {}, by calculation only.",
                      show_full(shown_minute(milestone.at), view.zone)));
    }
  }
  return sentences;
}

std::string calendar_head(const PlanView& view) {
  const Plan& plan = view.plan;
  const bool several = plan.pieces.size() > 1;
  std::string text = underlined(title_of(plan), '=') + wrap(verdict_of(view), 0, 0);
  for (const std::string& sentence : handling_of(view)) {
    text += wrap(sentence, 0, 0);
  }
  text += "\n";
  if (several) {
    text += pieces_table(view) + "\n" + pieces_text(view) + "\n";
  } else if (!plan.pieces.empty()) {
    text += piece_fields(plan.pieces.front(), view);
  }
  text += field("From", show_full(plan.from, view.zone));
  text += field(several ? "Last date" : "Date",
                fmt::format("{} ({})", show_full(plan.by, view.zone), view.zone.name()));
  const Time last = std::max(plan.by, plan.finish.value_or(plan.by));
  if (const auto hours = shop_hours_text(plan.hours, last, view.zone); !hours.empty()) {
    text += field("Shop hours", hours);
  }
  text += plan.shop ? field("Shop", shop_text(*plan.shop)) : "";
  if (plan.complete) {
    text += chance_field(plan) + (plan.lateness ? lateness_field(*plan.lateness) : "") +
            bound_field(view);
  }
  text += plan.shop ? field("Search", search_text(plan.search)) : "";
  return text;
}

}  // namespace coatwright
