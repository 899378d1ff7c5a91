#pragma once

#include <optional>
#include <string>
#include <vector>

#include "air/air_record.h"
#include "base/result.h"
#include "plan/piece_state.h"
#include "recipe/recipe_book.h"

namespace coatwright {

/// How a coat as applied stands to the windows and limits that held for it.
enum class VerdictKind {
  kInWindow,       ///< Inside its window with the confidence, air within the limits.
  kEarly,          ///< The coat beneath was not ready.
  kLate,           ///< The window had closed.
  kUnabraded,      ///< What lies beneath holds it only when it is abraded.
  kOutsideLimits,  ///< The air was not what the product needs.
  kForbidden,      ///< The product must never go over what lies there.
};

/// "in window", "early", "late", "not abraded", "outside limits", "never".
[[nodiscard]] std::string_view name_of(VerdictKind kind);

/// One finding; a coat may have several (early and too cold).
struct Finding {
  VerdictKind kind = VerdictKind::kInWindow;
  std::chrono::seconds by{0};  ///< How early or late; 0 for the others.
  std::optional<Time> moment;  ///< When the window opens, closed, or in it: closes.
  double chance = 1.0;         ///< That the coat was inside its window all the same; 0 unabraded.
  std::string text;            ///< What was found, with its figures.
  std::string may_happen;      ///< What may come of it.
  std::string first;           ///< What to do while it is not yet on.
  std::string to_do;           ///< That, and what to do when it is on already.
  std::string source;          ///< Key of the figure's source.
};

/// The findings on one coat, worst first; never empty: "in window" stands alone.
struct Verdict {
  std::vector<Finding> findings;
  AirState air;  ///< At the coat.

  [[nodiscard]] VerdictKind kind() const { return findings.front().kind; }
};

/// Judges a coat at a moment, before or after the fact.
/// @param under the last coat on its face; null on bare wood. @param abraded whether the face was
/// abraded since. @param confidence 0.5 .. 0.99.
/// Errors: kNotFound when nothing is known of the pair; from the recipes.
[[nodiscard]] Result<Verdict> judge_coat(const Product& product,
                                         Time at,
                                         const LaidCoat* under,
                                         bool abraded,
                                         double confidence,
                                         const RecipeBook& book,
                                         const AirRecord& air);

}  // namespace coatwright
