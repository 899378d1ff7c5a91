#pragma once

#include <span>
#include <string_view>

#include "base/result.h"

/// The one list of words for how a finish came out; whatever asks for a defect takes these.
namespace coatwright {

/// What is said of a finish that came out well.
inline constexpr std::string_view kGoodOutcome = "good";

/// A defect of a finish. Source: names of the trade, common practice.
struct DefectWord {
  std::string_view word;   ///< "orange-peel"
  std::string_view means;  ///< What is seen, in a few words.
};

/// Every defect by its word; kGoodOutcome is none.
[[nodiscard]] std::span<const DefectWord> defect_words();

/// @param text a defect's word in any case, with blanks or hyphens.
/// Errors: kUsage for another, naming all that are known.
[[nodiscard]] Result<DefectWord> defect_named(std::string_view text);

/// As defect_named(), and kGoodOutcome too.
[[nodiscard]] Result<DefectWord> outcome_named(std::string_view text);

}  // namespace coatwright
