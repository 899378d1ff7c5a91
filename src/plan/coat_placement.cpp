#include "plan/coat_placement.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace coatwright {
namespace {

using std::chrono::seconds;

constexpr std::chrono::minutes kStep{5};

}  // namespace

Result<CoatSearch> CoatPlacement::earliest(const WorkItem& work,
                                           const std::vector<RecoatOption>& options,
                                           const PieceState& state,
                                           const PrescribedSession* prescribed) {
  CoatSearch search;
  for (std::size_t i = 0; i < options.size(); ++i) {
    if (prescribed != nullptr && prescribed->option && *prescribed->option != i) {
      continue;
    }
    PlacedCoat placed;
    placed.option = i;
    if (auto tried = try_option(work, options[i], std::move(placed), state, prescribed, search);
        !tried) {
      return pass_on(tried.error());
    }
  }
  if (!search.placed && search.why_not.empty()) {
    search.why_not = fmt::format(
        "the recoat window before coat {} ({}) is missed and its product "
        "cannot be abraded instead",
        work.coat,
        work.product->title);
  }
  return search;
}

Result<void> CoatPlacement::try_option(const WorkItem& work,
                                       const RecoatOption& option,
                                       PlacedCoat placed,
                                       const PieceState& state,
                                       const PrescribedSession* prescribed,
                                       CoatSearch& search) {
  const bool bound = strictness_ == Strictness::kBound;
  placed.after_abrading = option.after_abrading;
  placed.abrade_grit = bound && !option.abrading_is_scheduled ? std::string() : option.abrade_grit;
  Ready ready{state.cursor, state.cursor};
  if (state.sanded_until) {
    ready.apply = std::max(ready.apply, *state.sanded_until + SessionPlanner::kSettling);
  }
  if (!placed.abrade_grit.empty()) {
    const auto sandable = state.all_reached(Stage::kSandable, work.faces, clocks_, rule_);
    // No sanding while any film in the room would catch the dust.
    const auto dust_free = state.all_reached(Stage::kDustFree, state.every_face(), clocks_, rule_);
    if (!sandable || !dust_free) {
      search.why_not = sandable ? dust_free.error().message : sandable.error().message;
      return {};
    }
    ready.abrade = std::max(*sandable, *dust_free);
  }
  for (RecoatChoice choice : option.choices) {
    const auto opens =
        choice.coat.since_end(clocks_).opens(choice.opening, rule_.deviate, rule_.horizon);
    if (!opens) {
      search.why_not = never_dries(choice.coat, name_of(Stage::kRecoat));
      return {};
    }
    choice.opens_at = *opens;
    if (bound) {
      choice.closing.reset();
    }
    if (choice.closing) {
      choice.closes_at =
          choice.coat.since_begin(clocks_).closes(*choice.closing, -rule_.deviate, rule_.horizon);
    }
    ready.apply = std::max(ready.apply, *opens);
    placed.choices.push_back(std::move(choice));
  }
  return settle(work, std::move(placed), ready, state, prescribed, search);
}

HandlingTimes CoatPlacement::handling_times(const Product& product, Time at) {
  return {wipe_closes(product, at, clocks_), pot_life_of(product, at, clocks_)};
}

HandlingTimes CoatPlacement::shortest_times(const Product& product, const PlacedCoat& placed) {
  HandlingTimes shortest = handling_times(product, placed.applied());
  for (const SessionPart& part : placed.session.parts) {
    const Time begun = placed.start + part.offset;
    if (part.kind == StepKind::kApply) {
      shortest.wipe_closes = std::min(shortest.wipe_closes, wipe_closes(product, begun, clocks_));
    } else if (part.kind == StepKind::kMix) {
      const auto lasts = pot_life_of(product, begun + part.length, clocks_);
      shortest.pot_life = std::min(shortest.pot_life, lasts);
    }
  }
  return shortest;
}

Result<BenchSession> CoatPlacement::session_at(const WorkItem& work,
                                               const PlacedCoat& placed,
                                               const PrescribedSession* prescribed,
                                               const HandlingTimes& times) const {
  if (prescribed != nullptr && prescribed->session) {
    return *prescribed->session;
  }
  return sessions_.coat(work, placed.abrade_grit, times);
}

