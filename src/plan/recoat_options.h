#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "plan/piece_state.h"
#include "plan/work_sequence.h"
#include "recipe/recipe_book.h"

namespace coatwright {

/// One face's window for the next coat, with the moments filled in while it is placed.
struct RecoatChoice {
  LaidCoat coat;
  StageTiming opening;
  std::optional<StageTiming> closing;
  std::string reason;
  std::string dissent;
  std::string source;
  Time opens_at;
  std::optional<Time> closes_at;
};

/// How a choice stands at a moment.
[[nodiscard]] WindowDeviates window_deviates(const RecoatChoice& choice,
                                             Time at,
                                             DryingClocks& clocks);
/// The chance that its window is open and not yet closed at a moment.
[[nodiscard]] double chance_in_window(const RecoatChoice& choice, Time at, DryingClocks& clocks);

/// One way to recoat all faces of a session.
struct RecoatOption {
  std::string abrade_grit;             ///< Empty: the coat goes on as the faces are.
  bool abrading_is_scheduled = false;  ///< The schedule abrades here whatever the window is.
  bool after_abrading = false;         ///< The windows are those of an abraded face.
  std::vector<RecoatChoice> choices;   ///< One per face that has a coat.
};

/// The ways in which a coat may go on over what lies there: as it is, or abraded first.
/// A face that was abraded since its last coat is not abraded again.
/// Errors: kOutOfRange when the compatibility table forbids it, with the reason and what in between
/// would make it work; kNotFound when nothing is known of the pair.
[[nodiscard]] Result<std::vector<RecoatOption>> recoat_options(const WorkItem& work,
                                                               const PieceState& state,
                                                               const RecipeBook& book);

}  // namespace coatwright
