#pragma once

#include <vector>

#include "scheduling/construction.h"

namespace coatwright {

/// Orders to begin a search with: by the latest or the earliest start, by slack, by due dates, and
/// job by job. Source: the rules of [kolisch1996]; job by job is common practice in shops.
/// @param windows drawn from all lags.
[[nodiscard]] std::vector<PlacingOrder> priority_orders(const Project& project,
                                                        const LagNetwork& network,
                                                        const Windows& windows,
                                                        bool with_blocks);

/// Which job each activity belongs to; those in none are numbered on by component.
[[nodiscard]] std::vector<int> groups_of(const Project& project, const LagNetwork& network);

/// How many numbers groups_of() gave out; a job without activities of its own has one too.
[[nodiscard]] std::size_t group_count(const Project& project, const std::vector<int>& groups);

}  // namespace coatwright
