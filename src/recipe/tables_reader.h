#pragma once

#include <map>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/result.h"
#include "recipe/tables.h"
#include "recipe/timing_reader.h"

namespace coatwright {

/// A pair as the compatibility table gives it: the laws of the product under are not known there.
struct PairEntry {
  PairRule rule;  ///< Without its intervals.
  std::vector<IntervalHours> intervals;
};

/// By the names of the products under and over.
using Compatibility = std::map<std::pair<std::string, std::string>, PairEntry>;
using SpeciesTable = std::map<std::string, Species, std::less<>>;

/// Read recipes/compatibility/NAME.toml, species.toml and working_times.toml; recipes/README.md
/// documents the keys. @param label the file's name as errors show it. Errors: kInputFile with
/// file, line, key, the value found and what is allowed.
[[nodiscard]] Result<Compatibility> parse_compatibility(std::string_view text,
                                                        const std::string& label);
[[nodiscard]] Result<SpeciesTable> parse_species(std::string_view text, const std::string& label);
[[nodiscard]] Result<WorkingTimes> parse_working_times(std::string_view text,
                                                       const std::string& label);

}  // namespace coatwright
