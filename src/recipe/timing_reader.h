#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "recipe/product.h"
#include "recipe/toml_reader.h"

/// What products and the compatibility table have in common: rate laws, hours and recoat intervals.
namespace coatwright {

using Stages = std::map<Stage, DryingStage>;

/// The names of all solvents that a recipe may name.
[[nodiscard]] const std::vector<std::string_view>& known_solvents();
[[nodiscard]] const NamedValues<Stage>& known_stages();

/// Reads `mechanism`, `solvent` (for evaporation alone) and `activation_kj_per_mol` (for reactions
/// alone).
[[nodiscard]] RateLaw read_rate_law(TomlTable& table);

/// Reads PREFIXlow_hours and PREFIXhigh_hours, both of which must be there.
[[nodiscard]] DurationRange read_hours(TomlTable& table);
/// @param prefix such as "opens_". @return nothing when neither key is there.
[[nodiscard]] std::optional<DurationRange> read_optional_hours(TomlTable& table,
                                                               const std::string& prefix);

/// Reads one [[stage]] into the stages; `after` may name any that is already in them.
void read_stage(TomlTable& table, Stages& stages);

/// @param before  the phases that come first. @param whole the whole range from application.
/// @return what is left for the last phase; nothing unless it is positive and in order.
[[nodiscard]] std::optional<DurationRange> rest_after(const StageTiming& before,
                                                      const DurationRange& whole);

/// A recoat interval as a file gives it: hours without a law.
struct IntervalHours {
  RecoatCondition condition = RecoatCondition::kNone;
  std::optional<DurationRange> opens;
  /// Opens with this stage of the product under, or where it has none with its latest before it.
  std::optional<Stage> opens_with;
  std::optional<DurationRange> closes;
  std::string reason;
  std::string source;
  Place place;
};

/// Reads one [[recoat]] or [[pair.interval]].
/// @param reason,source taken where the interval has none of its own; empty: the keys are required.
[[nodiscard]] IntervalHours read_interval(TomlTable& table,
                                          const std::string& reason,
                                          const std::string& source);

/// Gives an interval the laws of the product under the next coat: those of its "recoat" stage, or
/// where it has none those of its latest stage before it. An interval without an opening opens with
/// the "recoat" stage; a "never" without one begins with the coat and has no phases.
/// Errors: kInputFile at the interval's place.
[[nodiscard]] Result<RecoatInterval> with_laws(const IntervalHours& interval,
                                               const std::string& product,
                                               const Stages& stages,
                                               const std::string& abrade_grit);

}  // namespace coatwright
