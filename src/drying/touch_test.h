#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "base/time.h"
#include "drying/stage.h"

/// Touch tests: what a maker finds by finger, paper and thumb says which drying stages a coat has
/// reached, and which not yet.
namespace coatwright {

/// What one finding says of one stage.
/// Source: the stages and their tests are those of [astm_d1640] and [iso_9117], told in words of
/// our own; "sandable" is common practice, no source. What to do is common practice.
struct TouchFinding {
  Stage stage;
  bool reached;
  std::string_view words;  ///< As the maker says it: "tacky", "sands to powder".
  std::string_view means;  ///< What was seen, in a sentence.
  std::string_view to_do;  ///< What may be done by it, and what not.
};

/// Every finding that has words, by stage; the one of "not reached" first.
[[nodiscard]] std::span<const TouchFinding> touch_findings();

/// @param text the words in any case, with blanks or hyphens.
/// Errors: kUsage for other words, naming all that are known.
[[nodiscard]] Result<TouchFinding> touch_finding_named(std::string_view text);

/// Whether a film that has reached `later` has surely reached `earlier` too: a partial order.
/// Source: [astm_d1640] names set-to-touch, dust-free, tack-free, dry-hard and dry-through in this
/// order. Judgement, no source: a film that is sandable or print-free is tack-free, since a tacky
/// one gums the paper and takes a print. All come before full cure. Nothing else is in order: of
/// the later stages of [iso_9117] part 5 it is known that they may be reached out of turn, and a
/// film that bears a hard pinch may still take a print from hours under a light load. The stages
/// of use (recoat, handle, light-use) are the recipe's judgement and no property of the film.
[[nodiscard]] bool comes_before_or_with(Stage earlier, Stage later);

/// A test of a coat, as far as contradictions need it.
struct TouchTest {
  std::int64_t id;
  Time at;
  Stage stage;
  bool reached;
};

/// Two tests of one coat that cannot both be right, by their ids.
struct TouchContradiction {
  std::int64_t reached;      ///< This found a stage reached ...
  std::int64_t not_reached;  ///< ... and this, no sooner, that stage or one before it not reached.

  bool operator==(const TouchContradiction&) const = default;
};

/// @param tests of one coat at one place, in any order.
/// @return each pair of them that contradict each other: drying does not run backwards.
[[nodiscard]] std::vector<TouchContradiction> touch_contradictions(
    std::span<const TouchTest> tests);

}  // namespace coatwright