Result<void> CoatPlacement::settle(const WorkItem& work,
                                   PlacedCoat placed,
                                   Ready ready,
                                   const PieceState& state,
                                   const PrescribedSession* prescribed,
                                   CoatSearch& search) {
  // Moves the session later until hours, air and windows all agree.
  HandlingTimes shortest{seconds::max(), seconds::max()};
  while (true) {
    ++search.tried;
    const HandlingTimes times = handling_times(*work.product, ready.apply).at_most(shortest);
    const auto session = session_at(work, placed, prescribed, times);
    if (!session && session.error().code == ErrorCode::kNo) {
      search.why_not = session.error().message;
      return {};
    }
    if (!session) {
      return pass_on(session.error());
    }
    placed.session = *session;
    const Time first = std::max({state.cursor, ready.abrade, ready.apply - session->apply_offset});
    const auto start = hours_.first_fit(first, session->length);
    if (!start) {
      search.why_not = hours_.why_none(session->length, work.product->title);
      return {};
    }
    placed.start = *start;
    // Sections and batches must be small enough for the air in which they are wetted.
    const bool is_shared = prescribed != nullptr && prescribed->session;
    const HandlingTimes here =
        is_shared ? times : shortest_times(*work.product, placed).at_most(times);
    if (here != times) {
      shortest = here;
      continue;
    }
    const auto kept = moment_within_limits(work, placed, search.why_not);
    if (!kept) {
      return {};
    }
    if (*kept > placed.applied()) {
      placed.limits_wait += *kept - placed.applied();
      ready.apply = *kept;
      continue;
    }
    const auto inside = moment_in_windows(placed, search.missed);
    if (!inside) {
      return {};
    }
    if (*inside > placed.applied()) {
      ready.apply = *inside;
      continue;
    }
    if (!search.placed || placed.applied() < search.placed->applied()) {
      search.placed = std::move(placed);
    }
    return {};
  }
}

/// @return the placed moment itself when the air keeps the limits from it to the critical stage; a
/// later moment to try; nothing (and why_not) when none is left.
std::optional<Time> CoatPlacement::moment_within_limits(const WorkItem& work,
                                                        const PlacedCoat& placed,
                                                        std::string& why_not) {
  const AirLimits limits(clocks_.air(), *work.product);
  LaidCoat coat;
  coat.product = work.product;
  set_film(coat, *work.step);
  coat.ended = placed.wet_until();
  const auto set = coat.past_critical_stage(clocks_, rule_);
  // A film that never sets must keep its limits to the end, and is not laid even then.
  const auto breach = limits.first_breach(placed.applied(), set.value_or(rule_.horizon));
  if (!breach && !set) {
    why_not = never_dries(coat, name_of(work.product->limits.critical_stage));
    return std::nullopt;
  }
  if (!breach) {
    return placed.applied();
  }
  const auto kept = limits.next_kept(breach->at, rule_.horizon);
  if (!kept) {
    why_not = fmt::format(
        "Coat {} ({}) cannot go on: {}, and that does not change before the plan "
        "is given up",
        work.coat,
        work.product->title,
        breach->text);
  }
  return kept;
}

/// @return the placed moment itself when it lies in every window with the confidence; a later one
/// to try; nothing when a window is missed.
std::optional<Time> CoatPlacement::moment_in_windows(const PlacedCoat& placed,
                                                     std::optional<RecoatChoice>& missed) {
  const auto stroke_takes = placed.wet_until() - placed.applied();
  for (const RecoatChoice& choice : placed.choices) {
    if (!choice.closing) {
      continue;
    }
    Time at = placed.applied();
    while (at + stroke_takes <= *choice.closes_at && chance_of(choice, at) < request_.confidence) {
      at += kStep;
    }
    if (at + stroke_takes > *choice.closes_at) {
      missed = choice;
      return std::nullopt;
    }
    if (at > placed.applied()) {
      return at;
    }
  }
  return placed.applied();
}

WindowDeviates CoatPlacement::deviates_of(const RecoatChoice& choice, Time at) {
  return window_deviates(choice, at, clocks_);
}

double CoatPlacement::chance_of(const RecoatChoice& choice, Time at) {
  return chance_in_window(choice, at, clocks_);
}

}  // namespace coatwright
